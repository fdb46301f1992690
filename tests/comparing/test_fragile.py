"""Readings that a plan hangs on, on a lawn whose limits are known by hand."""

import copy

import pytest

from design.check import check
from design.document import Plan
from design.fragile import Outcome, Varied, find_fragile
from design.varied_supply import supply_readings
from hydraulics.limits import DEFAULT_LIMITS
from tests.design.plans import CATALOGUE, make_document, one_zone


def outcome(document):
    return Outcome(document, check(Plan.model_validate(document), CATALOGUE))


@pytest.fixture
def garden():
    """A lawn of 10 m x 10 m with one head in it."""
    return make_document(
        ground={"areas": [{"id": "lawn", "outline": [[0, 0], [10, 0], [10, 10], [0, 10]]}]}, layout=one_zone()
    )


def stretched(garden, by_m):
    """The east side of the lawn moved by so much."""
    changed = copy.deepcopy(garden)
    outline = changed["ground"]["areas"][0]["outline"]
    changed["ground"]["areas"][0]["outline"] = [[x + by_m if x == 10 else x, y] for x, y in outline]
    return changed


def side(garden, error_m):
    return Varied("tapes.0", "side 2 to 3", error_m, "m",
                  lambda: [stretched(garden, error) for error in (-error_m, error_m)])  # fmt: skip


def test_a_side_that_moves_the_lawn_beyond_the_limit_is_named_with_its_metres(garden):
    """Common practice, no source: 0.3 m sends an installer back to the office. 0.31 m of 10 m is 3.1 %."""
    (fragile,) = find_fragile(outcome(garden), [side(garden, 0.31)], outcome)
    assert (fragile.name, fragile.moved) == ("side 2 to 3", "lawn")
    assert fragile.moved_m == pytest.approx(0.31)
    assert fragile.area_share == pytest.approx(0.031)


def test_a_side_measured_well_enough_is_not_fragile(garden):
    assert find_fragile(outcome(garden), [side(garden, 0.02)], outcome) == ()


def test_an_area_that_changes_by_more_than_its_share_is_fragile(garden):
    """A lawn 1 m deep: 0.1 m of it is a tenth, though nothing moves by 0.3 m."""
    garden["ground"]["areas"][0]["outline"] = [[0, 0], [1, 0], [1, 10], [0, 10]]

    def narrow(by_m):
        changed = copy.deepcopy(garden)
        changed["ground"]["areas"][0]["outline"] = [[0, 0], [1 + by_m, 0], [1 + by_m, 10], [0, 10]]
        return changed

    (fragile,) = find_fragile(
        outcome(garden), [Varied("tapes.0", "width", 0.1, "m", lambda: [narrow(-0.1), narrow(0.1)])], outcome
    )
    assert fragile.moved == ""
    assert fragile.area_share == pytest.approx(0.1)


def with_static(garden, kpa):
    changed = copy.deepcopy(garden)
    changed["supply"] = {**changed["supply"], "static_kpa": kpa}
    return changed


def test_a_gauge_that_flips_a_finding_is_named_with_the_finding(garden):
    """Common practice, no source: above 5.5 bar a site wants a regulator. 5.4 may be 5.65 to a poor gauge."""
    static = Varied("static", "static pressure", 25, "kPa",
                    lambda: [with_static(garden, kpa) for kpa in (515, 565)])  # fmt: skip
    (fragile,) = find_fragile(outcome(with_static(garden, 540)), [static], outcome)
    assert {(flip.finding.code, flip.comes) for flip in fragile.flips} == {("supply.static.high", True)}


def test_a_limit_missed_by_a_hair_is_no_reason_to_measure_again(garden):
    static = Varied("static", "static pressure", 10, "kPa", lambda: [with_static(garden, 555)])
    assert find_fragile(outcome(with_static(garden, 545)), [static], outcome) == ()


def test_a_reading_that_breaks_the_check_says_why(garden):
    broken = Varied("ties.1", "tape A to 3", 0.05, "m", lambda: ["The tapes do not meet."])
    (fragile,) = find_fragile(outcome(garden), [broken], outcome)
    assert fragile.breaks == "The tapes do not meet."


def test_the_heaviest_comes_first(garden):
    readings = [side(garden, 0.31), side(garden, 0.9)]
    found = find_fragile(outcome(garden), readings, outcome)
    assert [one.error for one in found] == [0.9, 0.31]


def test_every_reading_of_the_supply_is_varied_by_its_tolerance_both_ways():
    document = make_document(
        supply={
            "at": [0, 0], "static_kpa": 450,
            "tests": [
                {"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340, "tap": "Side tap"},
                {"kind": "bucket", "litres": 20, "seconds": 30},
            ],
        }
    )  # fmt: skip
    before = copy.deepcopy(document)
    readings = {varied.key: varied for varied in supply_readings(document, DEFAULT_LIMITS)}
    gauge, share = DEFAULT_LIMITS.gauge_tolerance_kpa, DEFAULT_LIMITS.flow_tolerance_share
    statics = [changed["supply"]["static_kpa"] for changed in readings["supply.static_kpa"].documents()]
    assert statics == [450 - gauge, 450 + gauge]
    flows = [
        changed["supply"]["tests"][0]["flow_lpm"]
        for changed in readings["supply.tests.0.flow_lpm"].documents()
    ]
    assert flows == pytest.approx([40 * (1 - share), 40 * (1 + share)])
    seconds = [c["supply"]["tests"][1]["seconds"] for c in readings["supply.tests.1.seconds"].documents()]
    assert [60 * 20 / second for second in seconds] == pytest.approx([40 * (1 - share), 40 * (1 + share)])
    assert "Side tap" in readings["supply.tests.0.residual_kpa"].name
    assert document == before


def test_an_area_without_an_outline_yet_is_passed_over():
    document = {"ground": {"areas": [{"id": "bed", "outline": []}]}}
    outcome = Outcome(document, None)
    reading = Varied("supply.static_kpa", "static", 7.0, "kPa", lambda: [document])
    assert find_fragile(outcome, [reading], lambda one: Outcome(one, None)) == ()
