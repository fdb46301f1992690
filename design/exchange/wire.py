"""Shapes as JSON text: from the child process that read the file, and while they are kept."""

import json
from typing import Any

from design.exchange.shapes import Path, Shape, Shapes


def to_wire(shapes: Shapes) -> str:
    rows = [[s.layer, s.kind, s.points, s.label, s.holes, s.z, dict(s.own) or None] for s in shapes.shapes]
    whole = {"shapes": rows, "unit": shapes.unit, "notes": shapes.notes, "origin": shapes.origin}
    return json.dumps(whole, allow_nan=False, separators=(",", ":"))


def from_wire(text: str) -> Shapes:
    """What ``to_wire`` wrote; anything else raises ValueError, KeyError or TypeError."""
    whole = json.loads(text)
    origin = whole["origin"]
    return Shapes(
        tuple(_shape(row) for row in whole["shapes"]),
        whole["unit"],
        tuple(whole["notes"]),
        (origin[0], origin[1]) if origin else None,
    )


def _shape(row: list[Any]) -> Shape:
    layer, kind, points, label, holes, z, own = row
    return Shape(layer, kind, _path(points), label, tuple(_path(hole) for hole in holes), z, own or {})


def _path(points: list[list[float]]) -> Path:
    return tuple((x, y) for x, y in points)
