"""Fittings of every node, so that each pipe end meets one socket and each outlet one thread."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from design.document import ControllerNode, HeadNode, Node, SupplyNode, ValveNode
from hydraulics.catalogue import BackflowPart, DripPart, HeadPart, PipePart, ValvePart
from quoting.takeoff.assembly import Assembly, FittingBook, Placed, assemble, base_of, join_straight
from quoting.takeoff.bends import elbows_for, straights_and_bends
from quoting.takeoff.drip import drip_beds
from quoting.takeoff.graph import Arm, LayoutGraph, deflection_deg
from quoting.takeoff.quantities import TakeoffSettings


@dataclass(frozen=True)
class Fitted:
    """One fitting, the plan entities that it belongs to, and whether it is under constant pressure."""

    placed: Placed
    where: tuple[str, ...]
    main: bool


@dataclass
class FitOut:
    """All fittings of the layout, and the nipples (part code, place) between them."""

    fitted: list[Fitted] = field(default_factory=list)
    nipples: list[tuple[str, str]] = field(default_factory=list)
    through: set[str] = field(default_factory=set)  # nodes where a pipe passes uncut
    cuts: list[str] = field(default_factory=list)  # pipes cut once more, for an isolation valve

    def put(self, assembly: Assembly, where: tuple[str, ...], main: bool) -> None:
        self.fitted += [Fitted(placed, where, main) for placed in assembly.fittings]
        self.nipples += [(code, where[0]) for code in assembly.nipples]


def fit_out(graph: LayoutGraph, settings: TakeoffSettings) -> FitOut:
    """Fittings at every node and at every bend along a pipe; couplings are the pipes' business."""
    fitter = _Fitter(graph, settings)
    for node in graph.topology.nodes.values():
        fitter.at_node(node)
    for pipe_id, line in graph.lines.items():
        for elbows in straights_and_bends(line, settings)[1]:
            fitter.out.put(elbow_chain(fitter.book, elbows, line.part), (pipe_id,), line.main)
    return fitter.out


def elbow_chain(book: FittingBook, elbows: Sequence[str], part: PipePart) -> Assembly:
    """Elbows of one pipe in a row, with a nipple between two."""
    built = Assembly(nipples=[part.code] * (len(elbows) - 1))
    for role in elbows:
        built.add(assemble(book, role, [part, part]))
    return built


class _Fitter:
    def __init__(self, graph: LayoutGraph, settings: TakeoffSettings) -> None:
        self.graph, self.settings = graph, settings
        self.headed = {bed.inlet.id for bed in drip_beds(graph) if bed.header_m}
        self.book = FittingBook(graph.parts)
        self.out = FitOut()
        self.last_of_manifold = {
            group[-1].id for group in graph.manifolds(settings.manifold_reach_m) if len(group) > 1
        }

    def at_node(self, node: Node) -> None:
        arms = self.graph.arms[node.id]
        if not arms or isinstance(node, ControllerNode):
            return
        if isinstance(node, ValveNode):
            self._at_valve(node, arms)
        elif isinstance(node, HeadNode):
            built = self._with_outlet(arms, node.part)
            if node.id in self.headed:
                built.add(self._headers(arms[0].part, node.part))
            self._put(node, arms, built)
        elif isinstance(node, SupplyNode):
            self._put(node, arms, self._to_thread(arms, self._supply_thread(arms), "tee"))
        else:
            self._put(node, arms, self._junction(node.id, arms))

    def _headers(self, pipe: PipePart, code: str) -> Assembly:
        """Ends of the two headers of a drip bed: one on the inlet's thread, three capped."""
        part = self.graph.parts.need(code, DripPart)
        built = assemble(self.book, "adapter", [pipe], part.inlet)
        for _ in range(3):
            built.add(assemble(self.book, "cap", [pipe]))
        return built

    def _put(self, node: Node, arms: Iterable[Arm], assembly: Assembly) -> None:
        self.out.put(assembly, (node.id,), any(arm.main for arm in arms))

    def _supply_thread(self, arms: Sequence[Arm]) -> str:
        device = self.graph.parts.get(self.graph.plan.supply.backflow or "")
        return device.size if isinstance(device, BackflowPart) else base_of(_parts(arms)).size

    def _at_valve(self, node: ValveNode, arms: Sequence[Arm]) -> None:
        size = self.graph.parts.need(node.part, ValvePart).size
        inlet = [arm for arm in arms if arm.main]
        outlet = [arm for arm in arms if not arm.main]
        if inlet:
            built = self._to_thread(inlet, size, "manifold_tee")
            if node.id in self.last_of_manifold and len(inlet) == 1:
                part = inlet[0].part
                built.add(assemble(self.book, "manifold_elbow", [part, part]))
                built.nipples.append(part.code)
            self._put(node, inlet, built)
        if outlet:
            self._put(node, outlet, self._to_thread(outlet, size, "tee"))

    def _to_thread(self, arms: Sequence[Arm], thread: str, tee: str) -> Assembly:
        """From these pipes to the thread of a device: an adapter, behind tees if there are several."""
        if len(arms) == 1:
            return assemble(self.book, "adapter", [arms[0].part], thread)
        tail = base_of(_parts(arms))
        built = self._tees([*_parts(arms), tail], tee)
        built.nipples.append(tail.code)
        built.add(assemble(self.book, "adapter", [tail], thread))
        return built

    def _with_outlet(self, arms: Sequence[Arm], code: str) -> Assembly:
        """A threaded outlet for a head, or for the inlet of a drip bed, on these pipes."""
        part = self.graph.parts[code]
        thread = part.inlet if isinstance(part, HeadPart | DripPart) else ""
        if len(arms) == 1:
            role = "adapter" if isinstance(part, DripPart) else "threaded_elbow"
            return assemble(self.book, role, [arms[0].part], thread)
        if len(arms) == 2:
            built = assemble(self.book, "threaded_tee", _parts(arms), thread)
            return self._square_up(built, arms) if self._is_skew(arms) else built
        tail = base_of(_parts(arms))
        built = self._tees([*_parts(arms[:-1]), tail], "tee")
        built.nipples.append(tail.code)
        built.add(assemble(self.book, "threaded_tee", [tail, arms[-1].part], thread))
        return built

    def _is_skew(self, arms: Sequence[Arm]) -> bool:
        """Two pipes at a threaded tee that are neither in line nor at a corner."""
        turn = self._turn(arms[0], arms[1])
        free = self._free_turn_deg(arms)
        return turn > free and not 60 <= turn <= 100

    def _junction(self, node_id: str, arms: Sequence[Arm]) -> Assembly:
        if len(arms) == 1:
            return assemble(self.book, "cap", _parts(arms))
        if len(arms) == 2:
            return self._joint_of_two(node_id, arms)
        in_manifold = self.graph.near_valve(node_id, self.settings.manifold_reach_m)
        tee = "manifold_tee" if in_manifold and all(arm.main for arm in arms) else "tee"
        built = self._tees(_parts(arms), tee)
        if len(arms) == 3 and not self._has_straight_pair(arms):
            return self._square_up(built, arms)
        return built

    def _joint_of_two(self, node_id: str, arms: Sequence[Arm]) -> Assembly:
        first, second = _parts(arms)
        turn, leg_m = self._turn(arms[0], arms[1]), min(arm.leg_m for arm in arms)
        flexible = first if first.supplied == second.supplied else base_of([first, second])
        elbows = elbows_for(turn, leg_m, flexible, self.settings)
        if not elbows:
            if first.code == second.code:
                self.out.through.add(node_id)
                return Assembly()
            return join_straight(self.book, first, second)
        built = assemble(self.book, elbows[0], [first, second])
        built.add(elbow_chain(self.book, elbows[1:], first))
        built.nipples += [first.code] * (len(elbows) > 1)
        return built

    def _tees(self, parts: Sequence[PipePart], role: str) -> Assembly:
        """Tees in a row for three or more pipe ends, with a nipple of the widest pipe between two."""
        tail = base_of(parts)
        built, rest = Assembly(), list(parts)
        while len(rest) > 3:
            built.add(assemble(self.book, role, [rest.pop(0), rest.pop(0), tail]))
            built.nipples.append(tail.code)
            rest.insert(0, tail)
        built.add(assemble(self.book, role, rest))
        return built

    def _square_up(self, built: Assembly, arms: Sequence[Arm]) -> Assembly:
        """The same with a 45° elbow on a nipple, for arms at odd angles."""
        part = base_of(_parts(arms))
        built.add(assemble(self.book, "elbow_45", [part, part]))
        built.nipples.append(part.code)
        return built

    def _has_straight_pair(self, arms: Sequence[Arm]) -> bool:
        limit = max(self.settings.tee_straight_deg, self._free_turn_deg(arms))
        pairs = ((a, b) for i, a in enumerate(arms) for b in arms[i + 1 :])
        return any(self._turn(a, b) <= limit for a, b in pairs)

    def _free_turn_deg(self, arms: Sequence[Arm]) -> float:
        coiled = all(arm.part.supplied == "coil" for arm in arms)
        return self.settings.coil_bend_deg if coiled else self.settings.tee_straight_deg

    def _turn(self, first: Arm, second: Arm) -> float:
        return deflection_deg(first.heading, second.heading)


def _parts(arms: Sequence[Arm]) -> list[PipePart]:
    return [arm.part for arm in arms]
