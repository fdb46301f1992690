"""Pages of a site's climate: typed into a table, or from a CSV file."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites.access import get_site_for
from sites.climate_csv import ClimateFileRefused, ClimateRow, read_climate_csv
from sites.climate_forms import ClimateFileForm, ClimateForm, climate_data, climate_initial
from sites.models import Site, SiteClimate
from sites.plan_services import latest_revision
from sites.watering_services import save_climate
from sites.watering_year import climate_row


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def climate_edit(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    if request.method != "POST":
        form = ClimateForm(initial=climate_initial(climate_row(site)), system=site.units)
        return _page(request, site, form)
    form = ClimateForm(request.POST, system=site.units)
    if not form.is_valid():
        return _page(request, site, form, status=422)
    return _save(request, site, form.rows(), form.cleaned_data)


@require_POST
@office_only
def climate_file(request: HttpRequest, site_pk: int) -> HttpResponse:
    """Take the twelve months from a file; what is wrong in it is said by row, and nothing is kept."""
    site = get_site_for(person_of(request), site_pk)
    stored = climate_row(site)
    form = ClimateForm(initial=climate_initial(stored), system=site.units)
    from_file = ClimateFileForm(request.POST, request.FILES)
    if not from_file.is_valid():
        return _page(request, site, form, from_file, status=422)
    try:
        rows = read_climate_csv(from_file.cleaned_data["file"].read(), site.units)
    except ClimateFileRefused as refusal:
        for problem in refusal.problems:
            from_file.add_error("file", problem)
        return _page(request, site, form, from_file, status=422)
    return _save(request, site, rows, from_file.cleaned_data)


def _save(request: HttpRequest, site: Site, rows: list[ClimateRow], data: dict[str, Any]) -> HttpResponse:
    source, began_from = data["source"], data["began_from"] or 0
    try:
        save_climate(site=site, rows=rows, source=source, began_from=began_from, by=person_of(request))
    except Clash as clash:
        current = cast(SiteClimate, clash.current)
        mine = ClimateForm(climate_data(rows, source, current.version), system=site.units)
        theirs = ClimateForm(initial=climate_initial(current), system=site.units)
        return _page(request, site, mine, status=409, clash=clash_rows(mine, theirs))
    messages.success(request, "The climate is kept.")
    newest = latest_revision(site)
    if newest is None:
        return redirect("sites:site", pk=site.pk)
    return redirect("sites:watering", site_pk=site.pk, number=newest.number)


def _page(
    request: HttpRequest,
    site: Site,
    form: ClimateForm,
    from_file: ClimateFileForm | None = None,
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    began_from = form["began_from"].value()
    file_form = from_file or ClimateFileForm(initial={"began_from": began_from}, auto_id="id_file_%s")
    context = {"site": site, "form": form, "file_form": file_form, **more}
    return render(request, "sites/watering_climate.html", context, status=status)
