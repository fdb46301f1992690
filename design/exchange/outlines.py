"""One sound outline, or path, of a shape: what a plan takes in place of what was drawn."""

import shapely

from design.exchange.shapes import Path, Shape
from design.exchange.simplify import simplified

TOLERANCE_M = 0.01  # a trench is dug no better
MOST_CORNERS = 400  # of one outline or path; a plan takes 2,000, and its check looks at each
FENCE_M = 0.1  # thickness of a fence that is drawn as a line
TRUNK_M = 0.3  # radius of a tree that is drawn as a point: common practice, no source

_Outline = tuple[Path, tuple[Path, ...], str]
_NONE: _Outline = ((), (), "")


def outline_of(shape: Shape, kind: str, *, exact: bool = False) -> _Outline:
    """Outline, holes, and a note where it is not what was drawn; no outline where there is none to make.

    ``exact`` leaves what is sound as it is, to the corner. Metres.
    """
    if shape.kind == "point":
        if kind != "tree":
            return (*_NONE[:2], "point left out: it has no outline.")
        return (*_rings(shapely.Point(shape.points[0]).buffer(TRUNK_M, quad_segs=3)), "")
    if shape.kind == "line":
        return _from_line(shape, kind)
    drawn = shapely.Polygon(shape.points, shape.holes)
    if drawn.is_valid and drawn.area > 1e-6:
        if exact:
            return shape.points, shape.holes, ""
        return _thinned(shape)
    mended = _largest(shapely.make_valid(drawn))
    if mended is None:
        return (*_NONE[:2], "outline left out: it encloses nothing.")
    outline, holes = _rings(mended)
    thinned = _thinned(Shape(shape.layer, "ring", outline, shape.label, holes))
    return (*thinned[:2], "outline crossed itself: its largest part was taken.")


def path_of(shape: Shape, *, exact: bool = False) -> tuple[Path, str]:
    """The line of something buried; a ring becomes a line that comes back. Metres."""
    if shape.kind == "point":
        return (), "point left out: what is buried is drawn as a line."
    line = (*shape.points, shape.points[0]) if shape.closed else shape.points
    return (line if exact else _fewer(Shape(shape.layer, "line", line)).points), ""


def _from_line(shape: Shape, kind: str) -> _Outline:
    if kind == "fence":
        line = shapely.LineString(_fewer(shape).points)
        wall = _largest(line.buffer(FENCE_M / 2, cap_style="flat", join_style="mitre"))
        return (*_rings(wall), "") if wall is not None else (*_NONE[:2], "line left out: it is too short.")
    if len(shape.points) < 3:
        return (*_NONE[:2], "line left out: it encloses nothing.")
    outline, holes, note = outline_of(Shape(shape.layer, "ring", shape.points, shape.label), kind)
    return outline, holes, note or "open line was closed straight from its end to its beginning."


def _thinned(shape: Shape) -> _Outline:
    fewer = _fewer(shape)
    whole = shapely.Polygon(fewer.points, fewer.holes)
    if not whole.is_valid or not whole.area > 1e-6:
        fewer = shape  # the holes came too near the outline
    return fewer.points, fewer.holes, ""


def _fewer(shape: Shape) -> Shape:
    """Within the tolerance, doubled until no more corners are left than a plan is good for."""
    tolerance_m, found = TOLERANCE_M, simplified(shape, TOLERANCE_M)
    while found.point_count > MOST_CORNERS and tolerance_m < 1:
        tolerance_m *= 2
        found = simplified(shape, tolerance_m)
    return found


def _largest(found: shapely.Geometry) -> shapely.Polygon | None:
    parts = [part for part in shapely.get_parts(found) if part.geom_type in ("Polygon", "MultiPolygon")]
    polygons = [piece for part in parts for piece in shapely.get_parts(part) if piece.area > 1e-6]
    return max(polygons, key=lambda piece: piece.area, default=None)


def _rings(polygon: shapely.Polygon) -> tuple[Path, tuple[Path, ...]]:
    return _corners(polygon.exterior), tuple(_corners(hole) for hole in polygon.interiors)


def _corners(ring: shapely.LinearRing) -> Path:
    return tuple((x, y) for x, y in shapely.get_coordinates(ring).tolist()[:-1])
