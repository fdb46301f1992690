"""One case of a plan as an EPANET input file, so that anyone can audit the result."""

from design.canonical import plan_digest
from design.document import Plan
from design.problems import DesignError
from design.site import Site
from design.solving import built_network, site_supply
from design.topology import cases_of
from hydraulics.catalogue import Catalogue
from hydraulics.inp import InpFile, to_inp
from hydraulics.limits import DEFAULT_LIMITS, Limits


class UnknownCase(DesignError):
    """The plan has no case of that label; the message lists those that it has."""


def export_case(plan: Plan, parts: Catalogue, case_label: str, limits: Limits = DEFAULT_LIMITS) -> str:
    """Text of the input file. Raises UnknownCase, or PlanInvalid as ``check`` does."""
    return export_case_file(plan, parts, case_label, limits).text


def export_case_file(
    plan: Plan, parts: Catalogue, case_label: str, limits: Limits = DEFAULT_LIMITS
) -> InpFile:
    """The input file with the names that its nodes and links have in it."""
    site = Site(plan, parts, limits)
    built = built_network(site, site_supply(site))
    cases = {case.label: case for case in cases_of(plan, site.topology)} if built else {}
    if built is None or case_label not in cases:
        known = ", ".join(f"“{label}”" for label in cases) or "none"
        raise UnknownCase(f"There is no case “{case_label}” in the plan; it has {known}.")
    case = built.case(case_label, cases[case_label].open)
    return to_inp(built.network, case, f"Irrigation plan {plan_digest(plan)[:12]}")
