"""Reaching customers and what hangs on them: missing and forbidden are both a 404.

Customers, sites, visits and plans are for owner and office. Installers see jobs, which carry
what they need.
"""

from typing import TypeVar

from django.db.models import Model, QuerySet
from django.http import Http404

from office.models import Person
from sites.models import Customer, Picture, PlanRevision, Site, SitePhoto, Visit

M = TypeVar("M", bound=Model)


def customers_for(person: Person) -> QuerySet[Customer]:
    return Customer.objects.all() if person.is_office else Customer.objects.none()


def sites_for(person: Person) -> QuerySet[Site]:
    rows = Site.objects.select_related("customer")
    return rows if person.is_office else rows.none()


def visits_for(person: Person) -> QuerySet[Visit]:
    rows = Visit.objects.select_related("site__customer").prefetch_related("tests", "heights")
    return rows if person.is_office else rows.none()


def plans_for(person: Person) -> QuerySet[PlanRevision]:
    rows = PlanRevision.objects.select_related("site__customer", "made_by")
    return rows if person.is_office else rows.none()


def pictures_for(person: Person) -> QuerySet[Picture]:
    return Picture.objects.all() if person.is_office else Picture.objects.none()


def get_customer_for(person: Person, pk: int) -> Customer:
    return _found(customers_for(person).filter(pk=pk), "customer")


def get_site_for(person: Person, pk: int) -> Site:
    return _found(sites_for(person).filter(pk=pk), "site")


def get_visit_for(person: Person, pk: int, site_pk: int | None = None) -> Visit:
    """The visit; where ``site_pk`` is given, only if it is one of that site."""
    rows = visits_for(person).filter(pk=pk)
    return _found(rows.filter(site_id=site_pk) if site_pk is not None else rows, "visit")


def get_plan_for(person: Person, site_pk: int, number: int) -> PlanRevision:
    # Asked for by way of the site, since only an exact primary key may be beyond what the database counts.
    site = get_site_for(person, site_pk)
    return _found(plans_for(person).filter(site=site, number=number), "plan")


def get_picture_for(person: Person, pk: int) -> Picture:
    """The picture, its bytes not read yet."""
    return _found(pictures_for(person).defer("data", "small").filter(pk=pk), "picture")


def get_photo_for(person: Person, pk: int) -> SitePhoto:
    rows = SitePhoto.objects.select_related("visit__site__customer", "picture")
    rows = rows.defer("picture__data", "picture__small")
    return _found((rows if person.is_office else rows.none()).filter(pk=pk), "photo")


def _found(rows: QuerySet[M], name: str) -> M:
    row = rows.first()
    if row is None:
        raise Http404(f"There is no such {name}.")
    return row
