"""The page to look at before leaving a site."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from office.access import office_only, person_of
from sites.access import get_visit_for
from sites.leaving import area_said, fragile_readings, ground_of_visit
from sites.leaving_page import fragile_rows
from sites.survey_words import said_of
from sites.visit_columns import data_of
from sites.walk_round.services import missing_lines


@require_safe
@office_only
def leaving(request: HttpRequest, pk: int) -> HttpResponse:
    """What is missing and whether the ground closes; the fragile readings follow, since they take seconds."""
    person = person_of(request)
    visit = get_visit_for(person, pk)
    ground = ground_of_visit(visit, person)
    missing = missing_lines(visit)
    context = {
        "visit": visit,
        "site": visit.site,
        "data": data_of(visit),
        "ground": ground,
        "said": said_of(ground.survey, ground.result),
        "area": area_said(visit, ground),
        "required": [line for line in missing if line.severity == "required"],
        "wanted": [line for line in missing if line.severity != "required"],
    }
    return render(request, "sites/leaving.html", context)


@require_safe
@office_only
def leaving_fragile(request: HttpRequest, pk: int) -> HttpResponse:
    """The fragile readings; a piece of the page above, or a page of its own without scripts."""
    person = person_of(request)
    visit = get_visit_for(person, pk)
    found = fragile_readings(ground_of_visit(visit, person))
    context = {"visit": visit, "site": visit.site, "found": found, "rows": fragile_rows(found.found, visit)}
    template = "sites/_fragile.html" if request.headers.get("HX-Request") else "sites/fragile.html"
    return render(request, template, context)
