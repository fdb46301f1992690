"""A pressurised network as plain data: kPa, L/min, m, mm.

Nodes have a level; links lose pressure, and those that are ``one_way`` let water pass from
start to end only; emitters let water out by their pressure. A case closes some links or
emitters. Nothing here computes.
"""

from dataclasses import dataclass, field
from typing import Literal


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
    one_way: bool = False


@dataclass(frozen=True, slots=True)
class PowerLink:
    """loss_kpa = coefficient * flow_lpm**exponent, whichever way it flows; exponent 1 or more."""

    id: str
    start: str
    end: str
    coefficient: float
    exponent: float
    one_way: bool = False


@dataclass(frozen=True, slots=True)
class CurveLink:
    """Loss piecewise linear through (0, 0) and rows of (flow_lpm, loss_kpa), straight on beyond."""

    id: str
    start: str
    end: str
    rows: tuple[tuple[float, float], ...]
    one_way: bool = False


@dataclass(frozen=True, slots=True)
class PressureRegulator:
    """Holds ``setting_kpa`` at its end, without loss of its own where it stands open.

    Active while its start has more than that and water runs forward; open while its start has
    less; closed, like a check valve, while its end has more than either. Its loss when open
    goes into a link before it.
    """

    id: str
    start: str
    end: str
    setting_kpa: float


@dataclass(frozen=True, slots=True)
class Emitter:
    """Outlet: flow_lpm = coefficient * min(pressure_kpa, regulated_kpa)**exponent, none below zero.

    Exponents from 0 (flow held at any pressure) to 2. With ``rows`` of (flow_lpm, pressure_kpa),
    both rising, the flow is straight between (0, 0) and the rows and on beyond the last; the
    coefficient and the exponent are then no more than a fit for a first guess.
    """

    id: str
    node: str
    coefficient: float
    exponent: float = 0.5
    regulated_kpa: float | None = None
    rows: tuple[tuple[float, float], ...] = ()


Link = PipeLink | PowerLink | CurveLink | PressureRegulator
RegulatorState = Literal["active", "open", "closed"]


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
    regulators: dict[str, RegulatorState] = field(default_factory=dict)
