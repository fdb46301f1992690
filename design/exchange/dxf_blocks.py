"""Blocks taken apart, within bounds: a few lines of text can stand for millions of lines drawn."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from ezdxf.entities.dxfentity import DXFEntity

from design.exchange import limits
from design.exchange.refused import FileRefused

_MOST_STEPS = 50_000  # entities met on the way, those that are left out included


def exploded(space: Iterable[DXFEntity], leave_out: Callable[[str], None]) -> Iterator[DXFEntity]:
    """Every entity of the space, those of its blocks where they were put. Raises FileRefused."""
    steps = 0
    queue: list[Iterator[DXFEntity]] = [iter(space)]
    while queue:
        entity = next(queue[-1], None)
        if entity is None:
            queue.pop()
            continue
        steps += 1
        if steps > _MOST_STEPS:
            raise FileRefused(
                f"With its blocks taken apart the drawing has more than {_MOST_STEPS:,} entities. "
                "Leave out what is not the garden."
            )
        if entity.dxftype() != "INSERT":
            yield entity
        elif len(queue) > limits.MAX_DEPTH:
            raise FileRefused(f"The drawing has blocks in blocks, more than {limits.MAX_DEPTH} deep.")
        else:
            queue.append(_content(entity, leave_out))


def _content(insert: Any, leave_out: Callable[[str], None]) -> Iterator[DXFEntity]:
    for single in insert.multi_insert() if insert.mcount > 1 else (insert,):
        yield from single.attribs
        yield from single.virtual_entities(skipped_entity_callback=lambda e, _: leave_out(e.dxftype()))
