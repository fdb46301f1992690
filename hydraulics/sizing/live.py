"""What runs in one case, and between which bounds every flow must lie if all needs are met.

The bounds hold for every choice of pipes that meets the needs, whatever it is:

- An outlet that gets its least pressure or more gives at least the flow at that pressure.
- Across a bridge runs what the outlets behind it give, so no less than the sum of those.
- The supply then loses no less than at the least flow, and each bridge no less than its widest
  candidate at its least flow: no outlet can have more pressure than what is left.
- So no outlet gives more than at that pressure, and no bridge carries more than the sum.
- In a loop water may run either way, with no more than all outlets behind the loop give. A loop is
  passive and has one way in: its way in has the highest head, and water leaves from there.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from hydraulics.friction import flow_at_velocity_lpm
from hydraulics.network import Case, Emitter, Link, PipeLink, PressureRegulator
from hydraulics.sizing.graph import Spanning, span
from hydraulics.sizing.laws import Loss, Outflow, link_loss, outflow, pipe_loss, source_loss
from hydraulics.sizing.task import OutletNeed, SizingError, SizingTask
from hydraulics.units import KPA_PER_M

NO_NEED = OutletNeed(0.0)


@dataclass(frozen=True)
class Mode:
    """One thing that a link may be: the place of a candidate, or none where the link is fixed."""

    candidate: int | None
    loss: Loss
    most_lpm: float


@dataclass(frozen=True)
class LiveLink:
    """``tail`` to ``head`` is the way that water runs, unless it may run both ways."""

    id: str
    tail: str
    head: str
    both_ways: bool
    low_lpm: float
    high_lpm: float
    modes: tuple[Mode, ...]


@dataclass(frozen=True)
class LiveOutlet:
    id: str
    node: str
    need: OutletNeed
    law: Outflow
    low_kpa: float
    high_kpa: float

    @property
    def low_lpm(self) -> float:
        return self.law.lpm(self.low_kpa)

    @property
    def high_lpm(self) -> float:
        return self.law.lpm(self.high_kpa)


@dataclass(frozen=True)
class LiveCase:
    case: Case
    root: str
    level_kpa: dict[str, float]  # of the nodes that carry water
    links: tuple[LiveLink, ...]
    outlets: tuple[LiveOutlet, ...]
    low_lpm: float  # of the supply
    high_lpm: float
    sized: frozenset[str] = field(default_factory=frozenset)  # pipes to choose that carry water

    @property
    def is_hopeless(self) -> bool:
        """An outlet cannot have its least pressure, whatever is chosen."""
        return any(outlet.high_kpa < outlet.low_kpa for outlet in self.outlets)


def live_case(task: SizingTask, case: Case) -> LiveCase:
    """The part of the network that carries water in a case, with its bounds."""
    return _Reading(task, case).live()


class _Reading:
    """One case on its way to a LiveCase."""

    def __init__(self, task: SizingTask, case: Case) -> None:
        self.task, self.case = task, case
        self.source = task.network.sources[0]
        open_links = [link for link in task.network.links if link.id not in case.closed]
        self.walk: Spanning = span(self.source.node, open_links)
        self._refuse_turned_valves()
        self.level = {node.id: node.elevation_m * KPA_PER_M for node in task.network.nodes}
        known = set(self.walk.order)
        self.outlets = [e for e in task.network.emitters if e.id not in case.closed and e.node in known]
        highest = self.source.static_kpa + self.level[self.source.node]
        self.laws = {e.id: outflow(e, highest) for e in self.outlets}
        low = {e.id: self.laws[e.id].lpm(self._need(e).least_kpa) for e in self.outlets}
        self.low_behind = self._behind(low)

    def live(self) -> LiveCase:
        wet = self._wet_nodes()
        low_total = self.low_behind[self.source.node]
        high_kpa = {e.id: self._most_kpa(e, low_total) for e in self.outlets}
        behind = self._behind({e.id: self.laws[e.id].lpm(high_kpa[e.id]) for e in self.outlets})
        links = tuple(self._links(wet, behind))
        return LiveCase(
            case=self.case,
            root=self.source.node,
            level_kpa={node: self.level[node] for node in self.walk.order if node in wet},
            links=links,
            outlets=tuple(self._outlet(e, high_kpa[e.id]) for e in self.outlets),
            low_lpm=low_total,
            high_lpm=behind[self.source.node],
            sized=frozenset(link.id for link in links if link.id in self.task.candidates),
        )

    def _refuse_turned_valves(self) -> None:
        """A link that lets water pass one way only must lie along the one way that there is."""
        for node in self.walk.order:
            for link, _ in self.walk.links_at[node]:
                is_led = link.id in self.walk.bridges and self.walk.before.get(link.end) == link.start
                if not isinstance(link, PressureRegulator) and link.one_way and not is_led:
                    raise SizingError(f"“{link.id}” lets water pass one way only, and lies in a loop")

    def _need(self, emitter: Emitter) -> OutletNeed:
        return self.task.needs.get(emitter.id, NO_NEED)

    def _outlet(self, emitter: Emitter, high_kpa: float) -> LiveOutlet:
        need = self._need(emitter)
        return LiveOutlet(emitter.id, emitter.node, need, self.laws[emitter.id], need.least_kpa, high_kpa)

    def _behind(self, given: Mapping[str, float]) -> dict[str, float]:
        """By node: what it and all nodes met behind it in the walk give [L/min]."""
        total = dict.fromkeys(self.walk.order, 0.0)
        for emitter in self.outlets:
            total[emitter.node] += given[emitter.id]
        for node in reversed(self.walk.order[1:]):
            total[self.walk.before[node]] += total[node]
        return total

    def _wet_nodes(self) -> set[str]:
        """Nodes behind which there is an outlet; a loop is wet as a whole."""
        wet = {self.source.node} | self._led_on
        loops = {self.walk.loop_of[n] for n in wet if self.walk.loop_of[n] != n}
        return wet | {node for node in self.walk.order if self.walk.loop_of[node] in loops}

    def _most_kpa(self, emitter: Emitter, low_total: float) -> float:
        """Most pressure that any choice leaves at an outlet."""
        head = self.source.static_kpa + self.level[self.source.node] - source_loss(self.source).kpa(low_total)
        node = emitter.node
        while node != self.source.node:
            link = self.walk.came_by[node]
            if link.id in self.walk.bridges:
                flow = self.low_behind[node]
                head -= min((mode.loss.kpa(flow) for mode in self._modes(link, flow)), default=math.inf)
            node = self.walk.before[node]
        return head - self.level[emitter.node]

    def _modes(self, link: Link, low_lpm: float) -> tuple[Mode, ...]:
        """What the link may be at that flow or more, within its velocities."""
        candidates = self.task.candidates.get(link.id)
        if candidates is None or not isinstance(link, PipeLink):
            return (Mode(None, link_loss(link), math.inf),)
        modes = (
            Mode(place, pipe_loss(link, c.bore_mm, c.c), flow_at_velocity_lpm(c.most_mps, c.bore_mm))
            for place, c in enumerate(candidates)
        )
        return tuple(mode for mode in modes if mode.most_lpm >= low_lpm)

    def _links(self, wet: set[str], behind: Mapping[str, float]) -> Iterable[LiveLink]:
        for node in self.walk.order[1:]:
            link = self.walk.came_by[node]
            if node in wet and link.id in self.walk.bridges:
                low = self.low_behind[node]
                tail = self.walk.before[node]
                yield LiveLink(link.id, tail, node, False, low, behind[node], self._modes(link, low))
        away = self._away_from_ways_in()
        done: set[str] = set()
        for node in self.walk.order:
            for link, other in self.walk.loop_links(node):
                if link.id not in done and node in wet and other in wet:
                    done.add(link.id)
                    yield self._loop_link(link, away.get(link.id), behind)

    def _loop_link(self, link: Link, way: tuple[str, str] | None, behind: Mapping[str, float]) -> LiveLink:
        most = behind[self.walk.loop_of[link.start]]
        tail, head = way or (link.start, link.end)
        return LiveLink(link.id, tail, head, way is None, 0.0, most, self._modes(link, 0.0))

    def _away_from_ways_in(self) -> dict[str, tuple[str, str]]:
        """Loop links whose direction is known: from the way in along to where the next thing happens."""
        found: dict[str, tuple[str, str]] = {}
        for entry in set(self.walk.loop_of.values()):
            for first, other in self.walk.loop_links(entry):
                here, link, there = entry, first, other
                while link.id not in found:
                    found[link.id] = (here, there)
                    following = self._only_way_on(there, link, entry)
                    if following is None:
                        break
                    here, (link, there) = there, following
        return found

    def _only_way_on(self, node: str, came_by: Link, entry: str) -> tuple[Link, str] | None:
        """The other loop link of a node where no water leaves the loop."""
        onward = [(link, other) for link, other in self.walk.loop_links(node) if link.id != came_by.id]
        if node == entry or len(onward) != 1 or self._gives_here(node):
            return None
        return onward[0]

    def _gives_here(self, node: str) -> bool:
        """Water leaves a loop at this node: by an outlet, or by a bridge with outlets behind it."""
        fed = (
            other
            for link, other in self.walk.links_at[node]
            if link.id in self.walk.bridges and self.walk.came_by.get(other) is link
        )
        return any(e.node == node for e in self.outlets) or any(other in self._led_on for other in fed)

    @cached_property
    def _led_on(self) -> set[str]:
        """Nodes that are an outlet's, or lead to one in the walk."""
        found = {emitter.node for emitter in self.outlets}
        for node in reversed(self.walk.order[1:]):
            if node in found:
                found.add(self.walk.before[node])
        return found
