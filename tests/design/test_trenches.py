"""Where a trench runs, how it is dug and how deep. Rules: common practice, no source."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from design.check import check
from design.geometry import path_length
from design.runs import cut_routes
from hydraulics.findings import Severity
from hydraulics.limits import DEFAULT_LIMITS, Limits
from tests.design.plans import CATALOGUE, make_plan, straight_pipe


def square(x1, y1, x2, y2):
    return [[x1, y1], [x2, y1], [x2, y2], [x1, y2]]


def report(layout=None, limits=DEFAULT_LIMITS, **ground):
    """A main of 20 m from (0, 0) east to (20, 0), and what lies in its way."""
    plan = make_plan(ground=ground, layout=layout or straight_pipe([0, 0], [20, 0]))
    return check(plan, CATALOGUE, limits, with_coverage=False)


def by_method(result, pipe="P1"):
    found = {}
    for stretch in result.trench:
        if pipe in stretch.pipes:
            found[stretch.method] = round(found.get(stretch.method, 0) + stretch.length_m, 2)
    return found


def codes(result, severity=None):
    return [f.code for f in result.findings if severity in (None, f.severity)]


def test_routes_on_top_of_each_other_count_once():
    pieces = cut_routes({"A": [(0, 0), (10, 0)], "B": [(4, 0), (6, 0), (6, 3)], "C": [(12, 0), (8, 0)]})
    assert sum(piece.length_m for piece in pieces.values()) == pytest.approx(12 + 3)
    shared = {
        frozenset(piece.users): round(piece.length_m, 3) for piece in pieces.values() if len(piece.users) > 1
    }
    assert shared == {frozenset("AB"): 2.0, frozenset("AC"): 2.0}


@given(
    st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), min_size=2, max_size=6),
    st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), min_size=2, max_size=6),
    st.floats(0, 3),
)
@settings(max_examples=100, deadline=None)
def test_every_route_is_the_sum_of_its_pieces(one, two, angle):
    """Turned by any angle, so that nothing lies on whole millimetres."""
    import math

    def turned(path):
        c, s = math.cos(angle), math.sin(angle)
        return [(x * c - y * s, x * s + y * c) for x, y in path]

    pieces = cut_routes({"A": turned(one), "B": turned(two)})
    for name, path in (("A", one), ("B", two)):
        mine = sum(piece.length_m for piece in pieces.values() if name in piece.users)
        assert mine <= path_length(path) + 0.01
    assert sum(p.length_m for p in pieces.values()) <= path_length(one) + path_length(two) + 0.02


@pytest.mark.parametrize("offset", [0.0, 0.0004, -0.0004])
def test_a_millimetre_does_not_dig_a_second_trench(offset):
    pieces = cut_routes({"A": [(0, 0), (10, 3)], "B": [(2 + offset, 0.6), (8, 2.4 - offset)]})
    assert sum(piece.length_m for piece in pieces.values()) == pytest.approx(109**0.5, abs=0.005)


def test_open_ground_is_dug_by_machine_at_the_depth_of_what_lies_there():
    result = report()
    assert by_method(result) == {"machine": 20.0}
    depths = {stretch.pipes: stretch.depth_m for stretch in result.trench}
    assert depths == {("P1",): 0.45, ("P2",): 0.30}


def test_paving_is_bored_with_a_sleeve_past_both_edges():
    result = report(surfaces=[{"id": "drive", "kind": "paving", "outline": square(5, -1, 8, 1)}])
    assert by_method(result) == {"machine": 17.0, "bore": 3.0}
    (sleeve,) = result.sleeves
    assert (sleeve.surface, round(sleeve.bored_m, 3), round(sleeve.sleeve_m, 3)) == ("drive", 3.0, 3.6)
    assert next(s for s in result.trench if s.method == "bore").depth_m == 0.60


def test_a_sleeve_that_is_there_is_recognised():
    layout = straight_pipe([0, 0], [20, 0]) | {
        "sleeves": [{"id": "D1", "path": [[4.5, 0.1], [8.5, 0.1]], "existing": True}]
    }
    (sleeve,) = report(
        layout, surfaces=[{"id": "drive", "kind": "paving", "outline": square(5, -1, 8, 1)}]
    ).sleeves
    assert (sleeve.id, sleeve.existing) == ("D1", True)


def test_near_a_service_it_is_dug_by_hand():
    gas = {"id": "gas", "kind": "gas", "path": [[10, -5], [10, 5]], "depth_m": 0.75, "located": True}
    result = report(services=[gas])
    assert by_method(result) == {"machine": 18.8, "hand": 1.2}
    assert "trench.service.gap" not in codes(result)
    why = next(s.why for s in result.trench if s.method == "hand")
    assert "0.60 m of gas gas" in why
    assert by_method(report(services=[gas], limits=Limits(hand_dig_margin_m=1.0)))["hand"] == 2.0


def test_something_shallower_than_the_trench_is_named():
    drain = {
        "id": "drain",
        "kind": "drain",
        "label": "Stormwater",
        "path": [[10, -5], [10, 5]],
        "depth_m": 0.2,
    }
    result = report(services=[drain])
    assert by_method(result)["hand"] == 1.2
    assert "above the trench floor" in next(s.why for s in result.trench if s.method == "hand")
    assert "trench.service.unlocated" in codes(result, Severity.WARN)


def test_a_gap_too_small_is_found_with_its_number_and_place():
    (found,) = [
        f
        for f in report(
            services=[{"id": "gas", "kind": "gas", "path": [[10, -5], [10, 5]], "depth_m": 0.4}]
        ).findings
        if f.code == "trench.service.gap"
    ]
    assert (found.measured, found.limit, found.at) == (0.05, 0.15, (10.0, 0.0))
    assert set(found.where) == {"gas", "P1"}
    assert "0.55 m" in found.sentence


def test_an_unknown_depth_asks_for_a_trial_hole():
    result = report(services=[{"id": "tel", "kind": "telecom", "path": [[10, -5], [10, 5]]}])
    assert by_method(result)["hand"] == 1.2
    assert "trench.service.unknown_depth" in codes(result, Severity.WARN)
    assert "nobody knows" in next(s.why for s in result.trench if s.method == "hand")


def test_where_a_drain_will_come_the_trench_goes_below_it():
    drain = {"id": "soak", "kind": "future_drain", "path": [[10, -5], [10, 5]], "depth_m": 0.5}
    result = report(services=[drain])
    deep = next(s for s in result.trench if s.depth_m > 0.45)
    assert (deep.depth_m, round(deep.length_m, 2), deep.method) == (0.65, 1.2, "machine")
    assert "trench.future_drain.deeper" in codes(result, Severity.NOTE)
    unknown = report(services=[drain | {"depth_m": None}])
    assert "trench.future_drain.unknown_depth" in codes(unknown, Severity.WARN)


@pytest.mark.parametrize(
    ("kind", "metres"), [("building", 4.0), ("keep_out", 4.0), ("neighbour", 4.0), ("future_work", 6.0)]
)
def test_what_must_not_be_dug_through_is_a_stop_with_the_metres(kind, metres):
    """Future works with the margin of 1 m around them."""
    result = report(surfaces=[{"id": "block", "kind": kind, "outline": square(8, -2, 12, 2)}])
    (found,) = [f for f in result.findings if f.code == "trench.blocked"]
    assert found.severity == Severity.STOP
    assert found.measured == pytest.approx(metres)
    assert found.where == ("block", "P1")


def test_a_sleeve_through_future_works_makes_it_a_decision():
    layout = straight_pipe([0, 0], [20, 0]) | {"sleeves": [{"id": "D1", "path": [[6, 0], [14, 0]]}]}
    result = report(layout, surfaces=[{"id": "deck", "kind": "future_work", "outline": square(8, -2, 12, 2)}])
    assert "trench.blocked" in codes(result, Severity.WARN)


def test_a_trench_along_a_wall_is_no_stop():
    result = report(surfaces=[{"id": "house", "kind": "building", "outline": square(2, 0, 18, 6)}])
    assert "trench.blocked" not in codes(result)


def test_soil_comes_from_the_area_that_it_passes():
    areas = [
        {"id": "a", "outline": square(0, -5, 8, 5), "soil": "sand"},
        {"id": "b", "outline": square(8, -5, 20.5, 5), "soil": "clay"},
    ]
    result = report(areas=areas)
    soils = {s.soil: round(s.length_m, 2) for s in result.trench if "P1" in s.pipes}
    assert soils == {"sand": 8.0, "clay": 12.0}


def test_a_trench_deeper_than_five_feet_needs_protection():
    """29 CFR 1926.652(a)(1)."""
    drain = {"id": "soak", "kind": "future_drain", "path": [[10, -5], [10, 5]], "depth_m": 1.6}
    (found,) = [f for f in report(services=[drain]).findings if f.code == "trench.deep"]
    assert (found.measured, found.limit) == (1.75, 1.52)
    assert "29 CFR" in found.source


def test_every_finding_has_a_number_a_place_a_sentence_and_a_source():
    ground = {
        "surfaces": [{"id": "house", "kind": "building", "outline": square(4, -2, 6, 2)}],
        "services": [{"id": "gas", "kind": "gas", "path": [[10, -5], [10, 5]], "depth_m": 0.4}],
    }
    found = report(**ground).findings
    assert found
    order = [Severity.STOP, Severity.WARN, Severity.NOTE]
    assert [order.index(f.severity) for f in found] == sorted(order.index(f.severity) for f in found)
    for f in found:
        assert f.where
        assert f.sentence.endswith(".")
        assert f.source
        assert f.unit


def test_a_main_that_begins_indoors_is_no_trench_there():
    house = {"id": "house", "kind": "building", "outline": square(-3, -3, 2, 3)}
    result = report(surfaces=[house])
    assert by_method(result) == {"machine": 18.0}
    assert "pipe.in_building" in codes(result, Severity.NOTE)
    assert "trench.blocked" not in codes(result)
