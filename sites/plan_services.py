"""Keeping plan revisions. A saved one never changes; an edit makes the next."""

from typing import Any

from django.db import transaction

from design.canonical import dump_plan, plan_digest
from design.document import Plan
from design.loading import load_plan
from design.part_rules import check_parts
from design.problems import PlanInvalid, Problem
from office.audit import record
from office.models import Person
from parts.services import catalogue
from sites.errors import PlanClash, PlanRefused
from sites.models import PlanRevision, Site


def read_plan(document: str | bytes | dict[str, Any]) -> Plan:
    """The plan, every part of which is in the parts book; or PlanRefused."""
    try:
        plan = load_plan(document)
    except PlanInvalid as error:
        raise PlanRefused(error.problems) from None
    problems = check_parts(plan, catalogue())
    if problems:
        raise PlanRefused(tuple(problems))
    if _has_nul(dump_plan(plan)):
        raise PlanRefused((Problem("plan", "", "A text in the plan holds a NUL character; remove it."),))
    return plan


@transaction.atomic
def add_plan_revision(
    *,
    site: Site,
    document: str | bytes | dict[str, Any],
    began_from: int,
    by: Person | None,
    name: str = "",
) -> PlanRevision:
    """The next revision of the site's plan. ``began_from`` is the number it was begun from, 0 for none.

    A document that says the same as the newest revision makes no new one. Raises
    PlanRefused, or PlanClash where ``began_from`` is no longer the newest.
    """
    plan = read_plan(document)
    Site.objects.select_for_update().get(pk=site.pk)  # two saves at once come one after the other
    latest = latest_revision(site)
    if began_from != (latest.number if latest else 0):
        raise PlanClash(latest, began_from)
    digest = plan_digest(plan)
    if latest and latest.digest == digest and name in ("", latest.name):
        return latest
    revision = PlanRevision(
        site=site,
        number=began_from + 1,
        name=name or (latest.name if latest else ""),
        document=dump_plan(plan),
        digest=digest,
        began_from=latest,
        made_by=by,
    )
    revision.full_clean()
    revision.save()
    record(by=by, verb="plan.saved", subject=revision, detail={"site": site.pk, "number": revision.number})
    return revision


def latest_revision(site: Site) -> PlanRevision | None:
    return site.plans.order_by("-number").first()


def _has_nul(value: Any) -> bool:
    if isinstance(value, dict):
        return any(_has_nul(key) or _has_nul(item) for key, item in value.items())
    if isinstance(value, list):
        return any(_has_nul(item) for item in value)
    return isinstance(value, str) and "\x00" in value
