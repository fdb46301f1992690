"""Which way water runs: bridges, whose direction is known, and loops, where it may turn."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.network import Link


@dataclass(frozen=True)
class Spanning:
    """A walk over all that links connect to ``root``, deep first.

    ``order`` lists nodes as they were met; ``came_by`` is the link that led to each. A link is a
    bridge where nothing else joins its two sides. ``loop_of`` names each node's loop by the node
    through which water enters it: nodes joined by other links than bridges share one, and a node
    on no loop is its own.
    """

    root: str
    order: tuple[str, ...]
    came_by: dict[str, Link]
    before: dict[str, str]
    bridges: frozenset[str]
    loop_of: dict[str, str]
    links_at: dict[str, tuple[tuple[Link, str], ...]]

    def loop_links(self, node: str) -> list[tuple[Link, str]]:
        """Links of loops at a node, each with its other end."""
        return [(link, other) for link, other in self.links_at.get(node, ()) if link.id not in self.bridges]


def span(root: str, links: Iterable[Link]) -> Spanning:
    """Walk from the root. Tarjan's rule finds the bridges."""
    links_at: dict[str, list[tuple[Link, str]]] = {root: []}
    for link in links:
        links_at.setdefault(link.start, []).append((link, link.end))
        links_at.setdefault(link.end, []).append((link, link.start))
    order, came_by, before = [root], dict[str, Link](), dict[str, str]()
    place, lowest = {root: 0}, {root: 0}
    stack = [(root, iter(links_at[root]))]
    while stack:
        node, rest = stack[-1]
        step = next(rest, None)
        if step is None:
            stack.pop()
            if stack:
                above = stack[-1][0]
                lowest[above] = min(lowest[above], lowest[node])
            continue
        link, other = step
        if node in came_by and link.id == came_by[node].id:
            continue
        if other in place:
            lowest[node] = min(lowest[node], place[other])
            continue
        place[other] = lowest[other] = len(order)
        order.append(other)
        came_by[other], before[other] = link, node
        stack.append((other, iter(links_at[other])))
    bridges = frozenset(came_by[node].id for node in order[1:] if lowest[node] == place[node])
    loop_of = {root: root}
    for node in order[1:]:
        loop_of[node] = node if came_by[node].id in bridges else loop_of[before[node]]
    at = {node: tuple(found) for node, found in links_at.items() if node in place}
    return Spanning(root, tuple(order), came_by, before, bridges, loop_of, at)
