"""From site metres to page units: where the map sits on the page and at what scale."""

from collections.abc import Iterable
from dataclasses import dataclass

from design.document import Plan
from design.report import XY

PAD = 26.0  # page units between the map and the edge, room for labels


@dataclass(frozen=True)
class Frame:
    """``scale`` is page units per metre; y turns over, since the page counts downwards."""

    west: float
    north: float
    scale: float
    left: float
    top: float
    width: float
    height: float

    def page(self, point: XY) -> XY:
        return (
            self.left + (point[0] - self.west) * self.scale,
            self.top + (self.north - point[1]) * self.scale,
        )

    def path(self, points: Iterable[XY]) -> tuple[XY, ...]:
        return tuple(self.page(p) for p in points)


def plan_points(plan: Plan) -> list[XY]:
    """Every point that has to be on the page."""
    ground, layout = plan.ground, plan.layout
    points: list[XY] = [plan.supply.at]
    points += [p for area in ground.areas for p in area.outline]
    points += [p for surface in ground.surfaces for p in surface.outline]
    points += [p for service in ground.services for p in service.path]
    points += [mark.at for mark in ground.marks] + [node.at for node in layout.nodes]
    points += [p for pipe in layout.pipes for p in pipe.via]
    points += [p for cable in layout.cables for p in cable.via]
    points += [p for sleeve in layout.sleeves for p in sleeve.path]
    return points


def fit_frame(points: Iterable[XY], width: float, max_height: float | None) -> Frame:
    """The largest scale at which all points fit; never taller than 1.25 times the width."""
    xs, ys = zip(*points, strict=True)
    span_x, span_y = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    tallest = max_height or width * 1.25
    scale = min((width - 2 * PAD) / span_x, (tallest - 2 * PAD) / span_y)
    left = (width - span_x * scale) / 2
    return Frame(min(xs), max(ys), scale, left, PAD, width, span_y * scale + 2 * PAD)
