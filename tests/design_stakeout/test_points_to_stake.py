"""Which points get a peg."""

import json
from pathlib import Path

from design.document import ControllerNode, HeadNode, JunctionNode, Mark, Plan, ValveNode
from design.stakeout import base_lines
from design.stakeout_points import stake_out, trench_turns
from tests.design_stakeout.gardens import marks_of_wall, plan_of, stretch


def test_every_head_valve_and_controller_of_the_plain_rectangle():
    text = (Path(__file__).parent.parent / "plans" / "s1.json").read_text(encoding="utf-8")
    plan = Plan.model_validate_json(text)
    stakes = stake_out(plan)
    kinds = [stake.kind for stake in stakes]
    assert (kinds.count("head"), kinds.count("valve"), kinds.count("controller")) == (15, 2, 1)
    by_place = {stake.at: stake for stake in stakes if stake.kind == "head"}
    assert by_place[(12, 6)].caution == ""
    assert "28°" in by_place[(0, 12)].caution
    (base,) = base_lines(plan, stakes)
    assert (base.first, base.second, base.distance_m) == ("A", "B", 16.0)
    assert json.dumps([stake.id for stake in stakes])


def test_turns_of_a_trench_are_ends_bends_and_branches():
    stretches = [
        stretch(1, (0, 0), (5, 0), (10, 0)),  # straight on at (5, 0)
        stretch(2, (10, 0), (10, 8)),
        stretch(3, (10, 4), (14, 4)),
        stretch(4, (10, 4), (10, 4.0002)),
    ]
    assert (5, 0) not in trench_turns(stretches)
    assert {(0, 0), (10, 0), (10, 8), (14, 4)} <= set(trench_turns(stretches))


def test_a_gentle_bend_needs_no_peg():
    assert trench_turns([stretch(1, (0, 0), (10, 0), (20, 1))]) == [(0, 0), (20, 1)]


def test_one_peg_serves_a_head_and_the_trench_end_below_it():
    head = HeadNode(id="H1", kind="head", at=(10, 8), part="rotor-9")
    plan = plan_of(marks=marks_of_wall(), nodes=[head])

    class Report:
        trench = (stretch(1, (10, 0), (10, 8)),)
        sleeves = ()

    stakes = stake_out(plan, Report())
    assert [(stake.id, stake.kind) for stake in stakes] == [("H1", "head"), ("T1", "trench turn")]


def test_names_of_pegs_do_not_collide_with_the_plan():
    node = ValveNode(id="T1", kind="valve", at=(1, 1), part="valve-25")
    plan = plan_of(marks=[*marks_of_wall(), Mark(id="T2", at=(0, 9))], nodes=[node])

    class Report:
        trench = (stretch(1, (5, 0), (9, 0)),)
        sleeves = ()

    assert [stake.id for stake in stake_out(plan, Report())] == ["T1", "T3", "T4"]


def test_ends_of_a_sleeve_are_named_after_it_and_turns_after_nothing_else():
    class Sleeve:
        id = "T1"
        path = ((0.0, 5.0), (2.0, 5.0))

    class Report:
        trench = (stretch(1, (2, 5), (9, 5)),)  # its first end stands at the sleeve's second
        sleeves = (Sleeve(),)

    stakes = stake_out(plan_of(marks=marks_of_wall()), Report())
    assert [(stake.id, stake.kind) for stake in stakes] == [
        ("T1a", "sleeve end"),
        ("T1b", "sleeve end"),
        ("T2", "trench turn"),
    ]


def test_a_third_mark_gives_a_check_distance():
    nodes = [ControllerNode(id="C", kind="controller", at=(12, 6), part="controller-4")]
    plan = plan_of(marks=[*marks_of_wall(), Mark(id="P", at=(12, -4))], nodes=nodes)
    (stake,) = stake_out(plan)
    assert {stake.tie.first, stake.tie.second, stake.check.mark} == {"A", "B", "P"}


def test_with_one_mark_the_table_says_whom_to_ask():
    nodes = [
        HeadNode(id="H", kind="head", at=(2, 2), part="rotor-9"),
        JunctionNode(id="J", kind="junction", at=(3, 3)),
    ]
    (stake,) = stake_out(plan_of(marks=marks_of_wall()[:1], nodes=nodes))
    assert stake.tie is None
    assert "Ask the office" in stake.caution
