"""The check of a plan: everything measured, every case solved, every rule asked."""

from collections.abc import Iterable

from design.coverage_areas import cover_areas
from design.document import Plan
from design.report import CheckReport
from design.rules.control import control_findings
from design.rules.depth import depth_findings
from design.rules.electric import electric_findings
from design.rules.ground import ground_findings
from design.rules.layout import layout_findings
from design.rules.reach import reach_findings
from design.rules.water import water_findings
from design.rules.ways import way_findings
from design.site import Site
from design.solving import case_results, needed_at_connection_kpa, solve_site
from design.supply_fit import plan_design_flow, supply_result
from design.zones import zone_results
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, Limits, moved_limits

ORDER = (Severity.STOP, Severity.WARN, Severity.NOTE)


def check(
    plan: Plan, parts: Catalogue, limits: Limits = DEFAULT_LIMITS, with_coverage: bool = True
) -> CheckReport:
    """The report on a plan; ``with_coverage`` false leaves out the grid over the areas.

    Raises PlanInvalid where it names parts that the catalogue lacks, where readings cannot
    all be true, and where no balance of flow and pressure is found.
    """
    return check_site(Site(plan, parts, limits), with_coverage)


def check_site(site: Site, with_coverage: bool = True) -> CheckReport:
    """The same, of a plan that is measured already."""
    plan, parts, limits = site.plan, site.parts, site.limits
    solved = solve_site(site)
    cases = case_results(site, solved)
    needed_kpa = needed_at_connection_kpa(site, cases)
    design = plan_design_flow(solved.supply, needed_kpa, plan, parts, limits)
    found = [
        *water_findings(site, solved.supply, design, cases),
        *way_findings(site, solved, cases),
        *layout_findings(site),
        *reach_findings(site, solved, cases),
        *ground_findings(site),
        *depth_findings(site),
        *control_findings(site),
        *electric_findings(site, cases),
    ]
    areas, of_areas = cover_areas(site, solved, cases) if with_coverage else ((), [])
    return CheckReport(
        supply=supply_result(solved.supply, design, needed_kpa, cases),
        cases=cases,
        zones=zone_results(site, solved, cases),
        areas=areas,
        pipes=site.pipes,
        trench=site.trench,
        cables=site.cables,
        sleeves=site.sleeves,
        findings=in_order([*found, *of_areas]),
        moved_limits=moved_limits(limits),
    )


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Stops first, then warnings, then notes; within each by code and place."""
    return tuple(sorted(findings, key=lambda found: (ORDER.index(found.severity), found.code, found.where)))
