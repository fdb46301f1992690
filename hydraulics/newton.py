"""The global gradient method on a stack of cases.

Todini and Pilati (1988), with outlets as rows to the ground. A row whose flow meets its
bound (an outlet at rest, a regulator that holds) keeps moving along its pressure instead:
the state then lies beyond the bound, flow stays at it. That makes each step a plain
linear solve, without trying which outlets run.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hydraulics.indexed import Floats
from hydraulics.linear import LinearSolver
from hydraulics.stack import Stack

# largest error left, as a share of the highest head and of the largest flow
TOLERANCE = 1e-9
# largest flow that the errors left could still move: share of the largest flow, and L/min
FLOW_SHARE, FLOW_LPM = 1e-8, 1e-6
MOST_STEPS = 40


@dataclass
class Balance:
    """State of every row and head, and what is still out of balance."""

    state: Floats
    flow: Floats
    loss: Floats
    head: Floats
    energy_error: Floats
    mass_error: Floats
    steps: int
    settled: bool


def balance(
    stack: Stack,
    linear: LinearSolver,
    start: tuple[Floats, Floats] | None = None,
    most_steps: int = MOST_STEPS,
) -> Balance:
    """Newton steps until flow and pressure balance everywhere, or until there were enough.

    ``start`` holds states and heads to begin with, else the stack's own guess.
    """
    state, head = start or (stack.flow, stack.head)
    state, head = state.copy(), head.copy()
    unknowns = stack.cases * stack.size
    for step in range(most_steps + 1):
        flow = np.clip(state, stack.low, stack.high)
        beyond = state - flow
        stopped = beyond != 0.0
        loss, slope = stack.losses(flow)
        slope = np.where(stopped, stack.stop_slope, slope)
        drive, counts = stack.drive(head)
        energy = drive - loss - beyond * stack.stop_slope
        push = energy / slope
        mass = net_inflow(stack, flow)
        settled = _settled(head, flow, energy, mass, push)
        if settled or step == most_steps:
            break
        conductance = np.where(stopped, 0.0, 1.0 / slope)
        rise = linear.solve(conductance, mass + net_inflow(stack, conductance * energy), counts)
        head[:unknowns] += rise[:unknowns]
        from_start = rise[stack.start_cell] if counts is None else counts * rise[stack.start_cell]
        state = state + push + (from_start - rise[stack.end_cell]) / slope
    return Balance(state, flow, loss, head, energy, mass, step, settled)


def net_inflow(stack: Stack, flow: Floats) -> Floats:
    """Inflow less outflow at each unknown."""
    unknowns = stack.cases * stack.size
    signed = np.concatenate((flow, -flow))
    inflow: Floats = np.bincount(stack.cells, signed, unknowns + 1)[:unknowns].astype(float, copy=False)
    return inflow


def _settled(head: Floats, flow: Floats, energy: Floats, mass: Floats, push: Floats) -> bool:
    flow_scale = max(_largest(flow), 1e-3)
    return (
        _largest(push) <= FLOW_SHARE * flow_scale + FLOW_LPM
        and _largest(mass) <= TOLERANCE * flow_scale
        and _largest(energy) <= TOLERANCE * max(_largest(head), 1.0)
    )


def misses(stack: Stack, found: Balance) -> NDArray[np.bool_]:
    """By case, whether anything in it is still out of balance by more than its share."""
    missed = np.zeros(stack.cases, dtype=bool)
    energy = ~(np.abs(found.energy_error) <= TOLERANCE * max(_finite(found.head), 1.0))
    missed[stack.case_of_row[energy]] = True
    mass = ~(np.abs(found.mass_error) <= TOLERANCE * max(_finite(found.flow), 1e-3))
    missed[np.flatnonzero(mass) // max(stack.size, 1)] = True
    return missed


def _finite(values: Floats) -> float:
    return _largest(values[np.isfinite(values)])


def _largest(values: Floats) -> float:
    return float(np.abs(values).max(initial=0.0))
