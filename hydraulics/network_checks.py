"""What a network must be before it can be solved; each refusal names the entity."""

import math
from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

from hydraulics.errors import NetworkError
from hydraulics.network import CurveLink, Emitter, Link, Network, PipeLink, PowerLink, PressureRegulator


def refuse_bad(network: Network) -> None:
    """Raises NetworkError on the first thing that cannot be; its message names the entity."""
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
        _refuse_bad_emitter(emitter)
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
    elif isinstance(link, PressureRegulator):
        _refuse_bad_regulator(link)
    else:
        _refuse_bad_curve(link)


def _refuse_bad_emitter(emitter: Emitter) -> None:
    regulated = emitter.regulated_kpa
    held = regulated is None or 0 < regulated < math.inf
    if not (1e-9 <= emitter.coefficient <= 1e9 and 0 <= emitter.exponent <= 2 and held):
        raise NetworkError(f"“{emitter.id}” needs a coefficient above zero and an exponent from 0 to 2")
    if emitter.rows and not (_rows_rise(emitter.rows) and emitter.rows[-1][1] > 0):
        raise NetworkError(f"the rows of “{emitter.id}” must rise in flow and never fall in pressure")


def _refuse_bad_regulator(link: PressureRegulator) -> None:
    if not 0 < link.setting_kpa < math.inf:
        raise NetworkError(f"regulator “{link.id}” needs a pressure above zero to hold")


def _refuse_bad_curve(link: CurveLink) -> None:
    if not link.rows or not _rows_rise(link.rows):
        raise NetworkError(f"the loss rows of “{link.id}” must rise in flow and never fall in loss")


def _rows_rise(rows: tuple[tuple[float, float], ...]) -> bool:
    """Flows rise from zero, what stands beside them never falls; all finite."""
    flows, others = [0.0, *(flow for flow, _ in rows)], [0.0, *(other for _, other in rows)]
    rising = all(a < b for a, b in pairwise(flows)) and others == sorted(others)
    return rising and all(map(math.isfinite, flows + others))
