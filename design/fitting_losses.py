"""Loss coefficients of the fittings along each pipe, from angles and branches of the plan.

A fitting's loss is put on the pipe that leaves it, seen from the supply, so that each way
from supply to head passes it once.
"""

from collections import deque

from design.geometry import XY, bearing_deg
from design.topology import Topology

# EPANET 2.2 User Manual, table 3.3 (from memory): standard tee, run and branch; elbows
TEE_RUN = 0.6
TEE_BRANCH = 1.8
ELBOW_90 = 0.9
ELBOW_45 = 0.4
# common practice, no source: below this turn a pipe is bent and needs no fitting
BENT_PIPE_DEG = 30.0
ELBOW_45_TO_DEG = 60.0


def minor_coefficients(topology: Topology, paths: dict[str, tuple[XY, ...]]) -> dict[str, float]:
    """Sum of loss coefficients by pipe id."""
    found = {pipe_id: _bends(path) for pipe_id, path in paths.items()}
    if topology.supply is None:
        return found
    reached, queue = {topology.supply}, deque([(topology.supply, "")])
    done: set[str] = set()
    while queue:
        node, came_by = queue.popleft()
        for pipe_id in topology.pipes_at[node]:
            if pipe_id in done:
                continue
            done.add(pipe_id)
            found[pipe_id] += _fitting(topology, paths, node, came_by, pipe_id)
            other = topology.other_end(pipe_id, node)
            if other not in reached:
                reached.add(other)
                queue.append((other, pipe_id))
    return found


def _bends(path: tuple[XY, ...]) -> float:
    turns = [_turn(a, b, c) for a, b, c in zip(path, path[1:], path[2:], strict=False)]
    return sum(elbow(turn) for turn in turns)


def elbow(turn_deg: float) -> float:
    """Loss coefficient of a turn by that angle, 0 to 180 degrees."""
    if turn_deg < BENT_PIPE_DEG:
        return 0.0
    return ELBOW_45 if turn_deg <= ELBOW_45_TO_DEG else ELBOW_90


def _fitting(
    topology: Topology, paths: dict[str, tuple[XY, ...]], node: str, came_by: str, pipe_id: str
) -> float:
    if not came_by or topology.nodes[node].kind == "valve":
        return 0.0
    turn = _turn_between(topology, paths, node, came_by, pipe_id)
    ports = len(topology.pipes_at[node]) + (topology.nodes[node].kind == "head")
    if ports < 3:
        return elbow(turn)
    return TEE_RUN if turn < BENT_PIPE_DEG else TEE_BRANCH


def _turn_between(
    topology: Topology, paths: dict[str, tuple[XY, ...]], node: str, came_by: str, pipe_id: str
) -> float:
    arriving, leaving = paths[came_by], paths[pipe_id]
    before = arriving[-2] if topology.pipes[came_by].to == node else arriving[1]
    after = leaving[1] if topology.pipes[pipe_id].from_ == node else leaving[-2]
    return _turn(before, topology.nodes[node].at, after)


def _turn(before: XY, here: XY, after: XY) -> float:
    if before == here or here == after:
        return 0.0
    turn = abs(bearing_deg(here, after) - bearing_deg(before, here)) % 360
    return min(turn, 360 - turn)
