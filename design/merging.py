"""Two versions of a document that began from the same one, put together entity by entity.

An entity is known by its id, a case by its label, and what has neither by all that it says.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from design.unfinished import LISTS, entities_of, ids_of

Side = Literal["mine", "theirs"]
Entity = dict[str, Any]
Document = dict[str, Any]
NAMED_ENDS = ("from", "to", "area")


@dataclass(frozen=True)
class Conflict:
    """One entity that both changed, and not alike. None on a side: taken out there."""

    list_name: str  # "supply" for the supply
    id: str
    base: Entity | None
    mine: Entity | None
    theirs: Entity | None

    @property
    def key(self) -> str:
        return f"{self.list_name}.{self.id}"


@dataclass(frozen=True)
class Merged:
    """``renamed``: entities of mine whose new id theirs had given to something else, by old id."""

    document: Document
    conflicts: tuple[Conflict, ...]
    renamed: dict[str, str] = field(default_factory=dict)


def merge(
    base: Document, mine: Document, theirs: Document, choices: Mapping[str, Side] | None = None
) -> Merged:
    """All that either side added, changed or took out.

    ``choices`` says by the key of a conflict which side holds; without one it is mine, but
    for what I took out and they changed, which stays.
    """
    renamed = _new_names(base, mine, theirs)
    mine = _with_names(mine, renamed)
    conflicts: list[Conflict] = []
    document: Document = {"format": "plan/1"}
    for block, names in LISTS.items():
        document[block] = {}
        for name in names:
            sides = [rows_by_key(entities_of(side, block, name)) for side in (base, mine, theirs)]
            document[block][name] = _merged_rows(name, sides, choices or {}, conflicts)
    supplies = [{"supply": side["supply"]} if side.get("supply") else {} for side in (base, mine, theirs)]
    for supply in _merged_rows("supply", supplies, choices or {}, conflicts):
        document["supply"] = supply
    return Merged(document, tuple(conflicts), renamed)


def _merged_rows(
    name: str, sides: list[dict[str, Entity]], choices: Mapping[str, Side], conflicts: list[Conflict]
) -> list[Entity]:
    """Rows in the order of the base, then the new ones by id, so that neither side comes first."""
    base, mine, theirs = sides
    rows = []
    for key in [*base, *sorted((mine.keys() | theirs.keys()) - base.keys())]:
        was, my, their = base.get(key), mine.get(key), theirs.get(key)
        if my == their or their == was:
            row = my
        elif my == was:
            row = their
        else:
            conflict = Conflict(name, key, was, my, their)
            conflicts.append(conflict)
            side = choices.get(conflict.key) or ("theirs" if my is None else "mine")
            row = my if side == "mine" else their
        if row is not None:
            rows.append(row)
    return rows


def rows_by_key(rows: Iterable[Entity]) -> dict[str, Entity]:
    """A row whose key another one has already is told apart by its number."""
    found: dict[str, Entity] = {}
    for row in rows:
        key = first = str(row.get("id") or row.get("label") or json.dumps(row, sort_keys=True))
        number = 1
        while key in found:
            number += 1
            key = f"{first} ({number})"
        found[key] = row
    return found


def _new_names(base: Document, mine: Document, theirs: Document) -> dict[str, str]:
    """New ids for what both sides added under one id, though it is not the same."""
    known, taken = ids_of(base), ids_of(mine) | ids_of(theirs) | ids_of(base)
    my_rows, their_rows = _by_id(mine), _by_id(theirs)
    names = {}
    for name in sorted((my_rows.keys() & their_rows.keys()) - known):
        if my_rows[name] != their_rows[name]:
            number = 2
            while f"{name[:36]}-{number}" in taken:
                number += 1
            names[name] = f"{name[:36]}-{number}"
            taken.add(names[name])
    return names


def _by_id(document: Document) -> dict[str, tuple[str, Entity]]:
    return {
        str(row["id"]): (name, row)
        for block, names in LISTS.items()
        for name in names
        for row in entities_of(document, block, name)
        if row.get("id")
    }


def _with_names(document: Document, names: Mapping[str, str]) -> Document:
    """The document with those ids replaced, wherever they are named."""
    if not names:
        return document
    return {
        **document,
        **{
            block: {
                name: [_renamed(row, names) for row in entities_of(document, block, name)]
                for name in LISTS[block]
            }
            for block in LISTS
        },
    }


def _renamed(row: Entity, names: Mapping[str, str]) -> Entity:
    new = dict(row)
    for key in ("id", *NAMED_ENDS):
        if isinstance(row.get(key), str) and row[key] in names:
            new[key] = names[row[key]]
    if isinstance(row.get("open"), list):
        new["open"] = [names.get(zone, zone) if isinstance(zone, str) else zone for zone in row["open"]]
    return new
