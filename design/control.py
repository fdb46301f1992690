"""The control wiring as a graph: which device is how far from its controller along the cables."""

import heapq
from collections import defaultdict
from dataclasses import dataclass

from design.document import Cable, ControllerNode
from design.site import Site


@dataclass(frozen=True)
class Feed:
    """How a device is fed: from which controller, over which cables, how far [m]."""

    controller: str
    cables: tuple[str, ...]
    length_m: float


def feeds(site: Site) -> dict[str, Feed]:
    """The shortest way along the cables from a controller to each device that one reaches."""
    lengths = {cable.id: cable.length_m for cable in site.cables}
    at: dict[str, list[Cable]] = defaultdict(list)
    for cable in site.plan.layout.cables:
        at[cable.from_].append(cable)
        at[cable.to].append(cable)
    queue = [(0.0, name, Feed(name, (), 0.0)) for name in controllers(site)]
    heapq.heapify(queue)
    found: dict[str, Feed] = {}
    while queue:
        _, device, feed = heapq.heappop(queue)
        if device in found:
            continue
        found[device] = feed
        for cable in at[device]:
            other = cable.to if cable.from_ == device else cable.from_
            if other not in found:
                total = feed.length_m + lengths[cable.id]
                heapq.heappush(queue, (total, other, Feed(feed.controller, (*feed.cables, cable.id), total)))
    return found


def controllers(site: Site) -> list[str]:
    """Ids of the controllers, in order."""
    return sorted(node.id for node in site.plan.layout.nodes if isinstance(node, ControllerNode))
