"""From a plan to the network that hydraulics solves, and to the cases that it solves.

The supply curve feeds the connection; the backflow preventer leads from there to the supply
node. A valve is a link between its node (the main's side) and ``<id>~out``; so is the valve
that a head carries. A valve that regulates is followed by a pressure regulator. What a case does
not open is shut. The meter and the service pipe are in the supply curve already, as the readings
were taken behind them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from design import document
from design.drip import DripLayout
from design.fitting_losses import minor_coefficients
from design.geometry import XY
from design.topology import Topology, Zone
from hydraulics.catalogue import BackflowPart, Catalogue, DripPart, HeadPart, LossRow, PipePart, ValvePart
from hydraulics.emitters import EmitterLaw, drip_law, head_law
from hydraulics.network import (
    Case,
    CurveLink,
    Emitter,
    Link,
    Network,
    Node,
    PipeLink,
    PowerLink,
    PressureRegulator,
    Source,
)
from hydraulics.supply import SupplyCurve

CONNECTION = "~connection"
SOURCE = "~supply"
BACKFLOW = "~backflow"
# where a part gives no loss rows: so little that it does not count
NO_LOSS = ((100.0, 0.01),)


@dataclass(frozen=True)
class BuildInput:
    """What the network is built from."""

    plan: document.Plan
    parts: Catalogue
    topology: Topology
    paths: dict[str, tuple[XY, ...]]
    pipe_m: dict[str, float]
    heights: dict[str, float]  # by node
    supply: SupplyCurve
    drips: dict[str, DripLayout]  # by inlet id


@dataclass(frozen=True)
class BuiltNetwork:
    network: Network
    connection: str  # node at which the supply curve holds
    outlet_of: dict[str, str]  # head id -> node at which its pressure counts
    zone_closers: dict[str, tuple[str, ...]]  # zone id -> ids that shut it

    def case(self, label: str, zones: Sequence[str]) -> Case:
        """The case in which only those zones run."""
        opened = set(zones)
        shut = [id_ for zone, ids in self.zone_closers.items() if zone not in opened for id_ in ids]
        return Case(label, frozenset(shut))


@dataclass
class _Draft:
    """What is collected on the way to a network."""

    nodes: list[Node] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)
    emitters: list[Emitter] = field(default_factory=list)
    outlet_of: dict[str, str] = field(default_factory=dict)
    closers: dict[str, tuple[str, ...]] = field(default_factory=dict)
    laws: dict[tuple[str, float], EmitterLaw] = field(default_factory=dict)  # by part and arc


def build_network(given: BuildInput) -> BuiltNetwork:
    """The whole plan as one network; heads without any valve are left out."""
    draft = _Draft()
    connected = [id_ for id_, pipes in given.topology.pipes_at.items() if pipes]
    draft.nodes += [Node(id_, given.heights[id_]) for id_ in connected]
    draft.links += _pipe_links(given)
    for zone in given.topology.zones.values():
        _add_zone(draft, zone, given)
    source, feed_nodes, feed_links = _feed(given, given.heights)
    network = Network(
        (*feed_nodes, *draft.nodes), (source,), (*feed_links, *draft.links), tuple(draft.emitters)
    )
    return BuiltNetwork(network, source.node, draft.outlet_of, draft.closers)


def _add_zone(draft: _Draft, zone: Zone, given: BuildInput) -> None:
    node = given.topology.nodes[zone.id]
    if not isinstance(node, document.ValveNode):
        draft.closers[zone.id] = (zone.id,)
    elif zone.heads:
        valve = given.parts.need(node.part, ValvePart)
        draft.nodes.append(Node(_behind(zone.id), given.heights[zone.id]))
        _add_valve(draft, zone.id, valve, given.heights[zone.id])
        draft.closers[zone.id] = (_valve(zone.id),)
    for head_id in zone.heads:
        head = given.topology.nodes[head_id]
        if isinstance(head, document.HeadNode):
            _add_head(draft, head, given)


def _add_valve(draft: _Draft, zone: str, valve: ValvePart, height_m: float) -> None:
    """The valve with its loss, and behind it the regulator if it has one."""
    behind = _behind(zone)
    if valve.regulates_kpa is not None:
        held, behind = behind, f"{zone}~held"
        draft.nodes.append(Node(behind, height_m))
        draft.links.append(PressureRegulator(regulator_of(zone), behind, held, valve.regulates_kpa))
    draft.links.append(_loss_link(_valve(zone), (zone, behind), valve))


def _loss_link(name: str, ends: tuple[str, str], part: ValvePart | BackflowPart) -> Link:
    """Loss of a device: by its rows, or by the power of the flow through its one row."""
    if part.loss_exponent is not None:
        row = part.loss[0]
        return PowerLink(name, *ends, row.loss_kpa / row.flow_lpm**part.loss_exponent, part.loss_exponent)
    return CurveLink(name, *ends, _rows(part.loss))


def _add_head(draft: _Draft, head: document.HeadNode, given: BuildInput) -> None:
    outlet, loss = _outlet(head, given.parts)
    if loss:
        draft.nodes.append(Node(outlet, given.heights[head.id]))
        draft.links.append(CurveLink(_valve(head.id), head.id, outlet, _rows(loss)))
    law = _law(draft, head, given)
    draft.outlet_of[head.id] = outlet
    draft.emitters.append(
        Emitter(head.id, outlet, law.coefficient, law.exponent, law.regulated_kpa, law.rows)
    )


def _law(draft: _Draft, head: document.HeadNode, given: BuildInput) -> EmitterLaw:
    """Law of a head with its arc, fitted once for all alike, or of the drip area behind an inlet."""
    part = given.parts[head.part]
    if isinstance(part, DripPart):
        return drip_law(part, max(given.drips[head.id].emitters, 1))
    sprinkler = given.parts.need(head.part, HeadPart)
    sweep = 360.0 if sprinkler.pattern == "full_circle" else head.sweep_deg
    key = (head.part, sweep)
    if key not in draft.laws:
        draft.laws[key] = head_law(sprinkler, sweep)
    return draft.laws[key]


def _outlet(head: document.HeadNode, parts: Catalogue) -> tuple[str, tuple[LossRow, ...]]:
    part = parts[head.part]
    if isinstance(part, HeadPart) and part.own_valve and part.valve_loss:
        return _behind(head.id), part.valve_loss
    return head.id, ()


def _pipe_links(given: BuildInput) -> list[PipeLink]:
    minor = minor_coefficients(given.topology, given.paths)
    links = []
    behind_of = {
        (zone.id, pipe): _behind(zone.id)
        for zone in given.topology.zones.values()
        for pipe in zone.pipes
        if zone.heads
    }
    for pipe in given.plan.layout.pipes:
        part = given.parts.need(pipe.part, PipePart)
        start = behind_of.get((pipe.from_, pipe.id), pipe.from_)
        end = behind_of.get((pipe.to, pipe.id), pipe.to)
        length = given.pipe_m[pipe.id]
        links.append(
            PipeLink(pipe.id, start, end, length, part.bore_mm, part.hazen_williams_c, minor[pipe.id])
        )
    return links


def _feed(given: BuildInput, heights: dict[str, float]) -> tuple[Source, list[Node], list[Link]]:
    """The source, and the backflow preventer between it and the supply node."""
    supply = given.topology.supply or ""
    curve = given.supply
    code = given.plan.supply.backflow
    if code is None:
        return Source(SOURCE, supply, curve.static_kpa, curve.loss_coefficient), [], []
    device = given.parts.need(code, BackflowPart)
    link = _loss_link(BACKFLOW, (CONNECTION, supply), device)
    source = Source(SOURCE, CONNECTION, curve.static_kpa, curve.loss_coefficient)
    return source, [Node(CONNECTION, heights[supply])], [link]


def _rows(loss: Sequence[LossRow]) -> tuple[tuple[float, float], ...]:
    return tuple((row.flow_lpm, row.loss_kpa) for row in loss) or NO_LOSS


def _behind(node_id: str) -> str:
    return f"{node_id}~out"


def _valve(node_id: str) -> str:
    return f"{node_id}~valve"


def regulator_of(zone_id: str) -> str:
    """Id of the regulator behind a zone's valve in the network."""
    return f"{zone_id}~regulator"
