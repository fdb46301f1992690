"""The measured ground as the ``ground`` of a plan document.

Areas, surfaces and services are taken over as they are. A plan has no boundary, only what stands on it: a
fence becomes a strip of surface along each of its sides, and a property line the neighbour's ground beyond
each side, so that a trench that leaves the garden and water that falls beyond it are found.
"""

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from shapely.geometry import Polygon

from design.geometry import snap
from design.report import XY
from design.survey.document import OutlineRow, PlaneSurvey
from design.survey.plane_outlines import Outline
from design.survey.reduce import PlaneResult

# common practice, no source: how wide a fence is drawn, and how much of the neighbour's ground is watched
FENCE_WIDTH_M = 0.10
NEIGHBOUR_DEPTH_M = 2.0
# beyond this a mitre would run far off
_LEAST_MITRE = 0.2


def ground_of(result: PlaneResult, survey: PlaneSurvey) -> dict[str, Any]:
    """Marks, areas, surfaces and services of a plan; rows that could not be read as outlines are left out."""
    ground: dict[str, Any] = {"marks": _marks(result, survey), "areas": [], "surfaces": [], "services": []}
    for place, row in enumerate(survey.outlines):
        if place not in result.outlines:
            continue
        outline = result.outlines[place]
        if row.becomes == "area":
            ground["areas"].append(_entity(row, "cover", "outline", outline.points))
        elif row.becomes == "surface":
            ground["surfaces"].append(_entity(row, "kind", "outline", outline.points))
        elif row.becomes == "service":
            ground["services"].append(_service(row, outline))
        else:
            ground["surfaces"] += _boundary(row, outline)
    return ground


def sides_of(survey: PlaneSurvey) -> Callable[[str], bool]:
    """Whether an id is that of a side of one of its boundaries, of now or of before."""
    names = {row.id for row in survey.outlines if row.becomes == "boundary"}

    def is_side(name: str) -> bool:
        outline, dash, number = name.rpartition("-")
        return bool(dash) and number.isdecimal() and outline in names

    return is_side


def _marks(result: PlaneResult, survey: PlaneSurvey) -> list[dict[str, Any]]:
    labels = {row.name: row.label for row in survey.marks}
    return [
        {"id": name, "label": labels.get(name, ""), "at": list(snap(at))} for name, at in result.marks.items()
    ]


def _entity(row: OutlineRow, kind: str, shape: str, points: Sequence[XY]) -> dict[str, Any]:
    found = {"id": row.id, "label": row.label, shape: [list(snap(point)) for point in points]}
    return {**found, kind: row.kind} if row.kind else found


def _service(row: OutlineRow, outline: Outline) -> dict[str, Any]:
    found = _entity(row, "kind", "path", outline.points)
    return {**found, "depth_m": row.depth.m} if row.depth else found


def _boundary(row: OutlineRow, outline: Outline) -> Iterator[dict[str, Any]]:
    """A strip per side: outside of a ring, along a line."""
    kind = "neighbour" if row.kind == "neighbour" else "fence"
    width_m = NEIGHBOUR_DEPTH_M if kind == "neighbour" else FENCE_WIDTH_M
    points, outer = _with_outer(outline, width_m)
    for number, side in enumerate(itertools.pairwise(range(len(points))), start=1):
        a, b = side
        ring = _strip((points[a], points[b]), (outer[a], outer[b]), width_m)
        outline_points = [list(snap(point)) for point in ring]
        yield {"id": f"{row.id}-{number}", "label": row.label, "kind": kind, "outline": outline_points}


def _with_outer(outline: Outline, width_m: float) -> tuple[list[XY], list[XY]]:
    """The line, closed where it is a ring, and the same line moved to its outer side."""
    points = list(outline.points)
    closed = not outline.is_open
    if closed and Polygon(points).exterior.is_ccw:
        points.reverse()  # clockwise, so that left is outside
    normals = [_left(a, b) for a, b in itertools.pairwise([*points, points[0]] if closed else points)]
    before = [normals[-1], *normals] if closed else [normals[0], *normals]
    after = normals if closed else [*normals, normals[-1]]
    outer = [_mitred(point, n1, n2, width_m) for point, n1, n2 in zip(points, before, after, strict=False)]
    return ([*points, points[0]], [*outer, outer[0]]) if closed else (points, outer)


def _left(start: XY, end: XY) -> XY:
    length = math.dist(start, end) or 1.0
    return (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)


def _mitred(point: XY, before: XY, after: XY, width_m: float) -> XY:
    share = width_m / max(_LEAST_MITRE, 1 + before[0] * after[0] + before[1] * after[1])
    return (point[0] + share * (before[0] + after[0]), point[1] + share * (before[1] + after[1]))


def _strip(side: tuple[XY, XY], outer: tuple[XY, XY], width_m: float) -> list[XY]:
    ring = [side[0], side[1], outer[1], outer[0]]
    if Polygon(ring).is_valid:
        return ring
    # a short side in a narrow corner: straight out, without a mitre
    east, north = _left(*side)
    return [*side, *((x + width_m * east, y + width_m * north) for x, y in reversed(side))]
