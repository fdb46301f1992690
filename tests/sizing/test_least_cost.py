"""The choice costs what trying every combination finds, and the solver agrees with each need."""

import pytest
from hypothesis import HealthCheck, given, settings

from hydraulics.sizing import size_network
from hydraulics.sizing.order import feeding_pairs
from tests.sizing.gardens import cheapest_by_trying_all, fed_by, is_good, line_with_valve, tasks

CALM = settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


def tree_order(task):
    feeding = fed_by(task)
    return lambda choice: all(
        above is None or choice[pipe].bore_mm <= choice[above].bore_mm for pipe, above in feeding.items()
    )


def loop_order(task):
    pairs = feeding_pairs(task.network)
    return lambda choice: all(choice[b].bore_mm <= choice[a].bore_mm for a, b in pairs)


@CALM
@given(task=tasks())
def test_on_branches_it_is_the_cheapest_of_all_combinations(task):
    found = size_network(task, seconds=60)
    least = cheapest_by_trying_all(task, tree_order(task))
    if least is None:
        assert found.outcome == "impossible"
        assert found.choice == {}
        return
    assert found.outcome == "least"
    assert found.cost == pytest.approx(least, abs=1e-5)
    assert found.lower_bound == pytest.approx(least, abs=1e-5)
    assert found.gap == 0
    assert is_good(task, found.choice)
    assert tree_order(task)(found.choice)


@CALM
@given(task=tasks(loops=True))
def test_with_a_loop_it_is_the_cheapest_too(task):
    found = size_network(task, seconds=60)
    least = cheapest_by_trying_all(task, loop_order(task))
    if least is None:
        assert found.outcome == "impossible"
        return
    assert found.outcome == "least"
    assert found.cost == pytest.approx(least, abs=1e-5)
    assert is_good(task, found.choice)


def test_the_first_answer_is_never_cheaper_than_the_proven_one():
    found = size_network(line_with_valve())
    assert found.first_cost is not None
    assert found.first_cost >= found.cost - 1e-6
    assert found.lower_bound <= found.cost + 1e-6


def test_what_is_there_stays_where_nothing_is_cheaper():
    """Two candidates of one price: the one that is laid is kept."""
    task = line_with_valve()
    best = size_network(task).choice
    assert size_network(task, present=best).choice == best
