"""The check of a document that is still being drawn: all that can be said of it so far."""

from dataclasses import dataclass
from typing import Any

from design.check import check_site, in_order
from design.loading import load_plan
from design.partial import partial_site
from design.problems import PlanInvalid, Problem
from design.report import CheckReport
from design.rules.control import control_findings
from design.rules.depth import depth_findings
from design.rules.ground import ground_findings
from design.rules.layout import layout_findings
from design.site import Site
from hydraulics.catalogue import Catalogue
from hydraulics.errors import HydraulicsError
from hydraulics.findings import Finding
from hydraulics.limits import Limits


@dataclass(frozen=True)
class PartialReport:
    """``report`` is none where nothing can be said about water; ``problems`` say what is left out and why."""

    site: Site
    report: CheckReport | None
    findings: tuple[Finding, ...]
    problems: tuple[Problem, ...]

    @property
    def is_whole(self) -> bool:
        """Whether the document could be kept as a plan, and every case of it was solved."""
        return not self.problems


def check_document(document: dict[str, Any], parts: Catalogue, limits: Limits) -> PartialReport:
    """Check what can be checked of a document that ``load_unfinished`` gave."""
    has_supply, problems = True, tuple[Problem, ...]()
    try:
        site = Site(load_plan(document), parts, limits)
    except PlanInvalid as error:
        partial = partial_site(document, parts, limits)
        site, has_supply, problems = partial.site, partial.has_supply, partial.problems or error.problems
    if not has_supply:
        return _dry(site, problems)
    try:
        report = check_site(site)
    except PlanInvalid as error:
        return _dry(site, (*problems, *error.problems))
    except HydraulicsError as error:
        return _dry(site, (*problems, Problem("layout", "", f"The plan cannot be solved: {error}.")))
    return PartialReport(site, report, report.findings, problems)


def _dry(site: Site, problems: tuple[Problem, ...]) -> PartialReport:
    """What the ground alone says."""
    found = [
        *layout_findings(site),
        *ground_findings(site),
        *depth_findings(site),
        *control_findings(site),
    ]
    return PartialReport(site, None, in_order(found), problems)
