"""Scale bar and north arrow, in a strip of their own below the map."""

from .measures import METRE_PER_FOOT
from .scene import Scene
from .shapes import Line, Polygon, Shape, Text

STRIP = 34.0  # height of the strip at text size 12
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)


def draw_furniture(scene: Scene, top: float) -> None:
    scene.add("scale", "scale-bar", "", "Scale bar", _scale_bar(scene, top + 14 * scene.unit))
    scene.add("scale", "north", "", "North is up", _north(scene, top + 16 * scene.unit))


def bar_length(scale: float, width: float, us: bool) -> tuple[int, float]:
    """A round length of at most a third of the width: its number, and its page units."""
    unit = scale * (METRE_PER_FOOT if us else 1.0)
    number = max((s for s in _STEPS if s * unit <= width / 3), default=1)
    return number, number * unit


def _scale_bar(scene: Scene, y: float) -> list[Shape]:
    us = scene.options.units == "us"
    number, length = bar_length(scene.frame.scale, scene.options.width, us)
    left, tall, quarter = 26.0, 5 * scene.unit, length / 4
    shapes: list[Shape] = []
    for i in range(4):
        x0, x1 = left + i * quarter, left + (i + 1) * quarter
        ring = ((x0, y), (x1, y), (x1, y + tall), (x0, y + tall))
        shapes.append(Polygon((ring,), "furniture" if i % 2 == 0 else "furniture-open"))
    unit_words = "ft" if us else "m"
    size, below = scene.size * 0.85, y + tall + scene.size
    shapes.append(Text((left, below), "0", "furniture-text", size, "middle"))
    shapes.append(Text((left + length, below), f"{number} {unit_words}", "furniture-text", size, "middle"))
    return shapes


def _north(scene: Scene, y: float) -> list[Shape]:
    x, u = scene.options.width - 30 * scene.unit, scene.unit
    needle = ((x, y - 12 * u), (x + 4 * u, y + 8 * u), (x - 4 * u, y + 8 * u))
    base = Line(((x - 8 * u, y + 11 * u), (x + 8 * u, y + 11 * u)), "furniture")
    return [
        Polygon((needle,), "furniture"),
        base,
        Text((x - 10 * u, y + 4 * u), "N", "furniture-text", scene.size, "end"),
    ]
