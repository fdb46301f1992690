"""Fewer corners, by the method of Douglas and Peucker, within a stated tolerance."""

from dataclasses import replace

import shapely

from design.exchange import limits
from design.exchange.refused import FileRefused
from design.exchange.shapes import Path, Shape, Shapes, across

SHARE = 1e-4  # of a shape's own size: 5 mm on a lawn of 50 m
STEPS = 4
FEWEST = {"point": 1, "line": 2, "ring": 4}  # corners of a shape that nothing is gained on


def thin(shapes: Shapes) -> Shapes:
    """At most ``MAX_KEPT_POINTS`` corners, each shape within a share of its own size of what it was.

    The share begins at nothing, then at ``SHARE``, and is four times as large at each step.
    Raises FileRefused beyond the last.
    """
    count = sum(shape.point_count for shape in shapes.shapes)
    if count <= limits.MAX_KEPT_POINTS:
        return shapes
    for step in range(STEPS):
        share = SHARE * 4**step
        thinned = [simplified(shape, across([shape]) * share) for shape in shapes.shapes]
        kept = sum(shape.point_count for shape in thinned)
        if kept <= limits.MAX_KEPT_POINTS:
            note = (
                f"Its {count:,} corners were thinned to {kept:,}: no line moved by more than "
                f"1/{round(1 / share):,} of its own size."
            )
            return Shapes(tuple(thinned), shapes.unit, (*shapes.notes, note), shapes.origin)
    raise FileRefused(
        f"The file has {count:,} corners, and thinning leaves {kept:,}; "
        f"{limits.MAX_KEPT_POINTS:,} are taken. "
        "Leave out the layers that are not the garden."
    )


def simplified(shape: Shape, tolerance: float) -> Shape:
    """The shape with no corner further than ``tolerance`` from its new line; rings stay rings."""
    if shape.point_count <= FEWEST[shape.kind]:
        return shape
    if shape.kind == "line":
        return replace(shape, points=_path(shapely.LineString(shape.points), tolerance))
    if shape.kind == "ring":
        holes = tuple(_ring(hole, tolerance) for hole in shape.holes)
        return replace(shape, points=_ring(shape.points, tolerance), holes=holes)
    return shape


def _ring(points: Path, tolerance: float) -> Path:
    """A ring that collapses, or would cross itself, stays as it is."""
    before = shapely.Polygon(points)
    after = shapely.Polygon(points).simplify(tolerance, preserve_topology=True)
    if after.is_empty or after.geom_type != "Polygon" or (before.is_valid and not after.is_valid):
        return points
    return _coordinates(after.exterior)[:-1]


def _path(line: shapely.LineString, tolerance: float) -> Path:
    return _coordinates(line.simplify(tolerance, preserve_topology=False))


def _coordinates(line: shapely.LineString) -> Path:
    return tuple((x, y) for x, y in shapely.get_coordinates(line).tolist())
