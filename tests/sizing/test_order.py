"""No pipe is wider than what feeds it, over valves, through loops, and in every sized plan."""

import pytest

from design.sizing import SizingOptions, size_pipes
from hydraulics.limits import DEFAULT_LIMITS
from hydraulics.network import CurveLink, Network, Node, PipeLink, Source
from hydraulics.sizing.order import feeding_pairs
from tests.sizing.plans import BOOK, PRICES, demo_plan, with_pipes


def network(*pipes, valves=()):
    links = [PipeLink(name, a, b, 10.0, 26.0) for name, a, b in pipes]
    links += [CurveLink(name, a, b, ((20.0, 10.0),)) for name, a, b in valves]
    nodes = {end for link in links for end in (link.start, link.end)}
    return Network(tuple(map(Node, sorted(nodes))), (Source("S", "s", 400.0),), tuple(links))


def test_on_a_branch_each_pipe_follows_the_one_before_whichever_way_it_is_drawn():
    pairs = feeding_pairs(network(("p1", "s", "a"), ("p2", "b", "a"), ("p3", "a", "c")))
    assert set(pairs) == {("p1", "p2"), ("p1", "p3")}


def test_a_valve_between_does_not_break_the_order():
    pairs = feeding_pairs(network(("p1", "s", "v"), ("p2", "w", "a"), valves=[("valve", "v", "w")]))
    assert pairs == (("p1", "p2"),)


def test_a_loop_is_bound_by_what_feeds_it_and_binds_what_leaves_it():
    ring = [("a", "in", "x"), ("b", "x", "y"), ("c", "y", "in")]
    pairs = feeding_pairs(network(("feed", "s", "in"), *ring, ("out", "x", "end"), ("side", "in", "t")))
    assert set(pairs) == {
        ("feed", "a"), ("feed", "b"), ("feed", "c"),
        ("a", "out"), ("b", "out"),
        ("feed", "side"),
    }  # fmt: skip


@pytest.mark.parametrize("name", ["plain-rectangle", "ferry-lane", "quince-house"])
@pytest.mark.parametrize("dear", ["25", "32"])
def test_sized_plans_keep_the_order_whatever_the_prices(name, dear):
    """Prices that do not rise with the bore tempt out of order."""
    prices = {code: price * (4 if f"-{dear}" in code else 1) for code, price in PRICES.items()}
    plan = demo_plan(name)
    if name == "plain-rectangle":
        plan = with_pipes(plan, "pvc-40", {"M1", "M2", "L1", "LA1"})
    found = size_pipes(plan, BOOK, DEFAULT_LIMITS, prices, SizingOptions(seconds=20))
    assert found.outcome == "least"
    part = {pipe.id: pipe.part for pipe in found.plan.layout.pipes}
    ends = {pipe.id: (pipe.from_, pipe.to) for pipe in found.plan.layout.pipes}
    loop = {f"M{i}" for i in range(2, 9)} if name == "quince-house" else set()
    for pipe, (start, _) in ends.items():
        feeding = [other for other, (_, end) in ends.items() if end == start and other not in loop]
        for other in feeding:
            assert BOOK[part[pipe]].bore_mm <= BOOK[part[other]].bore_mm, (other, pipe)
