"""Which unit a file's numbers can be in, judged by how large the garden would be."""

from dataclasses import dataclass

from design.exchange.projecting import MOST_LATITUDE_DEG, metres_per_degree
from design.exchange.shapes import Shapes, extent
from hydraulics.units import M_PER_FT, M_PER_IN

METRES = {
    "mm": 0.001, "cm": 0.01, "m": 1.0, "km": 1000.0,
    "in": M_PER_IN, "ft": M_PER_FT, "yd": 3 * M_PER_FT,
}  # fmt: skip
DEGREES = "deg"
WORDS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "km": "kilometres", "in": "inches",
    "ft": "feet", "yd": "yards", DEGREES: "degrees of longitude and latitude",
}  # fmt: skip
# From a courtyard to a park: common practice, no source.
LEAST_ACROSS_M, MOST_ACROSS_M = 3.0, 2000.0


@dataclass(frozen=True)
class UnitGuess:
    """``sizes`` are metres from west to east and from south to north in each unit.

    ``fitting`` are the units in which it would be a garden; ``sure`` says that ``unit`` needs no question.
    """

    unit: str
    fitting: tuple[str, ...]
    sizes: dict[str, tuple[float, float]]
    sure: bool
    sentence: str


def guess_unit(shapes: Shapes) -> UnitGuess:
    sizes = sizes_by_unit(shapes)
    fitting = tuple(unit for unit, size in sizes.items() if is_garden(size))
    declared = shapes.unit if shapes.unit in sizes else ""
    if declared and (declared in fitting or max(sizes[declared]) == 0):
        return UnitGuess(
            declared, fitting, sizes, True, f"The file says that its numbers are {WORDS[declared]}."
        )
    if declared:
        sentence = (
            f"The file says that its numbers are {WORDS[declared]}, but then it is "
            f"{across_words(sizes[declared])} across. {_were_these(fitting, sizes)}"
        )
        return UnitGuess("", fitting, sizes, False, sentence)
    sentence = f"The file does not say in which unit its numbers are. {_were_these(fitting, sizes)}"
    return UnitGuess(fitting[0] if len(fitting) == 1 else "", fitting, sizes, False, sentence)


def doubt(shapes: Shapes, unit: str) -> str:
    """Why the unit can hardly be the right one, as a question; "" where it can."""
    sizes = sizes_by_unit(shapes)
    size = sizes.get(unit)
    if size is None or max(size) == 0 or is_garden(size):
        return ""
    fitting = tuple(other for other, found in sizes.items() if is_garden(found))
    words = across_words(size)
    return f"In {WORDS[unit]} this is {words} across, which is hardly a garden. {_were_these(fitting, sizes)}"


def sizes_by_unit(shapes: Shapes) -> dict[str, tuple[float, float]]:
    box = extent(shapes.shapes)
    if box is None:
        return {}
    wide, tall = box[2] - box[0], box[3] - box[1]
    sizes = {unit: (wide * metres, tall * metres) for unit, metres in METRES.items()}
    if _on_the_globe(box):
        east_m, north_m = metres_per_degree((box[1] + box[3]) / 2)
        sizes[DEGREES] = (wide * east_m, tall * north_m)
    return sizes


def is_garden(size: tuple[float, float]) -> bool:
    return LEAST_ACROSS_M <= max(size) <= MOST_ACROSS_M


def across_words(size: tuple[float, float]) -> str:
    longest = max(size)
    if longest >= 1000:
        return f"{longest / 1000:,.1f} km"
    return f"{longest:.1f} m" if longest >= 1 else f"{longest:.2g} m"


def _on_the_globe(box: tuple[float, float, float, float]) -> bool:
    west, south, east, north = box
    return west >= -180 and east <= 180 and south >= -MOST_LATITUDE_DEG and north <= MOST_LATITUDE_DEG


def _were_these(fitting: tuple[str, ...], sizes: dict[str, tuple[float, float]]) -> str:
    if not fitting:
        return "In no known unit is it as large as a garden: is there something far outside it?"
    named = [f"{WORDS[unit]} ({across_words(sizes[unit])} across)" for unit in fitting]
    return f"Were these {', '.join(named[:-1])}{' or ' if len(named) > 1 else ''}{named[-1]}?"
