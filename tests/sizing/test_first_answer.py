"""The fast first answer: good, in order, and what is left where time runs out."""

import time

from hydraulics.sizing import size_network
from hydraulics.sizing.first_answer import cut_from_the_ends, narrow_down, widest_choice
from hydraulics.sizing.order import feeding_pairs
from tests.sizing.gardens import candidates, is_good, line_with_valve
from tests.sizing.test_hand_example import SIZES, branch


def shrunk(shrink, until):
    task = branch()
    pairs = feeding_pairs(task.network)
    start = widest_choice(task, pairs)
    return task, shrink(task, pairs, start, lambda choice, _: is_good(task, choice), until)


def test_both_ways_of_shrinking_end_with_something_good():
    for shrink in (cut_from_the_ends, narrow_down):
        task, found = shrunk(shrink, time.monotonic() + 10)
        assert is_good(task, found)
        assert task.cost(found) < 90 * 2.5
        assert all(found[fed].bore_mm <= found["A"].bore_mm for fed in "BC")


def test_with_no_time_the_start_stays():
    for shrink in (cut_from_the_ends, narrow_down):
        _, found = shrunk(shrink, 0.0)
        assert set(found.values()) == {SIZES[32.6]}


def test_the_widest_choice_keeps_the_order_and_says_when_there_is_none():
    task = line_with_valve()
    narrow_first = {"p1": candidates()[:1], "p2": candidates()}
    task = type(task)(task.network, task.cases, narrow_first, task.needs)
    pairs = feeding_pairs(task.network)
    assert {c.bore_mm for c in widest_choice(task, pairs).values()} == {16.0}
    wide_last = type(task)(task.network, task.cases, narrow_first | {"p2": candidates()[1:]}, task.needs)
    assert widest_choice(wide_last, pairs) is None
    assert size_network(wide_last).outcome == "impossible"


def test_when_time_runs_out_the_bound_still_holds():
    """With a millionth of a second: no proof, no gap claimed away, and the bound below the true least."""
    found = size_network(branch(), seconds=1e-6)
    assert found.outcome in ("good", "open")
    assert found.lower_bound <= 168.0 + 1e-6
    if found.outcome == "good":
        assert found.gap > 0
        assert is_good(branch(), found.choice)
