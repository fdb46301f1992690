"""Typed measures: read in any unit, and asked about where the figure fits another one only.

Factors of units: NIST SP 811, appendix B. What is rare: common practice, no source.
"""

import pytest

from sites.typed_measure import MeasureRefused, read_measure
from tests.design.book import BOOK

ROTARY = BOOK["rotary-6"]


def read(kind, text, system="metric", part=None):
    return read_measure(kind, text, system, part)


@pytest.mark.parametrize(
    ("kind", "text", "system", "metres"),
    [
        ("length", "24", "metric", 24), ("length", "24", "us", 7.3152), 
        ("length", "24'6\"", "metric", 7.4676),
        ("length", "80 ft", "metric", 24.384), ("length", "6 ft 3 in", "us", 1.905),
        ("length", "350 cm", "us", 3.5),
        ("length", "3500mm", "metric", 3.5), ("length", "2,5", "metric", 2.5), 
        ("depth", "18", "us", 0.4572),
        ("depth", "0.45", "metric", 0.45), ("depth", "45 cm", "metric", 0.45), 
        ("height", "-1.2", "metric", -1.2),
        ("reach", "5.5", "metric", 5.5),
    ],
)  # fmt: skip
def test_plain_measures_are_taken_without_a_question(kind, text, system, metres):
    found = read(kind, text, system)
    assert found.value == pytest.approx(metres)
    assert found.question is None


def test_both_systems_are_shown():
    assert read("length", "24", "us").shown == "24.0 ft (7.32 m)"
    assert read("length", "7.32").shown == "7.32 m (24.0 ft)"


@pytest.mark.parametrize(
    ("text", "degrees"), [("90", 90), ("254.5", 254.5), ("N26°10'E", 26 + 10 / 60), ("S30W", 210), ("360", 0)]
)
def test_bearings_as_they_are_written(text, degrees):
    assert read("angle", text).value == pytest.approx(degrees)


@pytest.mark.parametrize(
    ("text", "percent"), [("2", 2), ("2 %", 2), ("1:50", 2), ("45°", 100), ("0", 0), ("0,5%", 0.5)]
)
def test_slopes(text, percent):
    assert read("slope", text).value == pytest.approx(percent)


@pytest.mark.parametrize(
    ("kind", "text", "part", "meant"),
    [
        ("reach", "12", ROTARY, 6.0),  # the diameter
        ("reach", "20", ROTARY, 6.096),  # feet
        ("reach", "600", ROTARY, 6.0),  # centimetres
        ("reach", "6000", ROTARY, 6.0),  # millimetres
        ("depth", "45", None, 0.45),  # centimetres
        ("depth", "450", None, 0.45),  # millimetres
        ("height", "80", None, 0.8),
        ("length", "2400", None, 24.0),
        ("slope", "0.02", None, 2.0),
    ],
)
def test_a_figure_that_fits_another_unit_only_is_asked_about(kind, text, part, meant):
    question = read(kind, text, part=part).question
    assert question is not None
    assert question.sentence.endswith("?")
    assert meant in [pytest.approx(choice.value, rel=1e-3) for choice in question.choices]


@pytest.mark.parametrize("factor", [3.28, 3.79, 14.5, 25.4, 10.8])
def test_the_factor_of_a_unit_gives_the_expected_throw_back(factor):
    """Those many times the expected value, a unit slipped: common practice, no source."""
    throw = ROTARY.rows[0].throw_m
    text = f"{throw * factor:.4g} m"
    question = read("reach", text, part=ROTARY).question
    assert throw in [pytest.approx(choice.value) for choice in question.choices]


def test_a_diameter_is_named_as_one_and_what_was_typed_may_stand():
    question = read("reach", "12", part=ROTARY).question
    assert question.sentence.endswith("Is that the diameter?")
    assert question.choices[0].value == pytest.approx(6)
    assert question.choices[-1].value == pytest.approx(12)
    assert question.choices[-1].shown.endswith("as typed")


def test_what_is_impossible_may_not_stand():
    choices = read("depth", "45").question.choices
    assert [choice.value for choice in choices] == [pytest.approx(0.45), pytest.approx(1.143)]


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        ("length", ""), ("length", "x"), ("length", "-3"), ("length", "9" * 41), ("length", "1e9 m"),
        ("length", "99999 m"),
        ("depth", "50 m"), ("angle", "400"), ("angle", "nan"), ("angle", "N95E"), ("slope", "1:0"),
        ("slope", "steep"),
        ("slope", "60°"), ("reach", "100 m"), ("height", "900 m"), ("length", "12 kPa"),
    ],
)  # fmt: skip
def test_what_is_no_such_measure_is_refused_with_a_sentence(kind, text):
    with pytest.raises(MeasureRefused) as refusal:
        read(kind, text)
    assert str(refusal.value).endswith((".", "?"))


def test_the_address(send):
    found = send("measure", {"kind": "reach", "text": "12", "part": "rotary-6"}).json()
    assert found["question"]["choices"][0]["value"] == pytest.approx(6)
    assert send("measure", {"kind": "length", "text": "80 ft"}).json()["question"] is None
    for body in ({"kind": "weight", "text": "1"}, {"kind": ["length"]}, {"kind": "length"},
                 {"kind": "length", "text": 3},
                 {"kind": "length", "text": "x" * 300}, {"kind": "length", "text": "1\x00"}):  # fmt: skip
        answer = send("measure", body)
        assert answer.status_code == 422
        assert answer.json()["detail"]
