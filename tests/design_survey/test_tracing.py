"""Outlines over a picture: scale, check, verdict, likely error, and what a slant does. By hand."""

import math

import pytest

from design.survey.document import Trace
from design.survey.readings import SurveyError
from design.survey.tracing import can_be_slanted, reduce_trace, scale_ends

# 0.1 m a pixel, the picture's right is east
SCALE = {"first_px": (100, 500), "second_px": (300, 500), "length": {"text": "20 m", "m": 20}}
LAWN = {
    "id": "lawn", "becomes": "area", "kind": "turf",
    "pixels": [(100, 500), (200, 500), (200, 450), (100, 450)],
}  # fmt: skip


def trace(**fields):
    return Trace.model_validate({"picture": 1, "scale": SCALE, "outlines": [LAWN], **fields})


def bar(first_px, second_px, m=None, **names):
    given = {"first_px": first_px, "second_px": second_px, **names}
    return {**given, "length": {"text": f"{m} m", "m": m}} if m else given


def test_an_outline_in_metres():
    result = reduce_trace(trace(), {})
    (lawn,) = result.outlines
    assert [pytest.approx(at) for at in lawn.points] == [(0, 0), (10, 0), (10, 5), (0, 5)]
    assert (lawn.area_m2, lawn.length_m) == (pytest.approx(50), pytest.approx(30))
    assert result.metres_per_pixel == pytest.approx(0.1)
    assert result.verdict == "not checked"
    assert "Nothing checks the scale" in result.sentences[0]


def test_a_scale_between_points_of_the_survey():
    scale = {"first_px": (100, 500), "second_px": (300, 500), "first": "A", "second": "B"}
    (lawn,) = reduce_trace(trace(scale=scale), {"A": (5, 5), "B": (5, 25)}).outlines
    assert lawn.points[1] == pytest.approx((5, 15))  # right in the picture is north
    assert lawn.points[2] == pytest.approx((0, 15))  # and up is west


# By hand: from the first point 20 m at the bearing; or back from the second
@pytest.mark.parametrize(
    ("names", "bearing", "ends"),
    [
        ({}, None, [(0, 0), (20, 0)]),
        ({}, 0, [(0, 0), (0, 20)]),
        ({"first": "A"}, 180, [(3, 4), (3, -16)]),
        ({"second": "A"}, None, [(-17, 4), (3, 4)]),
    ],
)
def test_where_a_scale_by_length_lies(names, bearing, ends):
    angle = {"bearing": {"text": str(bearing), "deg": bearing}} if bearing is not None else {}
    given = trace(scale={**SCALE, **names, **angle}).scale
    assert [pytest.approx(end, abs=1e-9) for end in scale_ends(given, {"A": (3, 4)})] == ends


# The limits of 1 % and 2 % are common practice, no source; 10 m across the scale are 100 pixels
@pytest.mark.parametrize(
    ("pixels", "verdict"),
    [(100, "good"), (101, "good"), (99, "good"), (101.5, "unsure"), (98.1, "unsure"), (103, "do not use")],
)
def test_the_check_judges_the_scale(pixels, verdict):
    result = reduce_trace(trace(check=bar((100, 500), (100, 500 - pixels), 10)), {})
    assert result.verdict == verdict
    assert result.usable is (verdict != "do not use")
    assert f"{abs(pixels / 10 - 10):.2f} m" in result.sentences[0]


def test_the_check_between_points_of_the_survey():
    places = {"C": (0, 0), "D": (6, 8)}
    result = reduce_trace(trace(check=bar((0, 0), (102, 0), first="C", second="D")), places)
    assert result.verdict == "unsure"  # 10.2 m drawn, 10 m in the survey


def test_a_third_point_tells_how_far_it_is_off():
    scale = {"first_px": (0, 0), "second_px": (100, 0), "first": "A", "second": "B"}
    places = {"A": (0, 0), "B": (10, 0), "C": (0, -10)}
    check = bar((0, 0), (0, 130), first="A", second="C")
    said = " ".join(reduce_trace(trace(scale=scale, check=check), places).sentences)
    assert "C lies 3.00 m from where the survey has it." in said
    assert "slant" in said


def test_lengths_that_differ_along_the_same_direction_are_no_slant():
    said = " ".join(reduce_trace(trace(check=bar((100, 300), (210, 300), 10)), {}).sentences)
    assert "do not use" in said
    assert "slant" not in said


def test_the_likely_error_grows_with_the_pixel_and_the_way():
    # by hand: two pixels of 0.1 m; 20 m over 200 pixels: 2√2/200 and 0.02/20; 10 m away at the most,
    # and 5 m up: (10, 5) is 11.18 m from either end
    share = math.hypot(2 * math.sqrt(2) / 200, 0.02 / 20)
    assert reduce_trace(trace(), {}).error_m == pytest.approx(math.hypot(0.2, share * math.hypot(10, 5)))
    worse = reduce_trace(trace(check=bar((100, 500), (100, 397), 10)), {})
    assert worse.error_m == pytest.approx(math.hypot(0.2, 0.03 * math.hypot(10, 5)))


def test_a_length_that_contradicts_the_survey_is_said():
    scale = {**SCALE, "first": "A", "second": "B"}
    result = reduce_trace(trace(scale=scale), {"A": (0, 0), "B": (0, 25)})
    assert "25.00 m apart in the survey, not 20.00 m" in result.sentences[0]


# A 10 m square seen as a trapezium (by hand: its middle shows two thirds of the way up)
SQUARE = {"A": (0, 0), "B": (10, 0), "C": (10, 10), "D": (0, 10)}
SHOWN = {"A": (200, 500), "B": (600, 500), "C": (500, 400), "D": (300, 400)}


def slanted(**fields):
    return trace(
        scale={"first_px": SHOWN["A"], "second_px": SHOWN["B"], "first": "A", "second": "B"},
        check=bar(SHOWN["C"], SHOWN["D"], first="C", second="D"),
        outlines=[{**LAWN, "pixels": [SHOWN["A"], SHOWN["B"], (400, 500 - 200 / 3)]}],
        **fields,
    )


def test_four_known_points_undo_a_slant():
    assert can_be_slanted(slanted(), SQUARE)
    flat = reduce_trace(slanted(), SQUARE)
    assert flat.verdict == "do not use"
    result = reduce_trace(slanted(slanted=True), SQUARE)
    assert result.outlines[0].points[2] == pytest.approx((5, 5))
    assert result.verdict == "not checked"
    assert "mark a fifth" in " ".join(result.sentences)


def test_a_fifth_point_checks_the_other_four():
    places = {**SQUARE, "E": (5, 5)}
    good = reduce_trace(slanted(slanted=True, known=[{"point": "E", "at_px": (400, 500 - 200 / 3)}]), places)
    assert good.verdict == "good"
    bad = reduce_trace(slanted(slanted=True, known=[{"point": "E", "at_px": (400, 450)}]), places)
    assert bad.verdict == "do not use"


def test_a_length_checks_a_slanted_picture_too():
    # by hand: the diagonal is 10 √2
    given = slanted(slanted=True).model_dump()
    given["check"] = bar(SHOWN["A"], SHOWN["C"], 14.142, first="A", second="C")
    given["known"] = [{"point": "D", "at_px": SHOWN["D"]}]
    assert reduce_trace(Trace.model_validate(given), SQUARE).verdict == "good"


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"scale": None}, "no scale yet"),
        ({"scale": bar((0, 0), (100, 0))}, "Type the distance"),
        ({"scale": bar((0, 0), (100, 0), -4)}, "Type the distance"),
        ({"scale": bar((0, 0), (0, 0), 5)}, "one spot"),
        ({"scale": bar((0, 0), (9, 0), first="Z", second="Y")}, "Z has no place"),
        ({"slanted": True}, "four known points"),
        ({"check": bar((0, 0), (9, 0), 0.01)}, "too short"),
    ],
)
def test_what_gives_no_scale_says_why(fields, says):
    with pytest.raises(SurveyError, match=says):
        reduce_trace(trace(**fields), {})


def test_an_outline_that_cannot_be_hides_no_other():
    crossed = {**LAWN, "id": "bed", "pixels": [(0, 0), (100, 100), (100, 0), (0, 100)]}
    short = {**LAWN, "id": "x", "pixels": [(0, 0), (9, 9)]}
    wire = {**short, "id": "wire", "becomes": "service", "kind": "electric"}
    shapes = {one.id: one for one in reduce_trace(trace(outlines=[crossed, short, wire, LAWN]), {}).outlines}
    assert "crosses itself" in shapes["bed"].problem
    assert "2 of the 3 corners" in shapes["x"].problem
    assert shapes["wire"].problem == shapes["lawn"].problem == ""
    assert shapes["wire"].length_m == pytest.approx(0.9 * math.sqrt(2))
