"""The demo's plans can be built: the check stops none of them."""

import pytest

from design.check import check
from design.stakeout_points import stake_out
from tests.demo.files import DEMO, demo_catalogue, plan_of

PARTS = demo_catalogue()
DEMO_PLANS = sorted((DEMO / "plans").glob("*.json"))


@pytest.fixture(scope="module")
def reports():
    return {path.stem: check(plan_of(path), PARTS) for path in DEMO_PLANS}


@pytest.mark.parametrize("name", [path.stem for path in DEMO_PLANS])
def test_nothing_stops_the_plan(reports, name):
    assert [finding.sentence for finding in reports[name].stops] == []


@pytest.mark.parametrize("name", [path.stem for path in DEMO_PLANS])
def test_every_case_stays_within_the_design_flow(reports, name):
    report = reports[name]
    for case in report.cases:
        assert case.flow_lpm <= report.supply.design_flow_lpm, case.label


@pytest.mark.parametrize("name", [path.stem for path in DEMO_PLANS])
def test_every_head_has_its_pressure_and_reaches_what_it_must(reports, name):
    for case in reports[name].cases:
        for head in case.heads:
            assert head.pressure_kpa >= PARTS[head.part].min_kpa, head.id
            assert head.reach_m >= head.needed_m, head.id


def test_the_loop_at_quince_house_feeds_the_lawn_from_both_sides(reports):
    """With one valve open, water comes to its junction through both halves of the loop."""
    case = next(case for case in reports["quince-house"].cases if case.zones == ("V1",))
    flows = {pipe.id: pipe.flow_lpm for pipe in case.pipes}
    assert flows["M8"] < -1  # straight from the feed, against the way in which it was drawn
    assert flows["M7"] > 1  # the long way round
    assert -flows["M8"] + flows["M7"] == pytest.approx(case.flow_lpm, abs=0.01)


def test_cables_at_ferry_lane_keep_within_60_ft_along_the_trench(reports):
    """At most 60 ft from head to head, the rise to each head included (common practice, no source)."""
    for cable in reports["ferry-lane"].cables:
        assert cable.length_m <= 60 * 0.3048, cable.id


def test_quince_house_has_hand_digging_a_bore_and_a_deeper_trench(reports):
    trench = reports["quince-house"].trench
    assert {stretch.method for stretch in trench} == {"machine", "hand", "bore"}
    assert {stretch.surface for stretch in trench if stretch.method == "bore"} == {"west-path", "east-path"}
    assert any(stretch.depth_m > 0.45 for stretch in trench if stretch.method == "machine")


def test_most_points_of_quince_house_are_set_out_well(reports):
    """Tapes at 30 to 150 degrees, at most 30 m long, past no building (common practice, no source)."""
    stakes = stake_out(plan_of(DEMO / "plans" / "quince-house.json"), reports["quince-house"])
    good = sum(stake.tie is not None and stake.tie.good for stake in stakes)
    assert good >= 0.9 * len(stakes)
