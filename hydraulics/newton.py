"""The global gradient method on a stack of cases.

Todini and Pilati (1988), with outlets as rows to the ground. A row whose flow meets its
bound (an outlet at rest, a regulator that holds) keeps moving along its pressure instead:
the state then lies beyond the bound, flow stays at it. That makes each step a plain
linear solve, without trying which outlets run.
"""

from dataclasses import dataclass

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.linear import LinearSolver
from hydraulics.stack import Stack

# largest error left, as a share of the highest head and of the largest flow
TOLERANCE = 1e-9
MOST_STEPS = 60


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


def balance(stack: Stack, linear: LinearSolver, most_steps: int = MOST_STEPS) -> Balance:
    """Newton steps until flow and pressure balance everywhere, or until there were enough."""
    state, head = stack.flow.copy(), stack.head.copy()
    unknowns = stack.cases * stack.size
    head_scale = max(float(np.abs(head).max()), 1.0)
    for step in range(most_steps + 1):
        flow = np.clip(state, stack.low, stack.high)
        beyond = state - flow
        stopped = beyond != 0.0
        loss, slope = stack.losses(flow)
        slope = np.where(stopped, stack.stop_slope, slope)
        energy = head[stack.start] - head[stack.end] - loss - beyond * stack.stop_slope
        mass = _mass(stack, flow, unknowns)
        found = Balance(state, flow, loss, head, energy, mass, step, False)
        if _settled(found, head_scale):
            found.settled = True
            return found
        if step == most_steps:
            break
        push = energy / slope
        conductance = np.where(stopped, 0.0, 1.0 / slope)
        rise = linear.solve(conductance, mass + _mass(stack, conductance * energy, unknowns))
        head[:unknowns] += rise[:unknowns]
        state = state + push + (rise[stack.start_cell] - rise[stack.end_cell]) / slope
    return found


def _mass(stack: Stack, flow: Floats, unknowns: int) -> Floats:
    """Inflow less outflow at each unknown."""
    signed = np.concatenate((flow, -flow))
    net_inflow: Floats = np.bincount(stack.cells, signed, unknowns + 1)[:unknowns].astype(float, copy=False)
    return net_inflow


def _settled(found: Balance, head_scale: float) -> bool:
    flow_scale = max(float(np.abs(found.flow).max(initial=0.0)), 1e-3)
    return bool(
        np.abs(found.energy_error).max(initial=0.0) <= TOLERANCE * head_scale
        and np.abs(found.mass_error).max(initial=0.0) <= TOLERANCE * flow_scale
    )
