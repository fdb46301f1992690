"""What differs between two plan documents, entity by entity, in metres.

Works on plain documents, so that a draft that is no valid plan yet can be compared as well.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import shapely

from design.geometry import XY, path_length, ring_area

Document = Mapping[str, Any]
Entity = dict[str, Any]
Kind = Literal["added", "removed", "moved", "changed"]

GROUPS: dict[str, tuple[str, str]] = {
    "marks": ("ground", "mark"),
    "areas": ("ground", "area"),
    "surfaces": ("ground", "surface"),
    "services": ("ground", "buried service"),
    "levels": ("ground", "level"),
    "nodes": ("layout", "device"),
    "pipes": ("layout", "pipe"),
    "cables": ("layout", "cable"),
    "sleeves": ("layout", "sleeve"),
    "notes": ("layout", "note"),
    "cases": ("layout", "case"),
}
_PLACES = ("at", "outline", "holes", "path", "via")
_STILL_M = 0.0005  # half of the grid that plans are drawn on
_NOWHERE_M = 1e6  # a draft may hold any number


@dataclass(frozen=True)
class Change:
    """One entity. ``name`` is its word: head, pipe…

    ``moved_m`` is the farthest that a part of it moved, ``grown`` what its length [m] or area [m2]
    gained, ``fields`` its other fields, before and after.
    """

    kind: Kind
    group: str
    name: str
    id: str
    label: str
    moved_m: float = 0.0
    grown: float = 0.0
    fields: tuple[tuple[str, Any, Any], ...] = ()

    @property
    def is_by_area(self) -> bool:
        return self.group in ("areas", "surfaces")


@dataclass(frozen=True)
class Comparison:
    """All changes, and sums [m, m2] before and after by name, only where they differ."""

    changes: tuple[Change, ...]
    sums: tuple[tuple[str, str, float, float], ...]  # name, unit, before, after

    def of(self, kind: Kind) -> tuple[Change, ...]:
        return tuple(change for change in self.changes if change.kind == kind)

    @property
    def ids(self) -> frozenset[str]:
        return frozenset(change.id for change in self.changes)


def compare(before: Document, after: Document) -> Comparison:
    """What has to be done to the first document to make it the second."""
    changes = [*_supply(before, after)]
    for group in GROUPS:
        changes += _group(group, before, after)
    return Comparison(tuple(changes), tuple(_sums(before, after)))


def entities(document: Document, group: str) -> dict[str, Entity]:
    """The entities of one list by id, by label where they have none, by place where they have neither."""
    block = document.get(GROUPS[group][0])
    rows = block.get(group) if isinstance(block, Mapping) else None
    found = [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []
    return {str(row.get("id") or row.get("label") or f"{place + 1}"): row for place, row in enumerate(found)}


def path_of(entity: Entity, nodes: Mapping[str, Entity]) -> tuple[XY, ...]:
    """The points of an entity in order, with both ends for a pipe or a cable; empty where one is missing."""
    if "from" in entity:
        ends = [nodes.get(str(entity.get(end)), {}).get("at") for end in ("from", "to")]
        return _points([ends[0], *_rows(entity.get("via")), ends[1]])
    if "at" in entity:
        return _points([entity["at"]])
    return _points(entity.get("path") or entity.get("outline") or [])


def _group(group: str, before: Document, after: Document) -> Iterator[Change]:
    old, new = entities(before, group), entities(after, group)
    nodes = entities(before, "nodes"), entities(after, "nodes")
    for key in old.keys() | new.keys():
        change = _entity(group, key, old.get(key), new.get(key), nodes)
        if change is not None:
            yield change


def _entity(
    group: str,
    key: str,
    old: Entity | None,
    new: Entity | None,
    nodes: tuple[Mapping[str, Entity], Mapping[str, Entity]],
) -> Change | None:
    shown = new or old or {}
    name, label = _name(group, shown), str(shown.get("label") or "")
    paths = path_of(old or {}, nodes[0]), path_of(new or {}, nodes[1])
    grown = _size(group, new or {}, paths[1]) - _size(group, old or {}, paths[0])
    if old is None or new is None:
        return Change("added" if old is None else "removed", group, name, key, label, 0.0, grown)
    moved_m = _moved(paths[0], paths[1], group)
    fields = _fields(old, new)
    if moved_m <= _STILL_M and not fields and old.get("holes") == new.get("holes"):
        return None
    kind: Kind = "moved" if moved_m > _STILL_M else "changed"
    return Change(kind, group, name, key, label, moved_m, grown, fields)


def _supply(before: Document, after: Document) -> Iterator[Change]:
    old, new = before.get("supply") or {}, after.get("supply") or {}
    if old == new:
        return
    if not old or not new:
        yield Change("added" if new else "removed", "supply", "supply", "supply", "")
        return
    moved_m = _moved(path_of(old, {}), path_of(new, {}), "supply")
    kind: Kind = "moved" if moved_m > _STILL_M else "changed"
    yield Change(kind, "supply", "supply", "supply", "", moved_m, 0.0, _fields(old, new))


def _name(group: str, entity: Entity) -> str:
    return str(entity.get("kind") or "device") if group == "nodes" else GROUPS[group][1]


def _fields(old: Entity, new: Entity) -> tuple[tuple[str, Any, Any], ...]:
    names = [name for name in {**old, **new} if name not in _PLACES and name != "id"]
    return tuple((name, old.get(name), new.get(name)) for name in names if old.get(name) != new.get(name))


def _size(group: str, entity: Entity, path: Sequence[XY]) -> float:
    """Length [m], or area without holes [m2]."""
    if group in ("areas", "surfaces"):
        holes = _rows(entity.get("holes"))
        return ring_area(path) - sum(ring_area(_points(hole)) for hole in holes) if path else 0.0
    return path_length(path) if len(path) > 1 else 0.0


def _moved(before: Sequence[XY], after: Sequence[XY], group: str) -> float:
    """How far the farthest point moved [m]; between lines drawn otherwise the Hausdorff distance."""
    if not before or not after:
        return 0.0
    if len(before) == len(after):
        by_corner = max(math.dist(a, b) for a, b in zip(before, after, strict=True))
        if len(before) <= 2 or by_corner <= _STILL_M:
            return by_corner
    shapes = [_shape(path, group) for path in (before, after)]
    return float(shapely.hausdorff_distance(shapes[0], shapes[1]))


def _shape(path: Sequence[XY], group: str) -> shapely.Geometry:
    if len(path) == 1:
        return shapely.Point(path[0])
    # a ring of two corners is being drawn; as a line it can be measured too
    return shapely.LineString([*path, path[0]] if group in ("areas", "surfaces") else path)


def _points(rows: Any) -> tuple[XY, ...]:
    """The points, or nothing where one of them is none."""
    try:
        points = tuple((float(x), float(y)) for x, y in rows)
    except (TypeError, ValueError, OverflowError):
        return ()
    return points if all(abs(value) < _NOWHERE_M for point in points for value in point) else ()


def _rows(value: Any) -> list[Any]:
    """The list, or an empty one where a draft has something else there."""
    return value if isinstance(value, list) else []


def _sums(before: Document, after: Document) -> Iterator[tuple[str, str, float, float]]:
    old, new = _totals(before), _totals(after)
    for name, unit in dict.fromkeys((*old, *new)):
        first, second = old.get((name, unit), 0.0), new.get((name, unit), 0.0)
        if abs(first - second) > _STILL_M:
            yield (name, unit, first, second)


def _totals(document: Document) -> dict[tuple[str, str], float]:
    """Watered area, pipes and cables by part, and how many devices of each part there are."""
    nodes, totals = entities(document, "nodes"), dict[tuple[str, str], float]()

    def add(name: str, unit: str, amount: float) -> None:
        totals[name, unit] = totals.get((name, unit), 0.0) + amount

    for area in entities(document, "areas").values():
        add("watered area", "m2", _size("areas", area, path_of(area, nodes)))
    for group in ("pipes", "cables"):
        for line in entities(document, group).values():
            path = path_of(line, nodes)
            add(str(line.get("part") or GROUPS[group][1]), "m", path_length(path) if path else 0.0)
    for node in nodes.values():
        if node.get("part"):
            add(str(node["part"]), "each", 1)
    return totals
