"""A slower way to the balance of a network with regulators, where plain Newton steps circle.

Behind a regulator that something passes by there is no convex function to descend. Each Newton
step is therefore tried at several shares, and the one is taken that leaves least out of balance.
"""

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.linear import LinearSolver
from hydraulics.newton import Balance, balance, net_inflow
from hydraulics.stack import Stack

MOST_STEPS = 120
SHARES = (1.0, 0.5, 0.25, 0.1, 0.03, 0.01)


def searched_balance(stack: Stack, linear: LinearSolver, starts: list[tuple[Floats, Floats]]) -> Balance:
    """Balance of one case, from the first of the starts (states, heads) that leads to one."""
    steps = 0
    for state, head in starts:
        state, head, taken = _walk(stack, linear, state.copy(), head.copy())
        found = balance(stack, linear, start=(state, head))
        steps += taken + found.steps
        found.steps = steps
        if found.settled:
            break
    return found


def _walk(stack: Stack, linear: LinearSolver, state: Floats, head: Floats) -> tuple[Floats, Floats, int]:
    unknowns, step = stack.cases * stack.size, 0
    while step < MOST_STEPS:
        step += 1
        flow = np.clip(state, stack.low, stack.high)
        stopped = state != flow
        loss, slope = stack.losses(flow)
        slope = np.where(stopped, stack.stop_slope, slope)
        drive, counts = stack.drive(head)
        energy = drive - loss - (state - flow) * stack.stop_slope
        conductance = np.where(stopped, 0.0, 1.0 / slope)
        mass = net_inflow(stack, flow) + net_inflow(stack, conductance * energy)
        rise = linear.solve(conductance, mass, counts)
        from_start = rise[stack.start_cell] if counts is None else counts * rise[stack.start_cell]
        change = (energy + from_start - rise[stack.end_cell]) / slope
        if not np.isfinite(change).all() or np.abs(change).max(initial=0.0) < 1e-6:
            break
        tried = [_moved(stack, state, head, change, rise[:unknowns], share) for share in SHARES]
        state, head = min(tried, key=lambda point: _out_of_balance(stack, *point))
    return state, head, step


def _moved(
    stack: Stack, state: Floats, head: Floats, change: Floats, rise: Floats, share: float
) -> tuple[Floats, Floats]:
    moved = head.copy()
    moved[: len(rise)] += share * rise
    return state + share * change, moved


def _out_of_balance(stack: Stack, state: Floats, head: Floats) -> float:
    """Pressure and flow out of balance, in kPa and in L/min times the pressure that moves one."""
    flow = np.clip(state, stack.low, stack.high)
    energy = stack.drive(head)[0] - stack.losses(flow)[0] - (state - flow) * stack.stop_slope
    mass = net_inflow(stack, flow)
    worst = float(np.dot(energy, energy) + np.dot(mass, mass))
    return worst if np.isfinite(worst) else np.inf
