"""Differences between two plans, against distances and areas worked out by hand."""

import copy
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from design.comparing import compare

S1 = json.loads((Path(__file__).resolve().parents[1] / "plans" / "s1.json").read_text())


@pytest.fixture
def after():
    return copy.deepcopy(S1)


def node(document, name):
    return next(node for node in document["layout"]["nodes"] if node["id"] == name)


def only(comparison, kind):
    assert {change.kind for change in comparison.changes} == {kind}
    return comparison.changes


def test_a_plan_does_not_differ_from_itself(after):
    assert compare(S1, after).changes == ()
    assert compare(S1, after).sums == ()


def test_a_moved_head_moves_by_pythagoras_and_takes_its_pipes_along(after):
    """A 3-4-5 triangle: 0.3 m east and 0.4 m north are 0.5 m."""
    head = node(after, "A3")
    head["at"] = [head["at"][0] + 0.3, head["at"][1] + 0.4]
    moved = {change.id: change for change in only(compare(S1, after), "moved")}
    assert moved["A3"].moved_m == pytest.approx(0.5)
    assert moved["A3"].name == "head"
    assert {change.group for change in moved.values()} == {"nodes", "pipes"}
    lengths = [change.grown for change in moved.values() if change.group == "pipes"]
    # from 6 m each to the root of 6.3² + 0.4² and of 5.7² + 0.4²
    assert sum(lengths) == pytest.approx((6.3**2 + 0.16) ** 0.5 + (5.7**2 + 0.16) ** 0.5 - 12)


def test_a_removed_head_and_pipe_are_told_with_metres_and_count(after):
    after["layout"]["nodes"] = [n for n in after["layout"]["nodes"] if n["id"] != "A5"]
    after["layout"]["pipes"] = [p for p in after["layout"]["pipes"] if "A5" not in (p["from"], p["to"])]
    comparison = compare(S1, after)
    removed = {change.name: change for change in only(comparison, "removed")}
    assert removed["pipe"].grown == pytest.approx(-6)
    head_part = node(S1, "A5")["part"]
    assert (head_part, "each", 15, 14) in comparison.sums


def test_a_wider_lawn_tells_its_area(after):
    """24 m x 12 m made 25 m x 12 m gains 12 m2; its far side moves by 1 m."""
    area = after["ground"]["areas"][0]
    area["outline"] = [[25 if x == 24 else x, y] for x, y in area["outline"]]
    (change,) = compare(S1, after).changes
    assert (change.kind, change.moved_m, change.grown) == ("moved", pytest.approx(1), pytest.approx(12))
    assert ("watered area", "m2", pytest.approx(288), pytest.approx(300)) in compare(S1, after).sums


def test_another_corner_on_a_straight_side_moves_nothing_but_is_a_change(after):
    area = after["ground"]["areas"][0]
    area["outline"] = [area["outline"][0], [12, 0], *area["outline"][1:]]
    assert all(change.moved_m < 1e-9 for change in compare(S1, after).changes)


def test_another_part_is_a_change_of_a_field(after):
    pipe = after["layout"]["pipes"][0]
    before_part, pipe["part"] = pipe["part"], "pvc-32"
    (change,) = only(compare(S1, after), "changed")
    assert change.fields == (("part", before_part, "pvc-32"),)


def test_the_supply_moves_and_changes(after):
    after["supply"]["static_kpa"] += 10
    (change,) = only(compare(S1, after), "changed")
    assert change.name == "supply"
    assert change.fields[0][0] == "static_kpa"


@pytest.mark.parametrize("junk", [None, 7, "x", [], [1, 2], {"areas": 3}, {"areas": [None, {"outline": 5}]}])
def test_a_draft_with_junk_in_it_is_compared_all_the_same(junk):
    compare(S1, {"ground": junk, "layout": junk, "supply": None})
    compare({"ground": junk}, S1)


@given(st.lists(st.sampled_from([node["id"] for node in S1["layout"]["nodes"]]), unique=True))
def test_what_one_way_adds_the_other_way_removes(gone):
    after = copy.deepcopy(S1)
    after["layout"]["nodes"] = [node for node in after["layout"]["nodes"] if node["id"] not in gone]
    there, back = compare(S1, after), compare(after, S1)
    assert {change.id for change in there.of("removed")} == {change.id for change in back.of("added")}
    assert {change.id for change in there.of("removed")} == set(gone)
    assert sum(c.grown for c in there.changes) == pytest.approx(-sum(c.grown for c in back.changes))


@pytest.mark.parametrize(
    "outline",
    [[[0, 0], [1, 0]], [[0, 0], [1, 0], [0, 0]], [["nan", 0], [1, 0], [2, 2]], [[0, 0], [1e308, 0], [1, 1]]],
)
def test_an_outline_that_is_only_begun_can_be_compared(outline):
    def with_area(points):
        return {"ground": {"areas": [{"id": "lawn", "outline": points}]}}

    whole, begun = with_area([[0, 0], [4, 0], [4, 4], [0, 4]]), with_area(outline)
    for before, after in ((whole, begun), (begun, whole)):
        (change,) = compare(before, after).changes or [None]
        assert change is None or 0 <= change.moved_m < 10


def test_an_area_or_a_hole_without_corners_can_be_compared(after):
    """Both as a draft may hold them; an outline that is not there yet has no size."""
    area = after["ground"]["areas"][0]
    area["holes"] = [[]]
    assert [change.id for change in compare(S1, after).changes] == [area["id"]]
    area["outline"] = []
    (change,) = compare(S1, after).changes
    assert change.grown < 0
