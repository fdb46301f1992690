"""What every solution must hold, on random networks."""

import dataclasses
import random
from collections import deque

import pytest
from hypothesis import given, settings

from hydraulics.friction import hazen_williams_kpa, minor_resistance
from hydraulics.network import CurveLink, Network, PipeLink, PowerLink
from hydraulics.solver import solve
from hydraulics.units import KPA_PER_M
from tests.hydraulics.networks import networks

LAWS = settings(max_examples=150, deadline=None, derandomize=True)


@LAWS
@given(networks())
def test_water_is_neither_made_nor_lost(network):
    found = solve(network)
    balance = dict.fromkeys(found.node_kpa, 0.0)
    for link in network.links:
        balance[link.start] -= found.link_lpm[link.id]
        balance[link.end] += found.link_lpm[link.id]
    for emitter in network.emitters:
        balance[emitter.node] -= found.emitter_lpm[emitter.id]
    balance["n0"] += found.source_lpm["main"]
    most = max(found.source_lpm["main"], 1e-3)
    assert all(abs(rest) <= 1e-6 * most for rest in balance.values())
    assert found.mass_error_lpm <= 1e-6 * most


@LAWS
@given(networks())
def test_energy_fits_along_every_link_so_round_every_loop(network):
    found = solve(network)
    head = {node.id: found.node_kpa[node.id] + KPA_PER_M * node.elevation_m for node in network.nodes}
    scale = max(abs(value) for value in head.values())
    for link in network.links:
        loss = loss_kpa(link, found.link_lpm[link.id])
        assert head[link.start] - head[link.end] == pytest.approx(loss, abs=1e-6 * scale, rel=1e-6)
    source = network.sources[0]
    left = source.static_kpa - source.loss_coefficient * found.source_lpm["main"] ** 1.852
    assert found.node_kpa["n0"] == pytest.approx(left, rel=1e-6)


@LAWS
@given(networks())
def test_outlets_follow_their_law_and_never_take_water_in(network):
    found = solve(network)
    for emitter in network.emitters:
        pressure = min(found.node_kpa[emitter.node], emitter.regulated_kpa or float("inf"))
        by_law = emitter.coefficient * max(pressure, 0.0) ** emitter.exponent
        assert found.emitter_lpm[emitter.id] >= 0
        # a kPa of 1e-6 is the solver's own tolerance; near no pressure the root makes more of it
        assert found.emitter_lpm[emitter.id] == pytest.approx(by_law, rel=1e-5, abs=2e-3)


@LAWS
@given(networks())
def test_the_order_of_nodes_and_links_does_not_matter(network):
    shuffled = random.Random(7)
    parts = [list(network.nodes), list(network.links), list(network.emitters)]
    for part in parts:
        shuffled.shuffle(part)
    other = Network(tuple(parts[0]), network.sources, tuple(parts[1]), tuple(parts[2]))
    a, b = solve(network), solve(other)
    most = max(a.source_lpm["main"], 1e-3)
    for id_, flow in a.link_lpm.items():
        assert b.link_lpm[id_] == pytest.approx(flow, abs=1e-5 * most)
    for id_, pressure in a.node_kpa.items():
        assert b.node_kpa[id_] == pytest.approx(pressure, abs=1e-5 * 600)


@LAWS
@given(networks())
def test_the_losses_round_every_loop_cancel(network):
    found = solve(network)
    scale = network.sources[0].static_kpa
    for loop in independent_loops(network):
        signed = [sign * loss_kpa(link, found.link_lpm[link.id]) for link, sign in loop]
        assert abs(sum(signed)) <= 1e-6 * max(scale, sum(map(abs, signed)))


@LAWS
@given(networks())
def test_doubled_head_and_doubled_losses_leave_every_flow(network):
    """Every term of the energy balance doubles: pressures do too, and flows stay."""
    once, twice = solve(network), solve(doubled(network))
    most = max(once.source_lpm["main"], 1e-3)
    for id_, flow in once.link_lpm.items():
        assert twice.link_lpm[id_] == pytest.approx(flow, abs=2e-5 * most)
    for id_, pressure in once.node_kpa.items():
        assert twice.node_kpa[id_] == pytest.approx(2 * pressure, abs=2e-3)


def doubled(network):
    """Supply, levels, losses and what the outlets ask for, all times two."""
    nodes = tuple(dataclasses.replace(node, elevation_m=2 * node.elevation_m) for node in network.nodes)
    sources = tuple(
        dataclasses.replace(s, static_kpa=2 * s.static_kpa, loss_coefficient=2 * s.loss_coefficient)
        for s in network.sources
    )
    emitters = tuple(
        dataclasses.replace(
            e,
            coefficient=e.coefficient / 2**e.exponent,
            regulated_kpa=None if e.regulated_kpa is None else 2 * e.regulated_kpa,
        )
        for e in network.emitters
    )
    return Network(nodes, sources, tuple(map(twice_the_loss, network.links)), emitters)


def twice_the_loss(link):
    if isinstance(link, PipeLink):
        return dataclasses.replace(link, length_m=2 * link.length_m, minor_k=2 * link.minor_k)
    if isinstance(link, PowerLink):
        return dataclasses.replace(link, coefficient=2 * link.coefficient)
    return dataclasses.replace(link, rows=tuple((flow, 2 * loss) for flow, loss in link.rows))


def independent_loops(network):
    """For each link outside a spanning tree: the links round its loop, with the sign of their sense."""
    came_by = {"n0": None}
    queue, tree = deque(["n0"]), set()
    while queue:
        here = queue.popleft()
        for link in network.links:
            for a, b in ((link.start, link.end), (link.end, link.start)):
                if a == here and b not in came_by:
                    came_by[b] = link
                    tree.add(link.id)
                    queue.append(b)

    def way(node):
        steps = []
        while came_by[node] is not None:
            link = came_by[node]
            forward = link.end == node
            steps.append((link, 1 if forward else -1))
            node = link.start if forward else link.end
        return steps

    for link in network.links:
        if link.id not in tree:
            back = [(other, -sign) for other, sign in way(link.end)]
            yield [(link, 1), *back, *way(link.start)]


def loss_kpa(link, flow):
    """The laws again, written from their definition."""
    if isinstance(link, PipeLink):
        friction = hazen_williams_kpa(flow, link.length_m, link.bore_mm, link.c)
        return friction + minor_resistance(link.minor_k, link.bore_mm) * flow * abs(flow)
    if isinstance(link, CurveLink):
        (q1, h1), (q2, h2) = link.rows
        size = abs(flow)
        loss = size * h1 / q1 if size <= q1 else h1 + (size - q1) * (h2 - h1) / (q2 - q1)
        return loss if flow >= 0 else -loss
    return link.coefficient * flow * abs(flow) ** (link.exponent - 1)
