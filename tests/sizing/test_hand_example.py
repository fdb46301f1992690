"""A branch worked by hand, with the order of sizes deciding.

300 kPa at the supply whatever flows, all level. A, 40 m, leads to a tee; B, 30 m, on to head 1 with
20 L/min; C, 20 m, to head 2 with 10 L/min. Both heads hold their flow from 280 kPa up.

Hazen–Williams, C 150, EPANET's constants (EPANET 2.2 User Manual, table 3.1). From 39.50 kPa per 100 m
of 26.0 mm at 30 L/min, with flow**1.852 and bore**-4.871:

    kPa per 100 m     20.4 mm   26.0 mm   32.6 mm      price a metre  1.00  1.60  2.50
    30 L/min           128.74     39.50     13.12      m/s at 30      1.53  0.94  0.60
    20 L/min            60.76     18.64      6.194
    10 L/min            16.83      5.164     1.716

    A, 40 m, 30 L/min   51.50     15.80      5.249     kPa
    B, 30 m, 20 L/min   18.23      5.591     1.858
    C, 20 m, 10 L/min    3.366     1.033     0.343

20 kPa may be lost. With A of 26.0 mm 4.20 kPa are left for B: 26.0 mm loses 5.591, and 32.6 mm would
be wider than what feeds it. So A is 32.6 mm, and 14.75 kPa are left: B 26.0 mm (20.4 mm loses 18.23),
C 20.4 mm. Cost 40 x 2.50 + 30 x 1.60 + 20 x 1.00 = 168.00. Out of order 159.00 would do.
Figures by hand, to four digits; no publication has this example.
"""

import pytest

from hydraulics.network import Case, Emitter, Network, Node, PipeLink, Source
from hydraulics.sizing import Candidate, OutletNeed, SizingTask, size_network
from hydraulics.sizing.proving import outlet_kpa, shortfalls, solve_choice

SIZES = {
    bore: Candidate(f"bore-{bore}", bore, 150.0, price, 1.5)
    for bore, price in ((20.4, 1.0), (26.0, 1.6), (32.6, 2.5))
}


def branch(least_kpa=280.0, static_kpa=300.0):
    nodes = tuple(Node(name) for name in ("supply", "tee", "end1", "end2"))
    links = (
        PipeLink("A", "supply", "tee", 40.0, 32.6),
        PipeLink("B", "tee", "end1", 30.0, 32.6),
        PipeLink("C", "tee", "end2", 20.0, 32.6),
    )
    heads = (
        Emitter("head1", "end1", 20 / 280**0.5, 0.5, 280.0),
        Emitter("head2", "end2", 10 / 280**0.5, 0.5, 280.0),
    )
    needs = {"head1": OutletNeed(least_kpa), "head2": OutletNeed(least_kpa)}
    network = Network(nodes, (Source("S", "supply", static_kpa),), links, heads)
    return SizingTask(network, (Case(),), {pipe: tuple(SIZES.values()) for pipe in "ABC"}, needs)


def bores(found):
    return {pipe: candidate.bore_mm for pipe, candidate in found.choice.items()}


def test_the_answer_is_that_of_the_hand():
    found = size_network(branch())
    assert found.outcome == "least"
    assert bores(found) == {"A": 32.6, "B": 26.0, "C": 20.4}
    assert found.cost == pytest.approx(168.00)
    assert found.lower_bound == pytest.approx(168.00)


def test_losses_and_pressures_are_those_of_the_hand():
    found = size_network(branch())
    (solution,) = found.solutions
    assert solution.link_loss_kpa["A"] == pytest.approx(5.249, rel=1e-3)
    assert solution.link_loss_kpa["B"] == pytest.approx(5.591, rel=1e-3)
    assert solution.link_loss_kpa["C"] == pytest.approx(3.366, rel=1e-3)
    kpa = outlet_kpa(branch(), solution)
    assert kpa["head1"] == pytest.approx(289.16, abs=0.02)
    assert kpa["head2"] == pytest.approx(291.39, abs=0.02)


def test_the_cheaper_choice_out_of_order_would_meet_the_needs_and_is_not_taken():
    task = branch()
    out_of_order = {"A": SIZES[26.0], "B": SIZES[32.6], "C": SIZES[20.4]}
    assert shortfalls(task, out_of_order, solve_choice(task, out_of_order)) == []
    assert task.cost(out_of_order) == pytest.approx(159.00)


def test_velocity_alone_rules_the_narrow_pipe_out():
    """With 60 kPa to lose A could be 20.4 mm by pressure (51.50 kPa), but not at 1.53 m/s."""
    found = size_network(branch(static_kpa=360.0))
    assert bores(found) == {"A": 26.0, "B": 20.4, "C": 20.4}
    assert found.cost == pytest.approx(40 * 1.6 + 30 + 20)


def test_what_cannot_be_served_is_named_with_what_it_lacks():
    """All of 32.6 mm, from 285 kPa. At full flow 7.107 kPa would be lost to head 1 and 5.592 to head 2.

    Below 280 kPa a head gives less, with the root: 19.93 and 9.99 L/min. Then A loses 5.249 x
    (29.92/30)**1.852 = 5.222, B 1.858 x 0.9963**1.852 = 1.845, C 0.342: head 1 lacks 2.067 kPa, head 2
    0.564.
    """
    found = size_network(branch(static_kpa=285.0))
    assert found.outcome == "impossible"
    assert found.choice == {}
    assert [(fault.kind, fault.where) for fault in found.shortfalls] == [
        ("pressure", ("head1",)),
        ("pressure", ("head2",)),
    ]
    assert [fault.by for fault in found.shortfalls] == pytest.approx([2.067, 0.564], abs=0.005)
