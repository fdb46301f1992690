"""What the proof rests on: every choice that meets the needs lies inside the bounds and the program."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hydraulics.network import Emitter
from hydraulics.sizing.laws import CurveLoss, SmoothLoss, outflow
from hydraulics.sizing.live import live_case
from hydraulics.sizing.model import SizingModel
from hydraulics.sizing.order import feeding_pairs
from hydraulics.sizing.proving import outlet_kpa, solve_choice
from hydraulics.units import KPA_PER_M
from tests.sizing.gardens import is_good, tasks

CALM = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
SLACK = 1e-7


@st.composite
def chosen(draw):
    """A task with any choice of its pipes."""
    task = draw(tasks(loops=draw(st.booleans())))
    return task, {pipe: draw(st.sampled_from(found)) for pipe, found in task.candidates.items()}


@CALM
@given(drawn=chosen())
def test_true_flows_and_pressures_lie_within_the_bounds(drawn):
    task, choice = drawn
    if not is_good(task, choice):
        return
    for case, solution in zip(task.cases, solve_choice(task, choice), strict=True):
        live = live_case(task, case)
        assert not live.is_hopeless
        pressure = outlet_kpa(task, solution)
        for outlet in live.outlets:
            assert outlet.low_kpa - 1e-5 <= pressure[outlet.id] <= outlet.high_kpa + 1e-5
        for link in live.links:
            stored = next(found for found in task.network.links if found.id == link.id)
            flow = solution.link_lpm[link.id] * (1 if stored.start == link.tail else -1)
            low = -link.high_lpm if link.both_ways else link.low_lpm
            assert low - 1e-6 <= flow <= link.high_lpm + 1e-6, link.id


@CALM
@given(drawn=chosen())
def test_the_program_admits_every_choice_that_meets_the_needs(drawn):
    task, choice = drawn
    pairs = feeding_pairs(task.network)
    in_order = all(choice[fed].bore_mm <= choice[feeding].bore_mm for feeding, fed in pairs)
    if not in_order or not is_good(task, choice):
        return
    model = SizingModel(task, [live_case(task, case) for case in task.cases], pairs)
    for pipe, variables in model.taken.items():
        model.program.tighten(variables[task.candidates[pipe].index(choice[pipe])], low=1.0)
    answer = model.solve(30)
    assert answer.state == "solved"
    assert answer.bound == pytest.approx(task.cost(choice), rel=1e-6)


def test_a_bound_that_holds_only_for_a_known_direction_knows_it():
    """In a ring with one way out both arcs lead from the way in to it; with two, the arc between may turn."""
    from hydraulics.network import Case, Network, Node, PipeLink, Source
    from hydraulics.sizing import SizingTask

    ring = [("a", "in", "x"), ("b", "x", "out"), ("c", "in", "y"), ("d", "out", "y")]
    links = (PipeLink("feed", "s", "in", 5, 26.0), *(PipeLink(i, p, q, 10, 26.0) for i, p, q in ring))
    nodes = tuple(Node(name) for name in ("s", "in", "x", "y", "out"))
    heads = (Emitter("h", "out", 1.0), Emitter("g", "y", 1.0))
    task = SizingTask(Network(nodes, (Source("S", "s", 400.0),), links, heads), (Case(),), {})
    one_out = {link.id: link for link in live_case(task, Case("one", frozenset({"g"}))).links}
    assert {name: (link.tail, link.head) for name, link in one_out.items() if name in "abcd"} == {
        "a": ("in", "x"), "b": ("x", "out"), "c": ("in", "y"), "d": ("y", "out"),
    }  # fmt: skip
    assert not any(link.both_ways for link in one_out.values())
    two_out = {link.id: link.both_ways for link in live_case(task, Case()).links}
    assert two_out == {"feed": False, "a": False, "b": False, "c": False, "d": True}


@given(
    r=st.floats(1e-4, 1), m=st.floats(0, 0.01), low=st.floats(0, 40), width=st.floats(0.01, 40),
    share=st.floats(0, 1),
)  # fmt: skip
def test_lines_enclose_a_loss(r, m, low, width, share):
    law, flow = SmoothLoss(r, 1.852, m), low + share * width
    for slope, offset in law.lines_below(low, low + width, 5):
        assert slope * flow + offset <= law.kpa(flow) * (1 + SLACK) + SLACK
    for slope, offset in law.lines_above(low, low + width):
        assert slope * flow + offset >= law.kpa(flow) * (1 - SLACK) - SLACK


@given(
    steps=st.lists(st.tuples(st.floats(1, 20), st.floats(0, 30)), min_size=1, max_size=5),
    low=st.floats(0, 60), width=st.floats(0.01, 60), share=st.floats(0, 1),
)  # fmt: skip
def test_lines_enclose_the_loss_rows_of_a_device(steps, low, width, share):
    rows, flow, loss = [], 0.0, 0.0
    for wide, high in steps:
        flow, loss = flow + wide, loss + high
        rows.append((flow, loss))
    law, at = CurveLoss(tuple(rows)), low + share * width
    for slope, offset in law.lines_below(low, low + width, 3):
        assert slope * at + offset <= law.kpa(at) + 1e-6
    for slope, offset in law.lines_above(low, low + width):
        assert slope * at + offset >= law.kpa(at) - 1e-6


@given(
    x=st.floats(0.1, 1), held=st.none() | st.floats(100, 400), low=st.floats(50, 300),
    width=st.floats(0.01, 300), share=st.floats(0, 1),
)  # fmt: skip
def test_lines_enclose_an_outflow(x, held, low, width, share):
    law, kpa = outflow(Emitter("h", "n", 0.4, x, held), 600), low + share * width
    for slope, offset in law.lines_above(low, low + width, 3):
        assert slope * kpa + offset >= law.lpm(kpa) * (1 - SLACK) - SLACK
    for slope, offset in law.lines_below(low, low + width):
        assert slope * kpa + offset <= law.lpm(kpa) * (1 + SLACK) + SLACK


@given(
    steps=st.lists(st.tuples(st.floats(0.5, 5), st.floats(5, 80)), min_size=1, max_size=6),
    held=st.none() | st.floats(100, 400), low=st.floats(20, 300), width=st.floats(0.01, 300),
    share=st.floats(0, 1),
)  # fmt: skip
def test_lines_enclose_an_outflow_by_rows(steps, held, low, width, share):
    rows, lpm, kpa = [], 0.0, 0.0
    for more_lpm, more_kpa in steps:
        lpm, kpa = lpm + more_lpm, kpa + more_kpa
        rows.append((lpm, kpa))
    law, at = outflow(Emitter("h", "n", 0.4, 0.5, held, tuple(rows)), 600), low + share * width
    assert all(
        slope * at + offset >= law.lpm(at) - 1e-6 for slope, offset in law.lines_above(low, low + width, 3)
    )
    assert all(
        slope * at + offset <= law.lpm(at) + 1e-6 for slope, offset in law.lines_below(low, low + width)
    )


def test_the_level_of_an_outlet_counts_in_its_bound():
    """Static 400 kPa, head 3 m up, no pipe loss at rest: never more than 400 - 3 x 9.80665."""
    from tests.sizing.test_hand_example import branch

    task = branch(static_kpa=400.0)
    lifted = tuple(type(node)(node.id, 3.0) if node.id == "end1" else node for node in task.network.nodes)
    network = type(task.network)(lifted, task.network.sources, task.network.links, task.network.emitters)
    live = live_case(type(task)(network, task.cases, task.candidates, task.needs), task.cases[0])
    most = {outlet.id: outlet.high_kpa for outlet in live.outlets}
    assert most["head1"] < 400 - 3 * KPA_PER_M
    assert math.isfinite(most["head1"])
