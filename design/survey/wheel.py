"""The measuring wheel against a tape, and what it walked against the outline."""

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from design.geometry import XY, edges, path_length, ring_area
from design.survey.readings import SurveyError, length_ok

CALIBRATION_M = 10.00
# common practice, no source: beyond this the wheel was misread, or slips
LEAST_FACTOR, LARGEST_FACTOR = 0.98, 1.02
# common practice, no source: a walked outline may differ from the taped one by this much
PERIMETER_TOLERANCE_PCT = 2.0


@dataclass(frozen=True)
class Calibration:
    """``factor`` turns what the wheel shows into metres; ``caution`` is empty where it is plausible."""

    factor: float
    caution: str

    def true_m(self, shown_m: float) -> float:
        """Metres on the ground for what the wheel shows."""
        return length_ok(shown_m, "The wheel's reading", zero=True) * self.factor


@dataclass(frozen=True)
class OutlineSize:
    perimeter_m: float
    area_m2: float


@dataclass(frozen=True)
class PerimeterCheck:
    """The wheel's way round against the outline's; positive where the wheel shows more."""

    wheel_m: float
    outline_m: float

    @property
    def difference_pct(self) -> float:
        return 100 * (self.wheel_m / self.outline_m - 1)

    @property
    def accepted(self) -> bool:
        return abs(self.difference_pct) <= PERIMETER_TOLERANCE_PCT


def calibrate(shown_m: float, tape_m: float = CALIBRATION_M) -> Calibration:
    """The wheel's factor from one run along a tape. Raises SurveyError for lengths that cannot be."""
    factor = length_ok(tape_m, "The tape") / length_ok(shown_m, "The wheel's reading")
    if LEAST_FACTOR <= factor <= LARGEST_FACTOR:
        return Calibration(factor, "")
    return Calibration(
        factor,
        f"The wheel shows {shown_m:.2f} m over {tape_m:.2f} m of tape, a factor of {factor:.3f}; "
        f"{LEAST_FACTOR} to {LARGEST_FACTOR} is plausible. Roll it once more, and look at its unit.",
    )


def measure_outline(outline: Sequence[XY]) -> OutlineSize:
    """Way round and area. Raises SurveyError for an outline that crosses itself or encloses nothing."""
    if len(outline) < 3:
        raise SurveyError("An outline needs at least three points.")
    if not Polygon(outline).is_valid or ring_area(outline) <= 0:
        raise SurveyError("The outline crosses itself. Check the order of its points, and their sides.")
    perimeter_m = sum(path_length(side) for side in edges(outline))
    return OutlineSize(perimeter_m, ring_area(outline))


def check_perimeter(wheel_m: float, outline: Sequence[XY], factor: float = 1.0) -> PerimeterCheck:
    """What the wheel showed on its way round, times its factor, against the outline."""
    walked_m = length_ok(wheel_m, "The wheel's reading") * factor
    return PerimeterCheck(walked_m, measure_outline(outline).perimeter_m)
