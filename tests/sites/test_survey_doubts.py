"""Slips in readings of the ground: asked where another unit or decimal point would fit, and only there."""

import math

import pytest

from design.survey.document import PlaneSurvey
from design.survey.reduce import reduce_plane
from sites.survey_doubts import doubts_about

A, B = (4.0, 15.0), (20.0, 15.0)
CORNERS = {"1": (0.0, 0.0), "2": (24.0, 0.0), "3": (24.0, 12.0), "4": (0.0, 12.0)}


def length(metres):
    return {"text": f"{metres} m", "m": metres}


def document(**more):
    """A lawn of 24 m by 12 m by ties from both ends of a wall; tapes by Pythagoras, to the centimetre."""
    marks = [
        {"name": "A", "east": length(4), "north": length(15)},
        {"name": "B", "off": "A", "distance": length(16)},
    ]
    ties = [
        {
            "point": name, "first": "A", "first_tape": length(round(math.dist(A, at), 2)),
            "second": "B", "second_tape": length(round(math.dist(B, at), 2)), "side": "right",
        }
        for name, at in CORNERS.items()
    ]  # fmt: skip
    return {"marks": marks, "ties": ties, **more}


def tapes(**wrong):
    pairs = ["1-2", "2-3", "3-4", "1-4", "1-3", "2-4"]
    true_m = {pair: round(math.dist(CORNERS[pair[0]], CORNERS[pair[2]]), 2) for pair in pairs}
    read = true_m | {name.removeprefix("t").replace("_", "-"): value for name, value in wrong.items()}
    return [{"first": pair[0], "second": pair[2], "tape": length(metres)} for pair, metres in read.items()]


def asked(data, system="metric"):
    survey = PlaneSurvey.model_validate(data)
    return {one.where: one.sentence for one in doubts_about(survey, reduce_plane(survey), system)}


def test_sound_readings_raise_no_question():
    assert asked(document()) == {}
    assert asked(document(tapes=tapes())) == {}


@pytest.mark.parametrize(("read_m", "words"), [(50.92, "read as feet"), (155.2, "decimal point moved")])
def test_a_tape_that_cannot_meet_its_other_is_asked_about(read_m, words):
    data = document()
    data["ties"][0]["first_tape"] = length(read_m)
    found = asked(data)
    assert list(found) == ["ties.0.first_tape"]
    assert words in found["ties.0.first_tape"]
    assert "15.5" in found["ties.0.first_tape"]


def test_a_diagonal_in_feet_among_metres_is_asked_about():
    found = asked(document(tapes=tapes(t1_3=round(26.83 / 0.3048, 2))))
    assert list(found) == ["tapes.4.tape"]
    assert "read as feet it would be 26.83 m" in found["tapes.4.tape"]


def test_a_blunder_that_no_slip_explains_is_left_to_the_residuals():
    assert asked(document(tapes=tapes(t1_3=28.0))) == {}


def test_tapes_that_no_slip_brings_together_are_left_to_the_sentence_at_the_row():
    data = document()
    data["ties"][0] |= {"first_tape": length(2), "second_tape": length(3)}
    assert asked(data) == {}


def test_a_tape_longer_than_any_is_asked_about():
    rows = [
        {
            "point": "5",
            "start": "A",
            "end": "B",
            "chainage": length(8),
            "offset": length(120),
            "side": "right",
        }
    ]
    found = asked({"marks": document()["marks"], "offsets": rows})
    assert list(found) == ["offsets.0.offset"]


def test_figures_are_in_the_units_of_the_site():
    data = document()
    data["ties"][0]["first_tape"] = length(4.73)  # 15.52 ft, on a site where 15.52 m was meant
    data["tapes"] = tapes()
    found = asked(data, "us")
    assert "15 ft 6 in does not fit the other readings; read as metres it would be 50 ft 11 in" in " ".join(
        found.values()
    )
