"""No pipe is wider than what feeds it: pairs of pipes, the feeding one first.

Away from loops the rule is plain: a pipe has at most the bore of the pipe that brings its water,
valves between them passed over. Through a loop water runs either way, so the pipes of one loop
have no order among themselves. None of them is wider than the pipe that feeds the loop, and what
leaves the loop at a node is no wider than either loop pipe that meets there.
"""

from hydraulics.network import Network, PipeLink
from hydraulics.sizing.graph import Spanning, span


def feeding_pairs(network: Network) -> tuple[tuple[str, str], ...]:
    """(feeding pipe, fed pipe) for every pair that the rule binds."""
    walk = span(network.sources[0].node, network.links)
    feeders = _feeders(walk)
    pairs = []
    for node in walk.order[1:]:
        link = walk.came_by[node]
        if link.id in walk.bridges and isinstance(link, PipeLink):
            pairs += [(feeder, link.id) for feeder in feeders[walk.before[node]]]
    for link in network.links:
        if isinstance(link, PipeLink) and link.id not in walk.bridges and link.start in walk.loop_of:
            entry = walk.loop_of[link.start]
            pairs += [(feeder, link.id) for feeder in feeders[entry]]
    return tuple(dict.fromkeys(pairs))


def _feeders(walk: Spanning) -> dict[str, tuple[str, ...]]:
    """By node: the pipes that what leaves it must not exceed."""
    found: dict[str, tuple[str, ...]] = {walk.root: ()}
    for node in walk.order[1:]:
        link = walk.came_by[node]
        if walk.loop_of[node] != node:
            pipes = tuple(link.id for link, _ in walk.loop_links(node) if isinstance(link, PipeLink))
            found[node] = pipes or found[walk.loop_of[node]]
        elif isinstance(link, PipeLink):
            found[node] = (link.id,)
        else:
            found[node] = found[walk.before[node]]
    return found
