"""Pages of the watering year of a plan, and of a site's restrictions."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites.access import get_plan_for, get_site_for
from sites.errors import CheckFailed
from sites.models import WateringRules
from sites.plan_services import latest_revision
from sites.watering_forms import WateringRulesForm, rules_initial
from sites.watering_page import WateringPage
from sites.watering_services import save_watering_rules
from sites.watering_year import climate_row, rules_row, year_of


@require_safe
@office_only
def watering_year(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    site = revision.site
    rules = rules_row(site)
    context: dict[str, Any] = {
        "revision": revision, "site": site, "climate": climate_row(site), "rules": rules,
    }  # fmt: skip
    try:
        context["page"] = WateringPage(year_of(revision), site.units, rules)
    except CheckFailed as failure:
        context["failure"] = str(failure)
    return render(request, "sites/watering.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def watering_rules(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    context: dict[str, Any] = {"site": site, "newest": latest_revision(site)}
    if request.method != "POST":
        context["form"] = WateringRulesForm(initial=rules_initial(rules_row(site)), system=site.units)
        return render(request, "sites/watering_rules.html", context)
    form = context["form"] = WateringRulesForm(request.POST, system=site.units)
    if not form.is_valid():
        return render(request, "sites/watering_rules.html", context, status=422)
    fields, began_from = form.fields_typed(), form.cleaned_data["began_from"] or 0
    try:
        save_watering_rules(site=site, fields=fields, began_from=began_from, by=person_of(request))
    except Clash as clash:
        current = cast(WateringRules, clash.current)
        theirs = WateringRulesForm(initial=rules_initial(current), system=site.units)
        data = request.POST.copy()
        data["began_from"] = str(current.version)
        context["form"] = WateringRulesForm(data, system=site.units)
        context["clash"] = clash_rows(form, theirs)
        return render(request, "sites/watering_rules.html", context, status=409)
    messages.success(request, "The restrictions are kept.")
    newest = context["newest"]
    if newest is None:
        return redirect("sites:site", pk=site.pk)
    return redirect("sites:watering", site_pk=site.pk, number=newest.number)
