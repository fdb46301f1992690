"""Every case of a plan solved, as the report shows it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from design.document import Case
from design.network_build import BuildInput, BuiltNetwork, build_network
from design.problems import PlanInvalid, Problem
from design.reach import reaches
from design.reaching import Reach, ReachingHead
from design.report import CaseResult, HeadResult, PipeResult
from design.shading import buildings_of
from design.site import Site
from design.supply_fit import fit_plan_supply
from design.topology import Topology, cases_of, path_between
from hydraulics.catalogue import DripPart, HeadPart
from hydraulics.errors import HydraulicsError
from hydraulics.friction import velocity_mps
from hydraulics.heads import reach_at, set_to, throw_at
from hydraulics.network import Solution
from hydraulics.solver import solve_cases
from hydraulics.supply import SupplyCurve

# common practice, no source: what a first layout would need at the connection
NEEDED_WITHOUT_HEADS_KPA = 200.0
# cases solved at once fill a matrix each; this many cells take 64 MB
MOST_CELLS = 8_000_000


@dataclass(frozen=True)
class Solved:
    """The supply curve, the cases that could be solved, and how far each head must throw."""

    supply: SupplyCurve
    cases: tuple[Case, ...]
    solutions: tuple[Solution, ...]
    built: BuiltNetwork | None
    reaching: dict[str, ReachingHead]
    reach: dict[str, Reach]


def built_network(site: Site, supply: SupplyCurve) -> BuiltNetwork | None:
    """The network, or none where the plan has no pipes yet."""
    if site.topology.supply is None or not site.topology.pipes:
        return None
    given = BuildInput(
        site.plan, site.parts, site.topology, site.paths, site.pipe_m, site.heights, supply, site.drips
    )
    return build_network(given)


def site_supply(site: Site) -> SupplyCurve:
    """The supply curve at the supply node, or where the tap is if there is none yet."""
    supply = site.topology.supply
    if supply is None:
        return fit_plan_supply(site.plan, site.parts, site.plan.supply.z_m, site.limits)
    return fit_plan_supply(site.plan, site.parts, site.heights[supply], site.limits)


def solve_site(site: Site) -> Solved:
    """Solve all cases; zones without a head have none."""
    supply = site_supply(site)
    built = built_network(site, supply)
    cases = cases_of(site.plan, site.topology) if built else ()
    cases = tuple(case for case in cases if any(site.topology.zones[zone].heads for zone in case.open))
    solutions = _solutions(built, cases) if built else ()
    reaching = _reaching_heads(site, built, solutions)
    ground = site.plan.ground
    reach = reaches(list(reaching.values()), ground.areas, buildings_of(ground))
    return Solved(supply, cases, solutions, built, reaching, reach)


def _solutions(built: BuiltNetwork, cases: Sequence[Case]) -> tuple[Solution, ...]:
    try:
        shut = [built.case(case.label, case.open) for case in cases]
        at_once = max(1, int(MOST_CELLS / len(built.network.nodes) ** 2))
        batches = [shut[first : first + at_once] for first in range(0, len(shut), at_once)]
        return tuple(found for batch in batches for found in solve_cases(built.network, batch))
    except HydraulicsError as error:
        sentence = str(error)
        raise PlanInvalid([Problem("layout", "pipes", sentence[:1].upper() + sentence[1:] + ".")]) from error


def _reaching_heads(
    site: Site, built: BuiltNetwork | None, solutions: Sequence[Solution]
) -> dict[str, ReachingHead]:
    """Sprinklers with their throw at the least pressure of the cases in which they run."""
    lowest: dict[str, float] = {}
    for solution in solutions:
        for head_id in solution.emitter_lpm:
            pressure = solution.node_kpa[built.outlet_of[head_id]] if built else 0.0
            lowest[head_id] = min(pressure, lowest.get(head_id, pressure))
    found = {}
    for head in site.heads.values():
        part = site.parts[head.part]
        if isinstance(part, HeadPart):
            throw = reach_at(part, lowest[head.id], head.reach_m) if head.id in lowest else 0.0
            sweep = 360.0 if part.pattern == "full_circle" else head.sweep_deg
            found[head.id] = ReachingHead(
                head.id, head.at, part.pattern, throw, head.from_deg, sweep, head.area
            )
    return found


def case_results(site: Site, solved: Solved) -> tuple[CaseResult, ...]:
    """The solved cases in the form of the report."""
    if solved.built is None:
        return ()
    return tuple(
        _case_result(site, solved, solved.built, case, solution)
        for case, solution in zip(solved.cases, solved.solutions, strict=True)
    )


def _case_result(
    site: Site, solved: Solved, built: BuiltNetwork, case: Case, solution: Solution
) -> CaseResult:
    zone_of = {head: zone for zone in case.open for head in site.topology.zones[zone].heads}
    heads = tuple(_head_result(site, solved, built, case.label, solution, item) for item in zone_of.items())
    pipes = tuple(_pipe_results(site, case.label, solution))
    worst = min(heads, key=lambda head: head.pressure_kpa - least_kpa(site, head.part))
    known = site.topology.nodes
    return CaseResult(
        label=case.label,
        zones=tuple(case.open),
        flow_lpm=sum(solution.source_lpm.values()),
        connection_kpa=solution.node_kpa[built.connection],
        worst_head=worst.id,
        worst_head_kpa=worst.pressure_kpa,
        node_kpa={name: kpa for name, kpa in solution.node_kpa.items() if name in known},
        heads=heads,
        pipes=pipes,
        worst_path=way_of_water(site.topology, solution.link_lpm, worst.id),
        spare_kpa=worst.pressure_kpa - least_kpa(site, worst.part),
    )


def _head_result(
    site: Site, solved: Solved, built: BuiltNetwork, label: str, solution: Solution, item: tuple[str, str]
) -> HeadResult:
    head_id, zone = item
    head, part = site.heads[head_id], site.parts[site.heads[head_id].part]
    pressure = solution.node_kpa[built.outlet_of[head_id]]
    throw = reach = 0.0
    needed = solved.reach.get(head_id, Reach(0.0, None))
    if isinstance(part, HeadPart):
        throw = throw_at(part, pressure).throw_m
        reach = set_to(part, throw, head.reach_m)
    return HeadResult(
        id=head_id,
        label=head.label,
        part=head.part,
        zone=zone,
        case=label,
        pressure_kpa=pressure,
        flow_lpm=solution.emitter_lpm.get(head_id, 0.0),
        throw_m=throw,
        reach_m=reach,
        needed_m=needed.needed_m,
        needed_at=needed.at,
        needed_bearing_deg=needed.bearing_from(head.at),
    )


def _pipe_results(site: Site, label: str, solution: Solution) -> list[PipeResult]:
    found = []
    for pipe in site.plan.layout.pipes:
        flow = solution.link_lpm.get(pipe.id)
        if flow is not None:
            speed = velocity_mps(abs(flow), site.bore_mm[pipe.id])
            loss = abs(solution.link_loss_kpa[pipe.id])
            found.append(PipeResult(pipe.id, pipe.part, label, flow, speed, loss))
    return found


def least_kpa(site: Site, part_code: str) -> float:
    """The pressure that a head or a drip line needs at least [kPa]."""
    part = site.parts[part_code]
    return part.min_kpa if isinstance(part, HeadPart | DripPart) else 0.0


def needed_at_connection_kpa(site: Site, cases: Sequence[CaseResult]) -> float:
    """Pressure at the connection at which every head just has what it needs [kPa]."""
    needs = [
        case.connection_kpa - head.pressure_kpa + least_kpa(site, head.part)
        for case in cases
        for head in case.heads
    ]
    return max(needs, default=NEEDED_WITHOUT_HEADS_KPA)


def way_of_water(topology: Topology, link_lpm: Mapping[str, float], head: str) -> tuple[str, ...]:
    """Node ids from the supply to a head, at each node back along the pipe that brings most."""
    way, here = [head], head
    while here != topology.supply:
        coming = []
        for pipe_id in topology.pipes_at[here]:
            flow = link_lpm.get(pipe_id, 0.0)
            coming.append((flow if topology.pipes[pipe_id].to == here else -flow, pipe_id))
        brought, pipe_id = max(coming)
        here = topology.other_end(pipe_id, here)
        if brought <= 0 or here in way:
            return path_between(topology, topology.supply or head, head)
        way.append(here)
    return tuple(reversed(way))
