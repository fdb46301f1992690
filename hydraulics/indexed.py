"""A network as index arrays, built once and shared by all its cases.

Everything that carries flow becomes one row: the links, then one row per supply curve
(from a fixed head to its node), then one row per emitter (from its node to the ground).
Each row follows head = r |q|**n sign(q) + m |q| q, or a piecewise-linear curve, with flow
kept between ``low`` and ``high``. Heads are total: pressure plus 9.80665 kPa per metre.
"""

import math
from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from hydraulics.errors import DisconnectedNodes, NetworkError
from hydraulics.friction import (
    FLOW_EXPONENT,
    flow_at_velocity_lpm,
    hazen_williams_resistance,
    minor_resistance,
)
from hydraulics.network import CurveLink, Emitter, Link, Network, PipeLink, PowerLink
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
        _refuse_bad(network)
        self.network = network
        self.node_ids = [node.id for node in network.nodes]
        self.index = {id_: i for i, id_ in enumerate(self.node_ids)}
        self.link_count = len(network.links)
        self.curved = [source for source in network.sources if source.loss_coefficient > 0]
        self.source_rows = {s.id: self.link_count + i for i, s in enumerate(self.curved)}
        self.first_emitter = self.link_count + len(self.curved)
        self._set_heads()
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
        laws += [self._emitter_law(emitter) for emitter in self.network.emitters]
        table = np.array(laws, dtype=float).reshape(len(laws), 4)
        self.r, self.n, self.m = table[:, 0].copy(), table[:, 1].copy(), table[:, 2].copy()
        self.guess_lpm = table[:, 3].tolist()
        self.low = np.full(len(laws), -np.inf)
        self.high = np.full(len(laws), np.inf)
        self.stop_slope = np.ones(len(laws))
        for row, emitter in enumerate(self.network.emitters, self.first_emitter):
            self.low[row] = 0.0
            if emitter.regulated_kpa is not None:
                self.high[row] = emitter.coefficient * emitter.regulated_kpa**emitter.exponent
            reference_kpa = emitter.regulated_kpa or 100.0
            reference_lpm = emitter.coefficient * reference_kpa**emitter.exponent
            self.stop_slope[row] = reference_kpa / (emitter.exponent * reference_lpm)

    def _emitter_law(self, emitter: Emitter) -> tuple[float, float, float, float]:
        level = self.level_kpa[self.index[emitter.node]]
        guess_kpa = max(_GUESS_SHARE * (self.highest_kpa - level), 1.0)
        guess_kpa = min(guess_kpa, emitter.regulated_kpa or guess_kpa)
        n = 1.0 / emitter.exponent
        return emitter.coefficient**-n, n, 0.0, emitter.coefficient * guess_kpa**emitter.exponent

    def _set_curves(self) -> None:
        rows = [i for i, link in enumerate(self.network.links) if isinstance(link, CurveLink)]
        links = [link for link in self.network.links if isinstance(link, CurveLink)]
        self.curve_of_row = np.full(len(self.row_ids), -1)
        self.curve_of_row[rows] = np.arange(len(rows))
        width = max((len(link.rows) for link in links), default=1)
        self.curve_flow = np.full((len(links), width), np.inf)
        self.curve_loss = np.zeros((len(links), width))
        self.curve_slope = np.zeros((len(links), width))
        for i, link in enumerate(links):
            flow, loss = np.array([(0.0, 0.0), *link.rows]).T
            count = len(link.rows)
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
    return 0.0, 1.0, 0.0, link.rows[0][0]


def _refuse_bad(network: Network) -> None:
    if not network.sources:
        raise NetworkError("the network has no supply; add one")
    _refuse_twins(node.id for node in network.nodes)
    _refuse_twins(source.id for source in network.sources)
    _refuse_twins(thing.id for thing in (*network.links, *network.emitters))
    known = {node.id for node in network.nodes}
    for link in network.links:
        _refuse_bad_link(link, known)
    places = [(e.id, e.node) for e in network.emitters] + [(s.id, s.node) for s in network.sources]
    for id_, node_id in places:
        if node_id not in known:
            raise NetworkError(f"“{id_}” sits on node “{node_id}”, which does not exist")
    for emitter in network.emitters:
        regulated = emitter.regulated_kpa
        held = regulated is None or 0 < regulated < math.inf
        if not (1e-9 <= emitter.coefficient <= 1e9 and 0.05 <= emitter.exponent <= 1 and held):
            raise NetworkError(
                f"“{emitter.id}” needs a coefficient above zero and an exponent from 0.05 to 1"
            )
    for source in network.sources:
        if not (math.isfinite(source.static_kpa) and source.loss_coefficient >= 0 and source.exponent >= 1):
            raise NetworkError(
                f"supply “{source.id}” needs a static pressure and a loss that is not negative"
            )
    for node in network.nodes:
        if not math.isfinite(node.elevation_m):
            raise NetworkError(f"node “{node.id}” needs a level")


def _refuse_twins(ids: Iterable[str]) -> None:
    twins = [id_ for id_, count in Counter(ids).items() if count > 1]
    if twins:
        raise NetworkError(f"the name “{twins[0]}” is used twice; give each its own")


def _refuse_bad_link(link: Link, known: set[str]) -> None:
    for end in (link.start, link.end):
        if end not in known:
            raise NetworkError(f"“{link.id}” ends at node “{end}”, which does not exist")
    if link.start == link.end:
        raise NetworkError(f"“{link.id}” starts and ends at the same node “{link.start}”")
    if isinstance(link, PipeLink):
        sizes = (link.length_m, link.bore_mm, link.c)
        if not all(math.isfinite(x) and x > 0 for x in sizes) or not 0 <= link.minor_k < math.inf:
            raise NetworkError(f"pipe “{link.id}” needs a length, a bore and a C above zero")
    elif isinstance(link, PowerLink):
        if not (0 <= link.coefficient < math.inf and 1 <= link.exponent <= 10):
            raise NetworkError(
                f"“{link.id}” needs a coefficient of zero or more and an exponent of 1 or more"
            )
    else:
        _refuse_bad_curve(link)


def _refuse_bad_curve(link: CurveLink) -> None:
    flows = [0.0, *(flow for flow, _ in link.rows)]
    losses = [0.0, *(loss for _, loss in link.rows)]
    rising = all(a < b for a, b in pairwise(flows)) and losses == sorted(losses)
    if not link.rows or not rising or not all(map(math.isfinite, flows + losses)):
        raise NetworkError(f"the loss rows of “{link.id}” must rise in flow and never fall in loss")
