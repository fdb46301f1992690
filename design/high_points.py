"""Where the pipes of a plan rise and come down again, so that air stays.

Air leaves through heads and back to the supply. From each place that no neighbour lies above,
the way out is sought along which the pipe comes down least; how far it comes down there is the
rise of the high point.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, field

from design.document import HeadNode
from design.geometry import XY
from design.site import Site
from hydraulics.rules import HighPoint

LEVEL_M = 1e-6  # heights this close are one


@dataclass
class _Profile:
    """Every vertex of every pipe with its height, neighbours and pipes."""

    z_m: list[float] = field(default_factory=list)
    at: list[XY] = field(default_factory=list)
    near: list[set[int]] = field(default_factory=list)
    pipes: list[set[str]] = field(default_factory=list)
    vents: set[int] = field(default_factory=set)

    def add(self, at: XY, z_m: float) -> int:
        self.z_m.append(z_m)
        self.at.append(at)
        self.near.append(set())
        self.pipes.append(set())
        return len(self.z_m) - 1

    def join(self, a: int, b: int, pipe: str) -> None:
        self.near[a].add(b)
        self.near[b].add(a)
        self.pipes[a].add(pipe)
        self.pipes[b].add(pipe)


def high_points(site: Site, least_m: float) -> list[HighPoint]:
    """High points by more than that; none is sought where all the pipes lie within it."""
    heights = [site.heights[name] for name, pipes in site.topology.pipes_at.items() if pipes]
    heights += [level.z_m for level in site.plan.ground.levels]
    if not heights or max(heights) - min(heights) <= least_m:
        return []
    profile = _profile(site)
    seen: set[int] = set()
    found = []
    for top in range(len(profile.z_m)):
        near = profile.near[top]
        if top in seen or top in profile.vents or not near:
            continue
        if max(profile.z_m[other] for other in near) > profile.z_m[top] + LEVEL_M:
            continue
        plateau, rise = _way_out(profile, top)
        seen |= plateau
        if rise > least_m:
            found.append(HighPoint(tuple(sorted(profile.pipes[top])), rise, profile.at[top]))
    return found


def _profile(site: Site) -> _Profile:
    profile = _Profile()
    place = {
        name: profile.add(node.at, site.heights[name])
        for name, node in site.topology.nodes.items()
        if site.topology.pipes_at[name]
    }
    vents = [name for name in place if isinstance(site.topology.nodes[name], HeadNode)]
    profile.vents = {place[name] for name in (*vents, site.topology.supply) if name in place}
    for pipe in site.plan.layout.pipes:
        before = place[pipe.from_]
        for point in pipe.via:
            here = profile.add(point, site.levels.at(point))
            profile.join(before, here, pipe.id)
            before = here
        profile.join(before, place[pipe.to], pipe.id)
    return profile


def _is_higher(profile: _Profile, a: int, b: int) -> bool:
    return profile.z_m[a] > profile.z_m[b] + LEVEL_M


def _way_out(profile: _Profile, top: int) -> tuple[set[int], float]:
    """Vertices on a level with the top, and how far the best way out comes down."""
    height = profile.z_m[top]
    queue, reached, plateau = [(0.0, top)], {top}, set()
    worst = 0.0
    for fall, here in _in_order(queue, profile, reached, height):
        worst = max(worst, fall)
        if fall <= LEVEL_M:
            plateau.add(here)
        if here in profile.vents or _is_higher(profile, here, top):
            return plateau, fall
    return plateau, worst


def _in_order(
    queue: list[tuple[float, int]], profile: _Profile, reached: set[int], height: float
) -> Iterator[tuple[float, int]]:
    """Vertices by how far the way to them comes down, least first."""
    while queue:
        fall, here = heapq.heappop(queue)
        yield fall, here
        for other in profile.near[here] - reached:
            reached.add(other)
            heapq.heappush(queue, (max(fall, height - profile.z_m[other]), other))
