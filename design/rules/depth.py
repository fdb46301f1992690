"""How deep a trench must at least be for what lies in it."""

from collections.abc import Iterator

from design.report import TrenchStretch
from design.rules.finding import Measure, finding, listed, rule
from design.site import Site
from hydraulics.findings import Finding, Severity
from hydraulics.limits import Limits

# less than a spade can tell
TOLERANCE_M = 0.005

SHALLOW = rule(
    "trench.depth.low", (Severity.WARN,), "Depth of a trench against the least for what lies in it",
    "main_least_depth_m, lateral_least_depth_m, cable_least_depth_m", "m",
    "common practice, no source; cables from memory: NEC table 300.5",
)  # fmt: skip


def depth_findings(site: Site) -> Iterator[Finding]:
    """All findings on trenches that are not deep enough."""
    for stretch in site.trench:
        yield from stretch_depth(stretch, site.limits)


def stretch_depth(stretch: TrenchStretch, limits: Limits) -> list[Finding]:
    least_m = {
        "main": limits.main_least_depth_m,
        "lateral": limits.lateral_least_depth_m,
        "cable": limits.cable_least_depth_m,
    }[stretch.role]
    if stretch.depth_m >= least_m - TOLERANCE_M:
        return []
    users = (*stretch.pipes, *stretch.cables)
    sentence = (
        f"{listed(users)} lie {stretch.depth_m:.2f} m deep, and a {stretch.role} needs at least "
        f"{least_m:.2f} m: a spade or a wheel would reach it. Dig deeper."
    )
    measure = Measure(stretch.depth_m, least_m, users, stretch.path[0])
    return [finding(SHALLOW, Severity.WARN, measure, sentence)]
