"""What a file of another program holds, before anybody said what it is in the garden."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from design.exchange import limits
from design.exchange.refused import FileRefused
from design.geometry import XY, Rings

Kind = Literal["point", "line", "ring"]
Path = tuple[XY, ...]
_NO_OWN: Mapping[str, Any] = {}


@dataclass(frozen=True)
class Shape:
    """``points`` are in the file's unit; a ring does not repeat its first point.

    ``z`` is the height of a point, if the file gives one. ``own`` holds what a file that was
    written here says of the entity: its group in the plan and its fields without geometry.
    """

    layer: str
    kind: Kind
    points: Path
    label: str = ""
    holes: tuple[Path, ...] = ()
    z: float | None = None
    own: Mapping[str, Any] = field(default_factory=lambda: _NO_OWN)

    @property
    def closed(self) -> bool:
        return self.kind == "ring"

    @property
    def rings(self) -> Rings:
        return (self.points, *self.holes)

    @property
    def point_count(self) -> int:
        return len(self.points) + sum(len(hole) for hole in self.holes)


@dataclass(frozen=True)
class Layer:
    name: str
    points: int = 0
    lines: int = 0
    rings: int = 0
    heights: int = 0  # of the points, those that have one
    is_own: bool = False  # every shape of it says what it was in a plan


@dataclass(frozen=True)
class Shapes:
    """``unit`` is what the file declares, or ""; ``origin`` is longitude and latitude of its zero."""

    shapes: tuple[Shape, ...]
    unit: str = ""
    notes: tuple[str, ...] = ()
    origin: XY | None = None

    @property
    def layers(self) -> tuple[Layer, ...]:
        names = dict.fromkeys(shape.layer for shape in self.shapes)
        return tuple(_layer(name, [s for s in self.shapes if s.layer == name]) for name in names)

    def only(self, layers: Iterable[str]) -> "Shapes":
        wanted = set(layers)
        kept = tuple(shape for shape in self.shapes if shape.layer in wanted)
        return Shapes(kept, self.unit, self.notes, self.origin)


def _layer(name: str, shapes: list[Shape]) -> Layer:
    kinds = Counter(shape.kind for shape in shapes)
    heights = sum(shape.z is not None for shape in shapes if shape.kind == "point")
    is_own = all(shape.own for shape in shapes)
    return Layer(name, kinds["point"], kinds["line"], kinds["ring"], heights, is_own)


def all_points(shapes: Iterable[Shape]) -> Iterator[XY]:
    for shape in shapes:
        yield from shape.points


def extent(shapes: Iterable[Shape]) -> tuple[float, float, float, float] | None:
    """Least x, least y, largest x, largest y; none without a point."""
    points = list(all_points(shapes))
    if not points:
        return None
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def across(shapes: Iterable[Shape]) -> float:
    """The longer side of the extent, in the unit of the points."""
    box = extent(shapes)
    return max(box[2] - box[0], box[3] - box[1]) if box else 0.0


def checked_point(x: float, y: float) -> XY:
    """Raises FileRefused for what is no place on a plan."""
    if not (math.isfinite(x) and math.isfinite(y)):
        raise FileRefused("A coordinate in the file is not a number (NaN or infinite). Write the file again.")
    if max(abs(x), abs(y)) > limits.MAX_COORDINATE:
        raise FileRefused(
            f"A coordinate in the file is {max(abs(x), abs(y)):.3g}; nothing lies that far out."
        )
    return (float(x), float(y))


def one_line(text: Any, longest: int) -> str:
    """Printable text on one line, cut to ``longest`` characters; "" for what is no text."""
    if not isinstance(text, str | int) or isinstance(text, bool):
        return ""
    words = "".join(c if c.isprintable() else " " for c in str(text)[: longest * 4])
    return " ".join(words.split())[:longest].strip()


def layer_name(text: Any, otherwise: str) -> str:
    return one_line(text, limits.MAX_LAYER_NAME) or otherwise


def open_or_ring(layer: str, points: Path, *, closed: bool, label: str = "") -> Shape | None:
    """The line or ring through the points, repeated ones left out; none where it has no length."""
    kept = [point for place, point in enumerate(points) if not place or point != points[place - 1]]
    if len(kept) > 3 and kept[0] == kept[-1]:
        closed = True
    if closed and len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    if closed and len(kept) >= 3:
        return Shape(layer, "ring", tuple(kept), label)
    return Shape(layer, "line", tuple(kept), label) if len(kept) >= 2 else None


class Collector:
    """Shapes as they are read, counted against the limits; what is left out is counted too."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self.notes: list[str] = []
        self._points = 0
        self._layers: set[str] = set()
        self._left_out: Counter[str] = Counter()

    def add(self, shape: Shape | None) -> None:
        """Raises FileRefused when it is one too many."""
        if shape is None:
            return
        self._points += shape.point_count
        self._layers.add(shape.layer)
        if self._points > limits.MAX_POINTS:
            raise FileRefused(
                f"The file has more than {limits.MAX_POINTS:,} corners. Leave out what is not the garden, "
                "or draw its curves with fewer, and write it again."
            )
        if len(self.shapes) >= limits.MAX_SHAPES:
            raise FileRefused(
                f"The file has more than {limits.MAX_SHAPES:,} lines and points. "
                "Leave out what is not the garden."
            )
        if len(self._layers) > limits.MAX_LAYERS:
            raise FileRefused(
                f"The file has more than {limits.MAX_LAYERS} layers. Leave out those not needed."
            )
        self.shapes.append(shape)

    def leave_out(self, what: str) -> None:
        self._left_out[one_line(what, 40) or "something unnamed"] += 1

    def all_notes(self) -> tuple[str, ...]:
        names = [f"{count} × {name}" for name, count in self._left_out.most_common(8)]
        more = len(self._left_out) - len(names)
        if more > 0:
            names.append(f"{more} other kinds")
        left = (
            [f"Left out, since they are no points, lines or outlines: {', '.join(names)}."] if names else []
        )
        return (*dict.fromkeys(self.notes), *left)

    def done(self, unit: str = "", origin: XY | None = None) -> Shapes:
        if not self.shapes:
            found = " ".join(self.all_notes())
            raise FileRefused(f"There is no point, line or outline in the file. {found}".strip())
        return Shapes(tuple(self.shapes), unit, self.all_notes(), origin)
