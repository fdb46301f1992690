"""Chainage and offset from a baseline."""

import math

import pytest

from design.survey.offsets import place_offset
from design.survey.readings import Offset, SurveyError

MARKS = {"A": (1.0, 1.0), "B": (7.0, 9.0)}  # 6 east, 8 north: 10 m


# Source: worked by hand with the right triangle 3-4-5: unit along (0.6, 0.8), to the left (-0.8, 0.6)
@pytest.mark.parametrize(
    ("chainage_m", "offset_m", "side", "at"),
    [(5, 0, "left", (4, 5)), (5, 5, "left", (0, 8)), (5, 5, "right", (8, 2)), (-5, 0, "left", (-2, -3))],
)
def test_offsets_from_a_slanting_line(chainage_m, offset_m, side, at):
    assert place_offset(Offset("1", "A", "B", chainage_m, offset_m, side), MARKS).at == pytest.approx(at)


def test_error_grows_with_the_offset():
    near = place_offset(Offset("1", "A", "B", 5, 0, "left"), MARKS, sigma_m=0.02)
    far = place_offset(Offset("1", "A", "B", 5, 10, "left"), MARKS, sigma_m=0.02)
    assert near.error_m == pytest.approx(0.02 * math.sqrt(2))
    assert far.error_m == pytest.approx(math.hypot(0.02828, 0.34907), abs=1e-4)  # 10 m · 2° in radians
    assert (near.weak, far.weak) == (False, True)
    assert "0.35 m" in far.caution


def test_far_beyond_the_line_is_weak():
    assert "12.00 m beyond" in place_offset(Offset("1", "A", "B", 22, 1, "left"), MARKS).caution


@pytest.mark.parametrize(("chainage_m", "offset_m"), [(math.nan, 1), (1, math.inf), (1, -1)])
def test_what_cannot_be_measured_is_refused(chainage_m, offset_m):
    with pytest.raises(SurveyError):
        place_offset(Offset("1", "A", "B", chainage_m, offset_m, "left"), MARKS)
