"""A slower way to the same balance, for the few cases in which plain Newton steps circle.

The balance is the least of a convex function of the flows, its content: all laws rise.
Along each Newton step the slope of the content is known, so the step is cut where the
content stops falling; that always ends at the balance. Bounds of flow are steep walls here;
what stands behind a wall is handed to the plain method as stopped.
"""

from dataclasses import dataclass

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.linear import LinearSolver
from hydraulics.newton import Balance, balance, net_inflow
from hydraulics.stack import Stack

MOST_STEPS = 300
# steepness of the walls, as a multiple of the slope that a stopped row has otherwise
WALLS = (1e3, 1e6)
# a step may end where the content falls or rises by no more than this share of its first slope
SLOPE_SHARE = 0.25


@dataclass
class _Walled:
    stack: Stack
    wall: Floats

    def losses(self, flow: Floats) -> tuple[Floats, Floats]:
        stack = self.stack
        within = np.clip(flow, stack.low, stack.high)
        beyond = flow - within
        loss, slope = stack.losses(within)
        return loss + self.wall * beyond, np.where(beyond != 0.0, self.wall, slope)


def damped_balance(stack: Stack, linear: LinearSolver) -> Balance:
    """Balance of one case. ``settled`` is false in the result if even this finds none."""
    flow, head = stack.flow.copy(), stack.head.copy()
    steps = 0
    for steepness in WALLS:
        walled = _Walled(stack, steepness * stack.stop_slope)
        flow, head, taken = _descend(walled, linear, flow, head)
        steps += taken
        found = balance(stack, linear, start=(_as_state(stack, flow, head), head))
        found.steps += steps
        if found.settled:
            break
    return found


def _descend(walled: _Walled, linear: LinearSolver, flow: Floats, head: Floats) -> tuple[Floats, Floats, int]:
    stack = walled.stack
    unknowns = stack.cases * stack.size
    for step in range(MOST_STEPS):
        loss, slope = walled.losses(flow)
        energy = head[stack.start] - head[stack.end] - loss
        inflow = net_inflow(stack, flow) + net_inflow(stack, energy / slope)
        rise = linear.solve(1.0 / slope, inflow)
        head = head.copy()
        head[:unknowns] += rise[:unknowns]
        change = (energy + rise[stack.start_cell] - rise[stack.end_cell]) / slope
        if np.abs(change).max(initial=0.0) <= 1e-8 * max(float(np.abs(flow).max(initial=0.0)), 1.0):
            return flow + change, head, step
        # the first step makes the flows balance at the nodes, which the cut relies on
        share = 1.0 if step == 0 else _cut(walled, flow, change, head)
        flow = flow + share * change
    return flow, head, MOST_STEPS


def _cut(walled: _Walled, flow: Floats, change: Floats, head: Floats) -> float:
    """Share of the step at which the content has stopped falling, or the whole of it."""
    drive = head[walled.stack.start] - head[walled.stack.end]

    def content_slope(share: float) -> float:
        return float(np.dot(walled.losses(flow + share * change)[0] - drive, change))

    first = abs(content_slope(0.0))
    if content_slope(1.0) <= SLOPE_SHARE * first:
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        slope = content_slope(middle)
        if abs(slope) <= SLOPE_SHARE * first:
            return middle
        low, high = (middle, high) if slope < 0 else (low, middle)
    return low


def _as_state(stack: Stack, flow: Floats, head: Floats) -> Floats:
    """Rows behind a wall become stopped rows, with the pressure that they then see."""
    within = np.clip(flow, stack.low, stack.high)
    drive = head[stack.start] - head[stack.end]
    beyond = (drive - stack.losses(within)[0]) / stack.stop_slope
    return np.where(flow != within, within + beyond, flow)
