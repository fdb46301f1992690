"""Stretches joined into what is dug in one go."""

import dataclasses

import pytest

from design.trench_runs import trench_runs
from tests.design_stakeout.gardens import stretch


def test_like_stretches_in_line_are_one_run():
    row = [stretch(n, (n, 0), (n + 1, 0)) for n in range(4)]
    (run,) = trench_runs(row)
    assert run.length_m == pytest.approx(4.0)
    assert {run.path[0], run.path[-1]} == {(0, 0), (4, 0)}


def test_a_branch_and_a_corner_begin_a_new_run():
    branch = [stretch(1, (0, 0), (5, 0)), stretch(2, (5, 0), (9, 0)), stretch(3, (5, 0), (5, 4))]
    assert len(trench_runs(branch)) == 3
    corner = [stretch(1, (0, 0), (5, 0)), stretch(2, (5, 4), (5, 0))]
    assert len(trench_runs(corner)) == 2


@pytest.mark.parametrize(
    "change", [{"method": "hand"}, {"depth_m": 0.45}, {"soil": "clay"}, {"why": "roots"}]
)
def test_what_is_dug_otherwise_is_told_apart(change):
    other = dataclasses.replace(stretch(2, (5, 0), (9, 0)), **change)
    assert len(trench_runs([stretch(1, (0, 0), (5, 0)), other])) == 2


def test_a_ring_ends_somewhere_and_keeps_its_length():
    square = [(0, 0), (2, 0), (3, 1), (3, 3), (0, 3)]
    ring = [stretch(n, a, b) for n, (a, b) in enumerate(zip(square, [*square[1:], square[0]], strict=True))]
    runs = trench_runs(ring)
    assert sum(run.length_m for run in runs) == pytest.approx(5.0)
    assert [run.id for run in runs] == [f"run-{n}" for n in range(1, len(runs) + 1)]


def test_pipes_and_cables_of_all_stretches_are_named_once():
    one = dataclasses.replace(stretch(1, (0, 0), (5, 0)), pipes=("P1", "P2"), cables=("K1",))
    two = dataclasses.replace(stretch(2, (9, 0), (5, 0)), pipes=("P2", "P3"), cables=("K1",))
    (run,) = trench_runs([one, two])
    assert run.pipes == ("P1", "P2", "P3")
    assert run.cables == ("K1",)
