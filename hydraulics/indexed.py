"""A network as index arrays, built once and shared by all its cases.

Everything that carries flow becomes one row: the links, then one row per supply curve
(from a fixed head to its node), then one row per emitter (from its node to the ground).
Each row follows head = r |q|**n sign(q) + m |q| q, or a piecewise-linear curve, with flow
kept between ``low`` and ``high``. Heads are total: pressure plus 9.80665 kPa per metre. Of the
head at its start a row sees no more than its ``cap``: that is what a pressure regulator does.
"""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from hydraulics.emission import outlet_law, unregulated_lpm
from hydraulics.errors import DisconnectedNodes, NetworkError
from hydraulics.friction import (
    FLOW_EXPONENT,
    flow_at_velocity_lpm,
    hazen_williams_resistance,
    minor_resistance,
)
from hydraulics.network import CurveLink, Emitter, Link, Network, PipeLink, PowerLink, PressureRegulator
from hydraulics.network_checks import refuse_bad
from hydraulics.units import KPA_PER_M

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
# share of the static that a first guess expects at an outlet
_GUESS_SHARE = 0.6
_GUESS_MPS = 0.3
_GUESS_LPM = 10.0


class IndexedNetwork:
    """Arrays by row and by head; heads are the nodes, then supply heads, then ground levels."""

    def __init__(self, network: Network) -> None:
        refuse_bad(network)
        self.network = network
        self.node_ids = [node.id for node in network.nodes]
        self.index = {id_: i for i, id_ in enumerate(self.node_ids)}
        self.link_count = len(network.links)
        self.curved = [source for source in network.sources if source.loss_coefficient > 0]
        self.source_rows = {s.id: self.link_count + i for i, s in enumerate(self.curved)}
        self.first_emitter = self.link_count + len(self.curved)
        self._set_heads()
        self.laws = [outlet_law(emitter, self.highest_kpa) for emitter in network.emitters]
        self._set_ends()
        self._set_laws()
        self._set_curves()
        self._set_neighbours()

    def _set_heads(self) -> None:
        network, n = self.network, len(self.node_ids)
        level = [node.elevation_m * KPA_PER_M for node in network.nodes]
        supply = [s.static_kpa + level[self.index[s.node]] for s in self.curved]
        ground = [level[self.index[e.node]] for e in network.emitters]
        self.level_kpa: Floats = np.array(level, dtype=float)
        self.head_kpa: Floats = np.array(level + supply + ground, dtype=float)
        self.known = [False] * n + [True] * (len(supply) + len(ground))
        for source in network.sources:
            if source.loss_coefficient <= 0:
                node = self.index[source.node]
                self.known[node] = True
                self.head_kpa[node] = source.static_kpa + level[node]
        self.highest_kpa = max(s.static_kpa + level[self.index[s.node]] for s in network.sources)

    def _set_ends(self) -> None:
        network, index, n = self.network, self.index, len(self.node_ids)
        ground = n + len(self.curved)
        start = [index[link.start] for link in network.links]
        end = [index[link.end] for link in network.links]
        start += [n + i for i in range(len(self.curved))]
        end += [index[source.node] for source in self.curved]
        start += [index[emitter.node] for emitter in network.emitters]
        end += [ground + i for i in range(len(network.emitters))]
        self.start, self.end = start, end
        self.row_ids = [link.id for link in network.links] + [s.id for s in self.curved]
        self.row_ids += [emitter.id for emitter in network.emitters]
        self.row_of = {id_: row for row, id_ in enumerate(self.row_ids) if not self.is_source(row)}

    def is_source(self, row: int) -> bool:
        return self.link_count <= row < self.first_emitter

    def rows_named(self, ids: Iterable[str]) -> set[int]:
        """Rows of links and emitters by id; NetworkError on an id that is none."""
        missing = [id_ for id_ in ids if id_ not in self.row_of]
        if missing:
            raise NetworkError(f"a case shuts “{missing[0]}”, which is no link or outlet of the network")
        return {self.row_of[id_] for id_ in ids}

    def _set_laws(self) -> None:
        laws = [_link_law(link) for link in self.network.links]
        laws += [(s.loss_coefficient, s.exponent, 0.0, _GUESS_LPM) for s in self.curved]
        laws += [self._emitter_law(emitter) for emitter in self.laws]
        table = np.array(laws, dtype=float).reshape(len(laws), 4)
        self.r, self.n, self.m = table[:, 0].copy(), table[:, 1].copy(), table[:, 2].copy()
        self.guess_lpm = table[:, 3].tolist()
        self.low = np.full(len(laws), -np.inf)
        self.high = np.full(len(laws), np.inf)
        self.stop_slope = np.ones(len(laws))
        self._set_bounds()

    def _set_bounds(self) -> None:
        """What keeps the flow of a row in bounds: outlets, check valves, regulators."""
        self.cap_kpa = np.full(len(self.low), np.inf)
        for row, link in enumerate(self.network.links):
            if isinstance(link, PressureRegulator):
                self.low[row] = 0.0
                self.cap_kpa[row] = link.setting_kpa + self.level_kpa[self.end[row]]
            elif link.one_way:
                self.low[row] = 0.0
        self.regulators = [row for row, cap in enumerate(self.cap_kpa) if cap < np.inf]
        for row, emitter in enumerate(self.laws, self.first_emitter):
            self.low[row] = 0.0
            if emitter.regulated_kpa is not None:
                self.high[row] = unregulated_lpm(emitter, emitter.regulated_kpa)
            reference_kpa = emitter.regulated_kpa or 100.0
            reference_lpm = unregulated_lpm(emitter, reference_kpa)
            exponent = 1.0 if emitter.rows else emitter.exponent
            self.stop_slope[row] = reference_kpa / (exponent * reference_lpm)

    def _emitter_law(self, emitter: Emitter) -> tuple[float, float, float, float]:
        level = self.level_kpa[self.index[emitter.node]]
        guess_kpa = max(_GUESS_SHARE * (self.highest_kpa - level), 1.0)
        guess_kpa = min(guess_kpa, emitter.regulated_kpa or guess_kpa)
        if emitter.rows:
            return 0.0, 1.0, 0.0, unregulated_lpm(emitter, guess_kpa)
        n = 1.0 / emitter.exponent
        return emitter.coefficient**-n, n, 0.0, unregulated_lpm(emitter, guess_kpa)

    def _set_curves(self) -> None:
        """Piecewise-linear rows: links by table, then outlets by table."""
        tables = [(row, x.rows) for row, x in enumerate(self.network.links) if isinstance(x, CurveLink)]
        tables += [(row, law.rows) for row, law in enumerate(self.laws, self.first_emitter) if law.rows]
        self.curve_of_row = np.full(len(self.row_ids), -1)
        self.curve_of_row[[row for row, _ in tables]] = np.arange(len(tables))
        width = max((len(rows) for _, rows in tables), default=1)
        self.curve_flow = np.full((len(tables), width), np.inf)
        self.curve_loss = np.zeros((len(tables), width))
        self.curve_slope = np.zeros((len(tables), width))
        for i, (_, rows) in enumerate(tables):
            flow, loss = np.array([(0.0, 0.0), *rows]).T
            count = len(rows)
            self.curve_flow[i, :count] = flow[:-1]
            self.curve_loss[i, :count] = loss[:-1]
            self.curve_slope[i, :count] = np.diff(loss) / np.diff(flow)

    def _set_neighbours(self) -> None:
        """By node: (row, other end) of each link; rows of its emitters; then prove all connected."""
        n = len(self.node_ids)
        self.neighbours: list[list[tuple[int, int]]] = [[] for _ in range(n + len(self.curved))]
        self.outlets: list[list[int]] = [[] for _ in range(n)]
        for row in range(self.first_emitter):
            a, b = self.start[row], self.end[row]
            self.neighbours[a].append((row, b))
            self.neighbours[b].append((row, a))
        for row in range(self.first_emitter, len(self.start)):
            self.outlets[self.start[row]].append(row)
        self.roots = [i for i, known in enumerate(self.known[: n + len(self.curved)]) if known]
        reached = set(self.roots)
        queue = list(self.roots)
        for node in queue:
            fresh = [other for _, other in self.neighbours[node] if other not in reached]
            reached.update(fresh)
            queue += fresh
        lost = tuple(id_ for i, id_ in enumerate(self.node_ids) if i not in reached)
        if lost:
            raise DisconnectedNodes(lost)


def _link_law(link: Link) -> tuple[float, float, float, float]:
    """r, n, m and a first guess of the flow."""
    if isinstance(link, PipeLink):
        r = hazen_williams_resistance(link.length_m, link.bore_mm, link.c)
        guess = flow_at_velocity_lpm(_GUESS_MPS, link.bore_mm)
        return r, FLOW_EXPONENT, minor_resistance(link.minor_k, link.bore_mm), guess
    if isinstance(link, PowerLink):
        return link.coefficient, link.exponent, 0.0, _GUESS_LPM
    if isinstance(link, PressureRegulator):
        return 0.0, 1.0, 0.0, _GUESS_LPM
    return 0.0, 1.0, 0.0, link.rows[0][0]
