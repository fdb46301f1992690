"""Pages of sites: add, look, edit."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from office.access import office_only, person_of
from office.company import get_company
from office.versions import Clash
from parts.clash import clash_rows
from sites import services
from sites.access import get_customer_for, get_site_for
from sites.forms import SiteForm
from sites.models import Site
from sites.panels import site_panels


@require_safe
@office_only
def site_detail(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    site = get_site_for(person, pk)
    context = {
        "site": site,
        "visits": site.visits.all(),
        "plans": site.plans.defer("document").select_related("made_by"),
        "panels": site_panels(person, site),
    }
    return render(request, "sites/site.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def site_add(request: HttpRequest, customer_pk: int) -> HttpResponse:
    customer = get_customer_for(person_of(request), customer_pk)
    same = {name: getattr(customer, name) for name in ("street", "postcode", "town", "country")}
    form = SiteForm(request.POST or None, initial={**same, "units": get_company().units})
    if request.method == "POST" and form.is_valid():
        site = services.create_site(customer=customer, by=person_of(request), **form.typed())
        messages.success(request, "Site added. Write down the visit, or import a plan.")
        return redirect("sites:site", pk=site.pk)
    context = {"form": form, "customer": customer}
    return render(request, "sites/site_edit.html", context, status=422 if request.method == "POST" else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def site_edit(request: HttpRequest, pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), pk)
    form = SiteForm(request.POST or None, instance=site)
    context: dict[str, Any] = {"form": form, "customer": site.customer, "site": site}
    if request.method != "POST":
        return render(request, "sites/site_edit.html", context)
    if not form.is_valid():
        return render(request, "sites/site_edit.html", context, status=422)
    try:
        services.update_site(
            site, began_from=form.cleaned_data["began_from"] or 0, by=person_of(request), **form.typed()
        )
    except Clash as clash:
        current = cast(Site, clash.current)
        context["clash"] = clash_rows(form, SiteForm(instance=current))
        form.begin_from(current.version)
        return render(request, "sites/site_edit.html", context, status=409)
    messages.success(request, "Saved.")
    return redirect("sites:site", pk=site.pk)
