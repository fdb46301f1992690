"""From the numbers of a file to site metres: unit, turn, and where it is put."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from design.exchange.projecting import TangentPlane
from design.exchange.shapes import Path, Shape, Shapes, extent
from design.exchange.unit_guess import DEGREES, METRES
from design.geometry import XY

Move = Callable[[XY], XY]


@dataclass(frozen=True)
class Placing:
    """``turn_deg`` is clockwise, about the lower left corner; ``to_zero`` then puts that corner on 0, 0."""

    unit: str
    to_zero: bool = False
    turn_deg: float = 0.0


def placed(shapes: Shapes, placing: Placing) -> Shapes:
    """The shapes in site metres. Degrees are projected at their middle, or at the file's own origin."""
    found = _moved(shapes.shapes, _to_metres(shapes, placing.unit))
    if placing.turn_deg % 360 and (corner := extent(found)):
        found = _moved(found, _turning((corner[0], corner[1]), placing.turn_deg))
    if placing.to_zero and (corner := extent(found)):
        left, low = corner[0], corner[1]
        found = _moved(found, lambda at: (at[0] - left, at[1] - low))
    return replace(shapes, shapes=found, unit="m")


def _to_metres(shapes: Shapes, unit: str) -> Move:
    if unit == DEGREES:
        return TangentPlane(shapes.origin or _middle(shapes)).metres
    factor = METRES[unit]
    return lambda at: (at[0] * factor, at[1] * factor)


def _middle(shapes: Shapes) -> XY:
    west, south, east, north = extent(shapes.shapes) or (0.0, 0.0, 0.0, 0.0)
    return (west + east) / 2, (south + north) / 2


def _turning(about: XY, turn_deg: float) -> Move:
    cosine, sine = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def turn(at: XY) -> XY:
        x, y = at[0] - about[0], at[1] - about[1]
        return about[0] + x * cosine + y * sine, about[1] - x * sine + y * cosine

    return turn


def _moved(shapes: tuple[Shape, ...], move: Move) -> tuple[Shape, ...]:
    def path(points: Path) -> Path:
        return tuple(move(point) for point in points)

    return tuple(
        replace(shape, points=path(shape.points), holes=tuple(path(hole) for hole in shape.holes))
        for shape in shapes
    )
