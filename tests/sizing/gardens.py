"""Small networks to size, and the answer by trying every combination of pipes."""

import math
from itertools import product

from hypothesis import strategies as st

from hydraulics.errors import HydraulicsError
from hydraulics.friction import velocity_mps
from hydraulics.network import Case, CurveLink, Emitter, Network, Node, PipeLink, Source
from hydraulics.sizing import Candidate, OutletNeed, SizingTask
from hydraulics.solver import solve_cases

SIZES = (("s", 16.0, 1.0), ("m", 20.4, 1.7), ("l", 26.0, 2.6))
SAME = 1e-6


def candidates(most_mps=1.5, prices=(1.0, 1.7, 2.6)):
    return tuple(
        Candidate(code, bore, 150.0, price, most_mps)
        for (code, bore, _), price in zip(SIZES, prices, strict=True)
    )


@st.composite
def tasks(draw, loops=False):
    """Up to five pipes of three sizes; heads with and without regulators; one or two zones."""
    count = draw(st.integers(3, 4 if loops else 5))
    parents = [draw(st.integers(0, i)) for i in range(count)]
    nodes = [Node("n0")] + [Node(f"n{i + 1}", draw(st.floats(-1.5, 2.5))) for i in range(count)]
    links = [
        PipeLink(f"p{i}", f"n{parent}", f"n{i + 1}", draw(st.floats(3, 40)), 26.0, 150.0,
                 draw(st.sampled_from([0.0, 1.8])))
        for i, parent in enumerate(parents)
    ]  # fmt: skip
    if loops:
        links.append(PipeLink("x", f"n{draw(st.integers(0, count - 2))}", f"n{count}", 12.0, 26.0))
    heads, emitters, needs = sorted(draw(st.sets(st.integers(1, count), min_size=1))), [], {}
    for i in heads:
        least = draw(st.sampled_from([150.0, 250.0]))
        held = draw(st.sampled_from([None, None, least, 300.0]))
        # above its regulator's pressure nothing can be asked of a head's spread; its flow holds
        flow = draw(st.floats(2, 16))
        emitters.append(
            _emitter(draw(st.sampled_from(["root", "root", "steep", "rows"])), i, flow, least, held)
        )
        needs[f"h{i}"] = OutletNeed(least, draw(st.sampled_from(["z", "", "y"])), held)
    source = Source("S", "n0", draw(st.floats(260, 480)), draw(st.sampled_from([0.0, 0.05])))
    shut = draw(st.sampled_from([frozenset(), frozenset({emitters[0].id})]))
    cases = (Case("all"), Case("some", shut)) if shut and len(emitters) > 1 else (Case("all"),)
    prices = draw(st.sampled_from([(1.0, 1.7, 2.6), (0.9, 1.0, 3.0), (1.0, 1.0, 1.1)]))
    spread = draw(st.sampled_from([1.0, 0.2, 0.1]))
    network = Network(tuple(nodes), (source,), tuple(links), tuple(emitters))
    sizes = {link.id: candidates(draw(st.sampled_from([1.5, 2.1])), prices) for link in links}
    return SizingTask(network, cases, sizes, needs, spread)


def _emitter(kind, i, flow, least, held):
    """That flow at the least pressure, by a power law or by rows that bend."""
    if kind == "rows":
        rows = ((0.8 * flow, 0.8 * least), (flow, least), (1.4 * flow, 1.3 * least), (1.5 * flow, 2 * least))
        return Emitter(f"h{i}", f"n{i}", flow / least**0.5, 0.5, held, rows)
    exponent = 0.5 if kind == "root" else 1.3
    return Emitter(f"h{i}", f"n{i}", flow / least**exponent, exponent, held)


def fed_by(task):
    """On a tree: by pipe, the pipe that feeds it. Written apart from the engine's own order."""
    into = {link.end: link.id for link in task.network.links}
    return {link.id: into.get(link.start) for link in task.network.links}


def is_good(task, choice):
    """Whether the solver's own pressures, velocities and spreads meet all needs."""
    try:
        solutions = solve_cases(task.sized(choice), task.cases)
    except HydraulicsError:
        return False
    return all(_case_is_good(task, choice, solution) for solution in solutions)


def _case_is_good(task, choice, solution):
    node_of = {e.id: e.node for e in task.network.emitters}
    kpa = {h: solution.node_kpa[node_of[h]] for h in solution.emitter_lpm}
    if any(pressure < task.needs[h].least_kpa - SAME for h, pressure in kpa.items()):
        return False
    for pipe, taken in choice.items():
        if velocity_mps(abs(solution.link_lpm.get(pipe, 0.0)), taken.bore_mm) > taken.most_mps + SAME:
            return False
    for group in {need.group for need in task.needs.values()} - {""}:
        acting = [
            min(pressure, task.needs[h].held_kpa or math.inf)
            for h, pressure in kpa.items()
            if task.needs[h].group == group
        ]
        if acting and max(acting) - min(acting) > (task.spread_share + SAME) * max(acting):
            return False
    return True


def cheapest_by_trying_all(task, in_order):
    """Least cost of all combinations that are in order and good, cheapest first; none if none is."""
    pipes = sorted(task.candidates)
    choices = [
        dict(zip(pipes, found, strict=True)) for found in product(*(task.candidates[p] for p in pipes))
    ]
    for choice in sorted(choices, key=task.cost):
        if in_order(choice) and is_good(task, choice):
            return task.cost(choice)
    return None


def line_with_valve():
    """Source - valve - p1 - p2 with a head at each end of p2, as one zone."""
    nodes = (Node("n0"), Node("v"), Node("n1"), Node("n2"))
    links = (
        CurveLink("valve", "n0", "v", ((20.0, 15.0), (40.0, 40.0))),
        PipeLink("p1", "v", "n1", 30.0, 26.0),
        PipeLink("p2", "n1", "n2", 20.0, 26.0),
    )
    emitters = (Emitter("h1", "n1", 10 / 250**0.5, 0.5), Emitter("h2", "n2", 10 / 250**0.5, 0.5))
    needs = {"h1": OutletNeed(250.0, "z"), "h2": OutletNeed(250.0, "z")}
    network = Network(nodes, (Source("S", "n0", 400.0, 0.03),), links, emitters)
    return SizingTask(network, (Case(),), {"p1": candidates(), "p2": candidates()}, needs, 0.2)
