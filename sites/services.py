"""Writing customers, sites and visits. Plans have services of their own (plan_services)."""

from typing import Any

from django.db import transaction
from django.utils import timezone

from office.audit import record
from office.models import Person
from office.versions import save_version
from parts.services import catalogue
from sites.check import check_revision
from sites.errors import PlanClash, PlanRefused, VisitRefused
from sites.models import Customer, FlowTest, HeightReading, Site, Visit
from sites.plan_services import add_plan_revision
from sites.plausibility import judge_visit
from sites.readings import VisitData
from sites.visit_columns import columns_of, heights_of, tests_of

__all__ = [
    "PlanClash",
    "PlanRefused",
    "VisitRefused",
    "add_plan_revision",
    "check_revision",
    "create_customer",
    "create_site",
    "save_visit",
    "update_customer",
    "update_site",
]


@transaction.atomic
def create_customer(*, by: Person | None, **fields: Any) -> Customer:
    """A new customer. Fields: name, email, phone, street, postcode, town, country, notes."""
    customer = Customer(**fields)
    customer.full_clean()
    customer.save()
    record(by=by, verb="customer.added", subject=customer)
    return customer


@transaction.atomic
def update_customer(customer: Customer, *, began_from: int, by: Person | None, **fields: Any) -> Customer:
    """Save a customer; office.versions.Clash where somebody saved since ``began_from``."""
    saved = save_version(customer, began_from=began_from, fields=fields)
    record(by=by, verb="customer.changed", subject=saved, detail={"fields": sorted(fields)})
    return saved


@transaction.atomic
def create_site(*, customer: Customer, by: Person | None, **fields: Any) -> Site:
    """A new site. Fields: name, street, postcode, town, country, authority_notes, access_notes, units."""
    site = Site(customer=customer, **fields)
    site.full_clean()
    site.save()
    record(by=by, verb="site.added", subject=site)
    return site


@transaction.atomic
def update_site(site: Site, *, began_from: int, by: Person | None, **fields: Any) -> Site:
    saved = save_version(site, began_from=began_from, fields=fields)
    record(by=by, verb="site.changed", subject=saved, detail={"fields": sorted(fields)})
    return saved


@transaction.atomic
def save_visit(
    data: VisitData,
    *,
    site: Site,
    by: Person | None,
    visit: Visit | None = None,
    began_from: int = 0,
    confirmed: set[str] | None = None,
) -> Visit:
    """Keep a new visit, or what was changed in ``visit``, with all its tests and heights.

    ``confirmed`` holds tokens of questions that somebody answered with yes. Raises
    VisitRefused with what cannot be and what is still asked, or office.versions.Clash.
    """
    said = confirmed or set()
    remarks = judge_visit(data, timezone.localdate(), catalogue())
    still_asked = remarks.open_questions(said)
    if remarks.refusals or still_asked:
        raise VisitRefused(remarks.refusals, still_asked)
    columns = columns_of(data)
    columns["confirmed"] = sorted(q.token for q in remarks.questions if q.token in said)
    if visit is None:
        saved = Visit(site=site, made_by=by, **columns)
        saved.full_clean()
        saved.save()
    else:
        saved = save_version(visit, began_from=began_from, fields=columns)
        saved.tests.all().delete()
        saved.heights.all().delete()
    FlowTest.objects.bulk_create(tests_of(saved, data))
    HeightReading.objects.bulk_create(heights_of(saved, data))
    record(by=by, verb="visit.changed" if visit else "visit.added", subject=saved)
    return saved
