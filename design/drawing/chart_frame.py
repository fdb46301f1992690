"""Axes of a chart: round steps, a quiet grid, words at the ends."""

from dataclasses import dataclass
from math import floor, log10

from .labels import LabelSpace, around
from .shapes import XY, Line, Shape, Text

_TICKS = 5


@dataclass(frozen=True)
class Axis:
    """From zero to a round top."""

    words: str
    top: float
    step: float


def round_axis(words: str, highest: float) -> Axis:
    """An axis of about five round steps that holds ``highest`` with a little air."""
    wanted = max(highest, 1e-6) * 1.05 / _TICKS
    power = 10 ** floor(log10(wanted))
    step = next(m * power for m in (1, 2, 2.5, 5, 10) if m * power >= wanted * (1 - 1e-9))
    count = int(highest * 1.05 / step - 1e-9) + 1
    return Axis(words, step * count, step)


@dataclass(frozen=True)
class ChartFrame:
    width: float
    height: float
    size: float  # of text
    x: Axis
    y: Axis

    @property
    def left(self) -> float:
        return self.size * 4.2

    @property
    def bottom(self) -> float:
        return self.height - self.size * 3.4

    @property
    def top(self) -> float:
        return self.size * 2.4

    @property
    def right(self) -> float:
        return self.width - self.size * 1.6

    def page(self, x: float, y: float) -> XY:
        return (
            self.left + (self.right - self.left) * x / self.x.top,
            self.bottom - (self.bottom - self.top) * y / self.y.top,
        )

    def space(self) -> LabelSpace:
        space, steps = LabelSpace(self.width, self.bottom, self.left), len(self.y.words)
        for i in range(steps):  # the words of the upright axis
            space.block((self.size * (0.7 + i * 0.56), self.size * 0.8), self.size * 0.6)
        return space


def axis_shapes(frame: ChartFrame) -> list[Shape]:
    shapes: list[Shape] = [*_grid(frame)]
    shapes.append(
        Line(((frame.left, frame.top), (frame.left, frame.bottom), (frame.right, frame.bottom)), "axis")
    )
    size = frame.size
    shapes.append(
        Text((frame.right, frame.bottom + size * 2.8), frame.x.words, "furniture-text", size, "end")
    )
    shapes.append(Text((size * 0.4, size * 1.2), frame.y.words, "furniture-text", size))
    return shapes


def _grid(frame: ChartFrame) -> list[Shape]:
    shapes: list[Shape] = []
    size = frame.size * 0.9
    for i in range(round(frame.y.top / frame.y.step) + 1):
        x, y = frame.page(0, i * frame.y.step)
        shapes.append(Line(((x, y), (frame.right, y)), "grid"))
        shapes.append(
            Text((x - size * 0.5, y + size * 0.35), f"{i * frame.y.step:g}", "furniture-text", size, "end")
        )
    for i in range(round(frame.x.top / frame.x.step) + 1):
        x, y = frame.page(i * frame.x.step, 0)
        shapes.append(Line(((x, frame.top), (x, y)), "grid"))
        shapes.append(Text((x, y + size * 1.3), f"{i * frame.x.step:g}", "furniture-text", size, "middle"))
    return shapes


def point_label(space: LabelSpace, at: XY, words: str, size: float) -> list[Shape]:
    """The words beside a point, where nothing else stands; nothing when there is no room."""
    places = around(at, words, "label", size, size * 0.75)
    text = space.put(sorted(places, key=lambda place: place.anchor != "middle"))
    return [text] if text else []
