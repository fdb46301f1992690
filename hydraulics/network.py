"""A pressurised network as plain data: kPa, L/min, m, mm.

Nodes have a level; links lose pressure; emitters let water out by their pressure.
A case closes some links or emitters. Nothing here computes.
"""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Node:
    id: str
    elevation_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Source:
    """Water at a node: p(q) = static_kpa - loss_coefficient * q_lpm**exponent.

    With no loss coefficient the pressure at the node is fixed.
    """

    id: str
    node: str
    static_kpa: float
    loss_coefficient: float = 0.0
    exponent: float = 1.852


@dataclass(frozen=True, slots=True)
class PipeLink:
    """Hazen–Williams pipe with the sum of its fittings' loss coefficients."""

    id: str
    start: str
    end: str
    length_m: float
    bore_mm: float
    c: float = 150.0
    minor_k: float = 0.0


@dataclass(frozen=True, slots=True)
class PowerLink:
    """loss_kpa = coefficient * flow_lpm**exponent, whichever way it flows; exponent 1 or more."""

    id: str
    start: str
    end: str
    coefficient: float
    exponent: float


@dataclass(frozen=True, slots=True)
class CurveLink:
    """Loss piecewise linear through (0, 0) and rows of (flow_lpm, loss_kpa), straight on beyond."""

    id: str
    start: str
    end: str
    rows: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Emitter:
    """Outlet: flow_lpm = coefficient * min(pressure_kpa, regulated_kpa)**exponent, none below zero."""

    id: str
    node: str
    coefficient: float
    exponent: float = 0.5
    regulated_kpa: float | None = None


Link = PipeLink | PowerLink | CurveLink


@dataclass(frozen=True)
class Network:
    nodes: tuple[Node, ...]
    sources: tuple[Source, ...]
    links: tuple[Link, ...]
    emitters: tuple[Emitter, ...] = ()


@dataclass(frozen=True)
class Case:
    """What is shut: ids of links and of emitters. Everything else is open."""

    label: str = "all open"
    closed: frozenset[str] = field(default_factory=frozenset)


@dataclass(frozen=True)
class Solution:
    """One case solved. Only what water reaches is in it; flow is signed from start to end.

    ``mass_error_lpm`` and ``energy_error_kpa`` are the largest that remain at any node
    and link: the proof of convergence.
    """

    case: str
    node_kpa: dict[str, float]
    link_lpm: dict[str, float]
    link_loss_kpa: dict[str, float]
    emitter_lpm: dict[str, float]
    source_lpm: dict[str, float]
    iterations: int
    mass_error_lpm: float
    energy_error_kpa: float
