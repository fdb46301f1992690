"""Our solver beside EPANET (owa-epanet, in memory) on the same networks, in the same run.

Eight zones of five heads: building and solving all cases. One zone of 40 heads: one solve,
and 1,000 runs with other supply, levels and nozzles. EPANET stops at its usual accuracy, which
is kind to it, and closing its projects is not counted. Medians; below 1 is in our favour.
"""

import statistics
import sys
import time
import warnings
from collections.abc import Callable

import numpy as np
from epanet import toolkit as en

from hydraulics.friction import hazen_williams_resistance
from hydraulics.network import Case, CurveLink, Emitter, Network, Node, PipeLink, Source
from hydraulics.solver import ALL_OPEN, solve, solve_cases
from hydraulics.units import KPA_PER_M
from hydraulics.whatif import Variants, solve_variants

STATIC_KPA, LOSS = 450.0, 0.05
VALVE = ((20.0, 10.0), (60.0, 40.0))
SUPPLY_MM, SUPPLY_C = 40.0, 150.0
RUNS, ROUNDS = 1000, 40


def zoned_network(zones: int, heads: int, lateral_heads: int) -> tuple[Network, list[Case]]:
    """A main with a valve every 3 m, and laterals of heads 6 m apart behind each."""
    nodes, links, emitters = [Node("S")], [], []
    before = "S"
    for z in range(zones):
        nodes += [Node(f"M{z}"), Node(f"V{z}")]
        links += [
            PipeLink(f"main{z}", before, f"M{z}", 3.0, 40.8),
            CurveLink(f"valve{z}", f"M{z}", f"V{z}", VALVE),
        ]
        before, at = f"M{z}", f"V{z}"
        for h in range(heads):
            if h % lateral_heads == 0:
                at = f"V{z}"
            head = f"H{z}-{h}"
            nodes.append(Node(head, 0.1 * (h % 5)))
            links.append(PipeLink(f"lateral{z}-{h}", at, head, 6.0, 26.0))
            emitters.append(Emitter(f"e{z}-{h}", head, 3.0 / 250**0.5))
            at = head
    cases = [Case(f"zone {z}", frozenset(f"valve{o}" for o in range(zones) if o != z)) for z in range(zones)]
    source = Source("supply", "S", STATIC_KPA, LOSS)
    return Network(tuple(nodes), (source,), tuple(links), tuple(emitters)), cases


def engine_project(network: Network, closed: frozenset[str] = frozenset()) -> object:
    """The open part of the network in a project in memory."""
    project = en.createproject()
    en.init(project, "/dev/null", "", en.LPS, en.HW)
    for option, value in ((en.TRIALS, 200), (en.EMITEXPON, 0.5), (en.EMITBACKFLOW, 0)):
        en.setoption(project, option, value)
    live = _live_nodes(network, closed)
    index = {}
    for node in network.nodes:
        if node.id in live:
            index[node.id] = en.addnode(project, node.id, en.JUNCTION)
            en.setjuncdata(project, index[node.id], node.elevation_m, 0, "")
    en.setnodevalue(project, en.addnode(project, "head", en.RESERVOIR), en.ELEVATION, STATIC_KPA / KPA_PER_M)
    length = LOSS / hazen_williams_resistance(1.0, SUPPLY_MM, SUPPLY_C)
    supply = en.addlink(project, "supply", en.PIPE, "head", "S")
    en.setpipedata(project, supply, length, SUPPLY_MM, SUPPLY_C, 0)
    en.addcurve(project, "valve")
    points = [(0.0, 0.0), *VALVE]
    flows, losses = en.doubleArray(len(points)), en.doubleArray(len(points))
    for i, (flow, loss) in enumerate(points):
        flows[i], losses[i] = flow / 60, loss / KPA_PER_M
    en.setcurve(project, 1, flows, losses, len(points))
    for link in network.links:
        if link.id in closed or link.end not in live:
            continue
        if isinstance(link, PipeLink):
            at = en.addlink(project, link.id, en.PIPE, link.start, link.end)
            en.setpipedata(project, at, link.length_m, link.bore_mm, link.c, 0)
        else:
            at = en.addlink(project, link.id, en.GPV, link.start, link.end)
            en.setlinkvalue(project, at, en.GPV_CURVE, 1)
    for emitter in network.emitters:
        if emitter.node in live:
            en.setnodevalue(
                project, index[emitter.node], en.EMITTER, emitter.coefficient * KPA_PER_M**0.5 / 60
            )
    return project


def _live_nodes(network: Network, closed: frozenset[str]) -> set[str]:
    live = {"S"}
    for link in network.links:  # listed from the supply outwards
        if link.id not in closed and link.start in live:
            live.add(link.end)
    return live


def engine_solve(project: object) -> None:
    en.openH(project)
    en.initH(project, en.NOSAVE)
    en.runH(project)


def engine_pressures(project: object) -> dict[str, float]:
    count = en.getcount(project, en.NODECOUNT)
    return {
        en.getnodeid(project, i): en.getnodevalue(project, i, en.PRESSURE) * KPA_PER_M
        for i in range(1, count + 1)
    }


def engine_cases(network: Network, cases: list[Case]) -> tuple[list[dict[str, float]], float]:
    """Pressures by case, and the milliseconds that building, solving and reading took."""
    found, projects = [], []
    start = time.perf_counter()
    for case in cases:
        projects.append(engine_project(network, case.closed))
        engine_solve(projects[-1])
        found.append(engine_pressures(projects[-1]))
    taken_ms = 1000 * (time.perf_counter() - start)
    for project in projects:
        en.close(project)
        en.deleteproject(project)
    return found, taken_ms


def engine_median_ms(network: Network, cases: list[Case]) -> float:
    return statistics.median(engine_cases(network, cases)[1] for _ in range(ROUNDS))


def median_ms(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    work()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000 * statistics.median(times)


def worst_share(ours: dict[str, float], engine: dict[str, float]) -> float:
    return max(abs(ours[node] - engine[node]) / abs(engine[node]) for node in ours)


def eight_zones() -> float:
    network, cases = zoned_network(8, 5, 5)
    pairs = zip(solve_cases(network, cases), engine_cases(network, cases)[0], strict=True)
    share = max(worst_share(ours.node_kpa, engine) for ours, engine in pairs)
    ours = median_ms(lambda: solve_cases(network, cases))
    engine = engine_median_ms(network, cases)
    print(f"8 zones of 5 heads, all cases: {ours:.2f} ms, EPANET built and solved {engine:.2f} ms,", end=" ")
    print(f"ratio {ours / engine:.2f}; pressures within {100 * share:.5f} %")
    return share


def forty_heads() -> tuple[float, float]:
    network, _ = zoned_network(1, 40, 10)
    project = engine_project(network)
    engine_solve(project)
    share = worst_share(solve(network).node_kpa, engine_pressures(project))
    ours = median_ms(lambda: solve(network))
    engine = engine_median_ms(network, [ALL_OPEN])
    print(f"one zone of 40 heads: {ours:.2f} ms, EPANET {engine:.2f} ms, ratio {ours / engine:.2f};", end=" ")
    print(f"pressures within {100 * share:.5f} %")
    return share, thousand_runs(network, project)


def thousand_runs(network: Network, project: object) -> float:
    rng = np.random.default_rng(1)
    emitters, nodes = len(network.emitters), len(network.nodes)
    variants = Variants(
        static_kpa=rng.uniform(-100, 50, RUNS),
        raise_m=rng.uniform(-0.5, 0.5, (RUNS, nodes)),
        emitter_factor=rng.uniform(0.95, 1.05, (RUNS, emitters)),
    )
    engine_rows: list[dict[str, float]] = []

    def engine_runs() -> None:
        engine_rows.clear()
        for run in range(RUNS):
            _vary(project, network, variants, run)
            en.initH(project, en.NOSAVE)
            en.runH(project)
            engine_rows.append({"last": en.getnodevalue(project, nodes, en.PRESSURE) * KPA_PER_M})

    ours = median_ms(lambda: solve_variants(network, ALL_OPEN, variants), 5)
    engine = median_ms(engine_runs, 5)
    results = solve_variants(network, ALL_OPEN, variants)
    last = results.node_kpa[:, results.nodes.index(network.nodes[-1].id)]
    share = max(abs(a - b["last"]) / b["last"] for a, b in zip(last, engine_rows, strict=True))
    print(
        f"1,000 runs of 40 heads: {ours:.0f} ms, EPANET {engine:.0f} ms, ratio {ours / engine:.2f};", end=" "
    )
    print(f"pressures within {100 * share:.5f} %")
    return max(share, 0.0 if ours <= engine else 1.0)


def _vary(project: object, network: Network, variants: Variants, run: int) -> None:
    assert variants.static_kpa is not None
    assert variants.raise_m is not None
    assert variants.emitter_factor is not None
    raised, factor = variants.raise_m[run].tolist(), variants.emitter_factor[run].tolist()
    for i, node in enumerate(network.nodes):
        en.setnodevalue(project, i + 1, en.ELEVATION, node.elevation_m + raised[i])
    head_m = (STATIC_KPA + variants.static_kpa[run]) / KPA_PER_M + raised[0]
    en.setnodevalue(project, len(network.nodes) + 1, en.ELEVATION, head_m)
    for i, emitter in enumerate(network.emitters):
        node = i + 4  # S, M0 and V0 come first
        coefficient = emitter.coefficient * factor[i] * KPA_PER_M**0.5 / 60
        en.setnodevalue(project, node, en.EMITTER, coefficient)


def main() -> int:
    warnings.simplefilter("ignore")
    first = eight_zones()
    second, third = forty_heads()
    if max(first, second, third) > 1e-3:
        print("missed: pressures apart by more than 0.1 %, or 1,000 runs slower than EPANET")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
