"""One case of a network as an EPANET 2.3 input file, so that anyone can audit the solution.

Litres per second and metres, as these are the units in which that engine keeps its own
Hazen–Williams constant to the last digit. What EPANET has no element for is written as
equivalent elements, and the file's head says which.
"""

import re
from collections import Counter
from dataclasses import dataclass, field

from hydraulics.friction import FLOW_EXPONENT, hazen_williams_resistance, minor_resistance
from hydraulics.indexed import IndexedNetwork
from hydraulics.inp_curves import emission_rows, power_rows
from hydraulics.livepart import reached
from hydraulics.network import (
    Case,
    CurveLink,
    Emitter,
    Link,
    Network,
    PipeLink,
    PowerLink,
    PressureRegulator,
    Source,
)
from hydraulics.solver import ALL_OPEN
from hydraulics.units import KPA_PER_M

LPM_PER_LPS = 60.0
# a pipe that loses nothing that counts, for check valves and pure Q2 losses
STUB_M, STUB_MM, STUB_C = 0.01, 40.0, 150.0
_USABLE = re.compile(r"^[A-Za-z0-9_.~\-]{1,31}$")
_HEAD = """\
; Units: L/s, m, mm. Pressure in m of water, 9.80665 kPa each.
; A supply curve p = static - k Q^1.852 is a reservoir at the static head and one Hazen-Williams
; pipe of the same k. Valve, meter and backflow losses are general-purpose valves with their curve.
; Heads are emitters. A head with a regulator is a pressure-reducing valve and an emitter behind it.
; Heads of another exponent than the common one are a check valve, a general-purpose valve with
; a finely sampled curve, and a reservoir at the level of the head; so are heads by their rows. A
; pressure regulator is a pressure-reducing valve between two stubs. What the case shuts is left out.
"""


@dataclass(frozen=True)
class InpFile:
    """Text, and under which names the file has what: node and link ids of the network.

    ``emitters`` gives for each head the node whose outflow, or the link whose flow, is its flow.
    """

    text: str
    nodes: dict[str, str]
    links: dict[str, str]
    emitters: dict[str, tuple[str, str]]
    sources: dict[str, str]


def to_inp(network: Network, case: Case = ALL_OPEN, title: str = "") -> InpFile:
    """The case as an input file. Raises NetworkError as the solver does."""
    return _Writer(network, case).file(title)


@dataclass
class _Sections:
    junctions: list[str] = field(default_factory=list)
    reservoirs: list[str] = field(default_factory=list)
    pipes: list[str] = field(default_factory=list)
    valves: list[str] = field(default_factory=list)
    emitters: list[str] = field(default_factory=list)
    curves: list[str] = field(default_factory=list)
    names: list[str] = field(default_factory=list)


class _Writer:
    def __init__(self, network: Network, case: Case) -> None:
        net = IndexedNetwork(network)
        nodes, rows = reached(net, case.closed)
        self.case, self.network, self.sections = case, network, _Sections()
        self.level_m = {node.id: node.elevation_m for node in network.nodes}
        self.highest_kpa = net.highest_kpa
        self.fixed = {s.node: s for s in network.sources if s.loss_coefficient <= 0}
        self.live = {net.node_ids[i] for i in nodes if i < len(net.node_ids)}
        shut = net.rows_named(case.closed)
        self.live_links = [network.links[row] for row in rows if row < net.link_count]
        self.live_emitters = [
            emitter
            for row, emitter in enumerate(net.laws, net.first_emitter)
            if row not in shut and emitter.node in self.live
        ]
        exponents = Counter(emitter.exponent for emitter in self.live_emitters if not emitter.rows)
        self.exponent = exponents.most_common(1)[0][0] if exponents else 0.5
        self.taken: set[str] = set()
        self.node_names: dict[str, str] = {}
        self.link_names: dict[str, str] = {}
        self.emitter_at: dict[str, tuple[str, str]] = {}
        self.source_names: dict[str, str] = {}

    def file(self, title: str) -> InpFile:
        for node in self.network.nodes:
            if node.id in self.live:
                self._node(node.id)
        for source in self.network.sources:
            self._source(source)
        for link in self.live_links:
            self._link(link)
        with_emitter: set[str] = set()
        for emitter in self.live_emitters:
            self._emitter(emitter, with_emitter)
        text = self._text(title)
        return InpFile(text, self.node_names, self.link_names, self.emitter_at, self.source_names)

    def _name(self, wanted: str) -> str:
        """The id itself where EPANET takes it, else a short one that a comment explains."""
        name, number = wanted, 0
        while not _USABLE.match(name) or name in self.taken:
            number += 1
            name = f"x{len(self.taken) + number}"
        if name != wanted:
            self.sections.names.append(f"; {name} stands for {' '.join(wanted.split())}")
        self.taken.add(name)
        return name

    def _junction(self, wanted: str, level_m: float) -> str:
        name = self._name(wanted)
        self.sections.junctions.append(f"{name} {level_m:.9g} 0")
        return name

    def _reservoir(self, wanted: str, head_m: float) -> str:
        name = self._name(wanted)
        self.sections.reservoirs.append(f"{name} {head_m:.12g}")
        return name

    def _node(self, node_id: str) -> None:
        level = self.level_m[node_id]
        source = self.fixed.get(node_id)
        if source is None:
            self.node_names[node_id] = self._junction(node_id, level)
        else:
            self.node_names[node_id] = self._reservoir(node_id, level + source.static_kpa / KPA_PER_M)
            self.source_names[source.id] = self.node_names[node_id]

    def _source(self, source: Source) -> None:
        if source.loss_coefficient <= 0:
            return
        head_m = self.level_m[source.node] + source.static_kpa / KPA_PER_M
        start = self._reservoir(f"{source.id}~head", head_m)
        ends = (start, self.node_names[source.node])
        link = self._power(f"{source.id}~curve", ends, source.loss_coefficient, source.exponent)
        self.source_names[source.id] = link

    def _link(self, link: Link) -> None:
        ends = (self.node_names[link.start], self.node_names[link.end])
        if isinstance(link, PipeLink):
            size = (link.length_m, link.bore_mm, link.c, link.minor_k)
            self.link_names[link.id] = self._pipe(link.id, ends, size, "CV" if link.one_way else "Open")
        elif isinstance(link, PressureRegulator):
            self.link_names[link.id] = self._regulator(link, ends)
        else:
            if link.one_way:
                ends = (self._checked(link, ends[0]), ends[1])
            self.link_names[link.id] = (
                self._general(link.id, ends, link.rows)
                if isinstance(link, CurveLink)
                else self._power(link.id, ends, link.coefficient, link.exponent)
            )

    def _checked(self, link: CurveLink | PowerLink, start: str) -> str:
        """A check valve from there, and the junction behind it."""
        behind = self._junction(f"{link.id}~behind", self.level_m[link.start])
        self._pipe(f"{link.id}~check", (start, behind), (STUB_M, STUB_MM, STUB_C, 0.0), "CV")
        return behind

    def _regulator(self, link: PressureRegulator, ends: tuple[str, str]) -> str:
        """A pressure-reducing valve between two stubs, as none may touch a reservoir or another one."""
        level = self.level_m[link.end]
        before, behind = (self._junction(f"{link.id}~{side}", level) for side in ("in", "held"))
        stub = (STUB_M, STUB_MM, STUB_C, 0.0)
        self._pipe(f"{link.id}~stub1", (ends[0], before), stub)
        self._pipe(f"{link.id}~stub2", (behind, ends[1]), stub)
        name = self._name(link.id)
        setting = link.setting_kpa / KPA_PER_M
        self.sections.valves.append(f"{name} {before} {behind} 25 PRV {setting:.12g} 0")
        return name

    def _pipe(
        self,
        wanted: str,
        ends: tuple[str, str],
        size: tuple[float, float, float, float],
        status: str = "Open",
    ) -> str:
        name = self._name(wanted)
        length, bore, c, minor = size
        line = f"{name} {ends[0]} {ends[1]} {length:.12g} {bore:.12g} {c:.12g} {minor:.12g} {status}"
        self.sections.pipes.append(line)
        return name

    def _power(self, wanted: str, ends: tuple[str, str], coefficient: float, exponent: float) -> str:
        """Exponent 1.852 as a pipe of that length, 2 as a minor loss, others as a sampled curve."""
        if exponent == FLOW_EXPONENT and coefficient > 0:
            length = coefficient / hazen_williams_resistance(1.0, STUB_MM, STUB_C)
            return self._pipe(wanted, ends, (length, STUB_MM, STUB_C, 0.0))
        if exponent == 2.0 or coefficient == 0:
            minor = coefficient / minor_resistance(1.0, STUB_MM)
            return self._pipe(wanted, ends, (STUB_M, STUB_MM, STUB_C, minor))
        return self._general(wanted, ends, power_rows(coefficient, exponent, self.highest_kpa))

    def _general(self, wanted: str, ends: tuple[str, str], rows: tuple[tuple[float, float], ...]) -> str:
        """A general-purpose valve with those rows of L/min and kPa, and (0, 0) before them."""
        name = self._name(wanted)
        curve = self._name(f"{name}~rows"[-31:])
        self.sections.valves.append(f"{name} {ends[0]} {ends[1]} 25 GPV {curve} 0")
        for flow, loss in ((0.0, 0.0), *rows):
            self.sections.curves.append(f"{curve} {flow / LPM_PER_LPS:.12g} {loss / KPA_PER_M:.12g}")
        return name

    def _emitter(self, emitter: Emitter, with_emitter: set[str]) -> None:
        node, level = self.node_names[emitter.node], self.level_m[emitter.node]
        if emitter.regulated_kpa is not None and emitter.node not in self.fixed:
            behind = self._junction(f"{emitter.id}~reg", level)
            valve = self._name(f"{emitter.id}~prv")
            setting = emitter.regulated_kpa / KPA_PER_M
            self.sections.valves.append(f"{valve} {node} {behind} 25 PRV {setting:.12g} 0")
            node = behind
        common = emitter.exponent == self.exponent and not emitter.rows
        if common and emitter.node not in self.fixed and node not in with_emitter:
            with_emitter.add(node)
            at_one_metre = emitter.coefficient * KPA_PER_M**emitter.exponent / LPM_PER_LPS
            self.sections.emitters.append(f"{node} {at_one_metre:.12g}")
            self.emitter_at[emitter.id] = ("node", node)
            return
        ground = self._reservoir(f"{emitter.id}~ground", level)
        middle = self._junction(f"{emitter.id}~mid", level)
        self._pipe(f"{emitter.id}~check", (node, middle), (STUB_M, STUB_MM, STUB_C, 0.0), "CV")
        rows = emission_rows(emitter, self.highest_kpa)
        self.emitter_at[emitter.id] = ("link", self._general(f"{emitter.id}~out", (middle, ground), rows))

    def _text(self, title: str) -> str:
        sections = self.sections
        parts = [
            ("TITLE", [_one_line(title) or "Irrigation network", f"Case: {_one_line(self.case.label)}"]),
            ("JUNCTIONS", sections.junctions),
            ("RESERVOIRS", sections.reservoirs),
            ("PIPES", sections.pipes),
            ("VALVES", sections.valves),
            ("EMITTERS", sections.emitters),
            ("CURVES", sections.curves),
            ("OPTIONS", _options(self.exponent)),
            ("TIMES", ["Duration 0"]),
            ("REPORT", ["Status No", "Summary No", "Page 0"]),
        ]
        blocks = [f"[{name}]\n" + "".join(f"{line}\n" for line in lines) for name, lines in parts]
        names = "".join(f"{line}\n" for line in sections.names)
        return _HEAD + names + "\n" + "\n".join(blocks) + "\n[END]\n"


def _options(exponent: float) -> list[str]:
    return [
        "Units LPS", "Headloss H-W", "Specific Gravity 1", "Viscosity 1", "Trials 200", "Accuracy 1e-5",
        "Maxcheck 200", "Unbalanced Stop", f"Emitter Exponent {exponent:.12g}", "Backflow Allowed No",
    ]  # fmt: skip


def _one_line(text: str) -> str:
    """Without its line breaks, after which a name could begin a section of its own."""
    return " ".join(text.split())
