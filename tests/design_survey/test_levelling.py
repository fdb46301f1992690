"""Heights from spots, falls and hand-level readings; misclosures; what no reading reaches."""

import itertools

import pytest

from design.survey.document import LevelSurvey
from design.survey.levelling import reduce_levels


def length(m):
    return {"text": f"{m} m", "m": m}


def survey(spots=(), falls=(), setups=()):
    return LevelSurvey.model_validate(
        {
            "spots": [{"point": name, "height": length(z)} for name, z in spots],
            "falls": [{"first": a, "second": b, **fall} for a, b, fall in falls],
            "setups": [
                {
                    "known": known,
                    "known_reading": length(reading),
                    "sights": [{"point": p, "reading": length(r)} for p, r in sights],
                }
                for known, reading, sights in setups
            ],
        }
    )


def down(m):
    return {"fall": length(m)}


# Source: B. C. Punmia, Surveying vol. 1, chapter on levelling: fifteen staff readings down a slope, two
# changes of the instrument, height of A 380.500 (from memory; the sums below check the recollection).
LINE = survey(
    spots=[("A", 380.500)],
    setups=[
        ("A", 0.855, [("2", 1.545), ("3", 2.335), ("4", 3.115), ("5", 3.825)]),
        ("5", 0.455, [("6", 1.380), ("7", 2.055), ("8", 2.855), ("9", 3.455)]),
        ("9", 0.585, [("10", 1.015), ("11", 1.850), ("12", 2.755), ("B", 3.845)]),
    ],
)
HEIGHTS = {
    "2": 379.810, "3": 379.020, "4": 378.240, "5": 377.530, "6": 376.605, "7": 375.930, "8": 375.130,
    "9": 374.530, "10": 374.100, "11": 373.265, "12": 372.360, "B": 371.270,
}  # fmt: skip


def test_a_textbook_line_of_levels():
    result = reduce_levels(LINE, {})
    for name, z_m in HEIGHTS.items():
        assert result.points[name].z_m == pytest.approx(z_m, abs=1e-6), name
    # the book's own check: sum of back sights less sum of fore sights is last less first
    risen_m = (0.855 + 0.455 + 0.585) - (3.825 + 3.455 + 3.845)
    assert risen_m == pytest.approx(371.270 - 380.500)
    assert (result.misclosures, result.unreached, result.problems) == ((), (), ())


def test_the_error_grows_from_stand_to_stand():
    points = reduce_levels(LINE, {}).points
    errors = [points[name].error_m for name in ("A", "5", "9", "B")]
    assert all(a < b for a, b in itertools.pairwise(errors))
    # by hand: a sight errs 1 cm + 1 mm/m over 5 m = 15 mm, two sights a stand; 10 mm for the spot
    assert errors[1] == pytest.approx((0.01**2 + 2 * 0.015**2) ** 0.5)
    assert errors[3] == pytest.approx((0.01**2 + 6 * 0.015**2) ** 0.5)


def test_falls_by_height_and_by_per_cent():
    places = {"A": (0, 0), "B": (3, 4), "C": (3, 14)}
    result = reduce_levels(
        survey([("A", 1.0)], [("A", "B", down(0.25)), ("B", "C", {"fall_pct": 2})]), places
    )
    assert result.points["B"].z_m == pytest.approx(0.75)
    assert result.points["C"].z_m == pytest.approx(0.75 - 0.02 * 10)  # 2 % of 10 m
    assert result.points["C"].at == (3, 14)


def test_a_fall_is_read_from_either_end_and_up_with_a_minus():
    result = reduce_levels(survey([("B", 2.0)], [("A", "B", down(0.5)), ("B", "C", down(-0.3))]), {})
    assert result.points["A"].z_m == pytest.approx(2.5)
    assert result.points["C"].z_m == pytest.approx(2.3)


def test_a_loop_states_its_misclosure():
    # by hand: 0.50 + 0.30 down and 0.78 back up leave 20 mm
    loop = survey([("A", 10)], [("A", "B", down(0.5)), ("B", "C", down(0.3)), ("C", "A", down(-0.78))])
    (closed,) = reduce_levels(loop, {}).misclosures
    assert abs(closed.difference_m) == pytest.approx(0.02)
    assert set(closed.loop) == {"A", "B", "C"}
    assert not closed.mistake  # three falls of 2 cm each


def test_a_mistake_stands_out():
    loop = survey([("A", 10)], [("A", "B", down(0.5)), ("B", "C", down(0.3)), ("C", "A", down(-0.08))])
    (wrong,) = reduce_levels(loop, {}).contradictions
    assert abs(wrong.difference_m) == pytest.approx(0.72)


def test_two_heights_for_one_point():
    result = reduce_levels(survey([("A", 1.0), ("A", 1.2)]), {})
    (twice,) = result.contradictions
    assert (twice.point, twice.difference_m) == ("A", pytest.approx(0.2))
    assert result.points["A"].z_m == 1.0


def test_a_line_between_two_given_heights_closes():
    result = reduce_levels(
        survey([("A", 1.0), ("C", 0.0)], [("A", "B", down(0.5)), ("B", "C", down(0.4))]), {}
    )
    (closed,) = result.misclosures
    assert abs(closed.difference_m) == pytest.approx(0.1)
    assert closed.mistake  # by hand: twice the root of 0.01² + 0.01² + 0.02² + 0.02² is 63 mm


def test_one_bad_row_hides_no_other():
    result = reduce_levels(
        survey(
            [("A", 1.0)],
            [("A", "A", down(1)), ("A", "B", {}), ("A", "C", {"fall_pct": 1}), ("A", "D", down(0.1))],
            [("A", 1.0, []), ("A", 1.0, [("A", 1.1), ("E", 1.5)])],
        ),
        {},
    )
    assert [one.row for one in result.problems] == [
        "falls-0", "falls-1", "falls-2", "setups-0", "setups-1-sights-0",
    ]  # fmt: skip
    assert result.points["D"].z_m == pytest.approx(0.9)
    assert result.points["E"].z_m == pytest.approx(0.5)
    assert "no place yet" in result.problems[2].sentence


def test_what_no_reading_reaches_is_named():
    result = reduce_levels(survey([("A", 1.0)], [("X", "Y", down(0.1)), ("A", "B", down(0.1))]), {})
    assert result.unreached == ("X", "Y")


def test_without_any_height_the_first_point_counts_as_zero():
    result = reduce_levels(survey((), [("P", "Q", down(0.4))]), {})
    assert result.assumed == "P"
    assert result.points["Q"].z_m == pytest.approx(-0.4)
    assert reduce_levels(survey(), {}).points == {}


def test_heights_known_from_elsewhere_hold():
    result = reduce_levels(survey((), [("tap", "P", down(0.4))]), {}, {"tap": 5.0})
    assert (result.assumed, result.points["P"].z_m) == ("", pytest.approx(4.6))
