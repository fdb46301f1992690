"""The heights of the ground: areas, lines of equal height, each point with its height, low spots."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from design.terrain import Contour, LowSpot

from .frame import Frame, fit_frame
from .labels import LabelSpace, around
from .measures import METRE_PER_FOOT
from .options import Units
from .shapes import XY, Circle, Drawing, Group, Line, Polygon, Shape, Text

_SIZE = 12.0


@dataclass(frozen=True)
class HeightsOfGround:
    """What is drawn; ``heights`` by the name of the point, ``areas`` by theirs."""

    heights: Mapping[str, tuple[XY, float]]
    areas: Mapping[str, Sequence[XY]]
    contours: Sequence[Contour]
    low_spots: Sequence[LowSpot]


def height_words(z_m: float, units: Units) -> str:
    """A height without its unit, to a centimetre or to a tenth of a foot."""
    number = f"{z_m / METRE_PER_FOOT:.1f}" if units == "us" else f"{z_m:.2f}"
    return "0" + number[2:] if number in ("-0.00", "-0.0") else number


def levels_drawing(ground: HeightsOfGround, units: Units, width: float = 420) -> Drawing:
    """Needs one point or area at the least. Heights are in metres or feet, as the title says."""
    points = [at for at, _ in ground.heights.values()]
    points += [corner for outline in ground.areas.values() for corner in outline]
    frame = fit_frame(points, width, None)
    space = LabelSpace(width, frame.height)
    groups = [
        Group("ground", tuple(_areas(frame, ground)), kind="area"),
        Group(
            "scale", tuple(_contours(frame, ground, units, space)), "Lines of equal height", kind="contour"
        ),
        Group("findings", tuple(_low(frame, ground)), "Low spots", kind="low"),
        Group("marks", tuple(_points(frame, ground, units, space)), "Heights", kind="height"),
    ]
    unit = "feet" if units == "us" else "metres"
    title = f"Heights in {unit} above the tap"
    count = sum(spot.kind == "hollow" for spot in ground.low_spots)
    description = f"{len(ground.heights)} points with their heights, {count} hollows. North is up."
    return Drawing(width, frame.height, title, description, tuple(groups), id_prefix="levels-")


def _areas(frame: Frame, ground: HeightsOfGround) -> list[Shape]:
    return [Polygon((frame.path(outline),), "area-turf") for outline in ground.areas.values()]


def _contours(frame: Frame, ground: HeightsOfGround, units: Units, space: LabelSpace) -> list[Shape]:
    lines: list[Shape] = []
    words: list[Shape] = []
    for at, _ in ground.heights.values():
        space.block(frame.page(at), 5)
    for contour in ground.contours:
        lines += [Line(frame.path(line), "axis") for line in contour.lines]
        longest = max(contour.lines, key=len)
        here = frame.page(longest[len(longest) // 2])
        text = height_words(contour.z_m, units)
        if label := space.put([Text(here, text, "label-faint", _SIZE * 0.8, "middle")]):
            words.append(label)
    return lines + words


def _points(frame: Frame, ground: HeightsOfGround, units: Units, space: LabelSpace) -> list[Shape]:
    shapes: list[Shape] = [Circle(frame.page(at), 3, "reading") for at, _ in ground.heights.values()]
    for name, (at, z_m) in ground.heights.items():
        text = f"{name} {height_words(z_m, units)}"
        shapes.append(space.put_anyway(around(frame.page(at), text, "label", _SIZE, 7)))
    return shapes


def _low(frame: Frame, ground: HeightsOfGround) -> list[Shape]:
    """A filled ring where water stands, an open one where it leaves over the edge."""
    styles = {"hollow": "finding-stop", "edge": "finding-warn"}
    return [Circle(frame.page(spot.at), 8, styles[spot.kind]) for spot in ground.low_spots]
