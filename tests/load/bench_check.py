"""The whole check of an eight-zone, 40-head plan against EPANET solving the same cases.

From document to report without coverage, beside owa-epanet building each case in memory
through its toolkit, solving it to its own usual accuracy and reading back every pressure and
flow. Medians of one
run, the two taken in turn. Both solve the same network; their pressures are compared first.
"""

import statistics
import sys
import time
from collections.abc import Callable

from epanet import toolkit as en

from design.canonical import plan_text
from design.check import check
from design.loading import load_plan
from design.site import Site
from design.solving import built_network, site_supply
from design.topology import cases_of
from hydraulics.friction import hazen_williams_resistance
from hydraulics.limits import DEFAULT_LIMITS
from hydraulics.network import Case, CurveLink, Network, PipeLink
from hydraulics.units import KPA_PER_M
from tests.load.eight_zones import PARTS, eight_zones

ROUNDS = 40
STUB = (200.0, 150.0)  # bore and C of the pipe that stands for the supply curve


def live(network: Network, case: Case) -> Network:
    """What the case leaves open, as anyone would build it for an engine."""
    links = [link for link in network.links if link.id not in case.closed]
    reached, queue = {network.sources[0].node}, [network.sources[0].node]
    while queue:
        here = queue.pop()
        for link in links:
            for a, b in ((link.start, link.end), (link.end, link.start)):
                if a == here and b not in reached:
                    reached.add(b)
                    queue.append(b)
    return Network(
        tuple(node for node in network.nodes if node.id in reached),
        network.sources,
        tuple(link for link in links if link.start in reached),
        tuple(emitter for emitter in network.emitters if emitter.node in reached),
    )


def solve_in_memory(network: Network) -> dict[str, float]:
    """Build, solve and read one case; pressure by node in kPa."""
    project = en.createproject()
    en.init(project, "/dev/null", "", en.LPS, en.HW)
    en.setoption(project, en.EMITEXPON, network.emitters[0].exponent)
    index = {}
    for node in network.nodes:
        index[node.id] = en.addnode(project, node.id, en.JUNCTION)
        en.setjuncdata(project, index[node.id], node.elevation_m, 0, "")
    _add_source(project, network, index)
    for link in network.links:
        if isinstance(link, PipeLink):
            at = en.addlink(project, link.id, en.PIPE, link.start, link.end)
            en.setpipedata(project, at, link.length_m, link.bore_mm, link.c, link.minor_k)
        elif isinstance(link, CurveLink):
            _add_curve(project, link)
    for emitter in network.emitters:
        at_one_metre = emitter.coefficient * KPA_PER_M**emitter.exponent / 60
        en.setnodevalue(project, index[emitter.node], en.EMITTER, at_one_metre)
    en.solveH(project)
    pressures = {name: en.getnodevalue(project, at, en.PRESSURE) * KPA_PER_M for name, at in index.items()}
    for at in range(1, en.getcount(project, en.LINKCOUNT) + 1):
        en.getlinkvalue(project, at, en.FLOW)
    en.deleteproject(project)
    return pressures


def _add_source(project, network: Network, index: dict[str, int]) -> None:
    source = network.sources[0]
    level = next(node.elevation_m for node in network.nodes if node.id == source.node)
    reservoir = en.addnode(project, "~head", en.RESERVOIR)
    en.setnodevalue(project, reservoir, en.ELEVATION, level + source.static_kpa / KPA_PER_M)
    at = en.addlink(project, "~curve", en.PIPE, "~head", source.node)
    length = source.loss_coefficient / hazen_williams_resistance(1.0, *STUB)
    en.setpipedata(project, at, length, *STUB, 0)
    index.pop("~head", None)


def _add_curve(project, link: CurveLink) -> None:
    curve = f"{link.id}~c"
    en.addcurve(project, curve)
    number = en.getcurveindex(project, curve)
    for place, (flow, loss) in enumerate(((0.0, 0.0), *link.rows), 1):
        en.setcurvevalue(project, number, place, flow / 60, loss / KPA_PER_M)
    at = en.addlink(project, link.id, en.GPV, link.start, link.end)
    en.setlinkvalue(project, at, en.GPV_CURVE, number)


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def largest_difference_pct(networks: dict[str, Network]) -> float:
    """Largest relative difference of pressure between the two."""
    worst = 0.0
    for case in check(eight_zones(), PARTS, with_coverage=False).cases:
        engine = solve_in_memory(networks[case.label])
        for name, pressure in case.node_kpa.items():
            if name in engine:
                worst = max(worst, abs(engine[name] / pressure - 1))
    return 100 * worst


def main() -> int:
    plan = eight_zones()
    site = Site(plan, PARTS, DEFAULT_LIMITS)
    built = built_network(site, site_supply(site))
    cases = cases_of(plan, site.topology)
    networks = {case.label: live(built.network, built.case(case.label, case.open)) for case in cases}
    difference = largest_difference_pct(networks)
    mine, engine, covered, loaded = [], [], [], []
    text = plan_text(plan)
    for _ in range(ROUNDS):
        mine.append(seconds(lambda: check(plan, PARTS, with_coverage=False)))
        engine.append(seconds(lambda: [solve_in_memory(network) for network in networks.values()]))
        covered.append(seconds(lambda: check(plan, PARTS)))
        loaded.append(seconds(lambda: load_plan(text)))
    ours, theirs = statistics.median(mine), statistics.median(engine)
    print(f"check of {len(cases)} zones, {len(site.heads)} heads, document to report: {1000 * ours:.2f} ms")
    print(f"  EPANET building, solving, reading the same cases in memory: {1000 * theirs:.2f} ms")
    print(f"  ratio {ours / theirs:.2f} (goal: at most 1)")
    print(f"  reading the document from JSON text, on top: {1000 * statistics.median(loaded):.2f} ms")
    print(f"  with coverage on a 0.25 m grid: {1000 * statistics.median(covered):.2f} ms")
    print(f"  largest difference of pressure {difference:.4f} % (goal: at most 0.1 %)")
    return int(difference > 0.1)


if __name__ == "__main__":
    sys.exit(main())
