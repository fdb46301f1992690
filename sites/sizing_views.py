"""The page that offers cheaper pipes for a plan revision. It changes nothing; taking it up is a save."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from office.access import office_only, person_of
from sites.access import get_plan_for
from sites.errors import CheckFailed
from sites.plan_services import latest_revision
from sites.sizing_forms import KeepForm
from sites.sizing_page import SizingPage
from sites.sizing_services import size_revision


@require_safe
@office_only
def plan_sizes(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    newest = latest_revision(revision.site)
    form = KeepForm(revision, {"keep": request.GET.get("keep", "")})
    context: dict[str, Any] = {
        "revision": revision,
        "site": revision.site,
        "newest": newest,
        "is_newest": newest == revision,
        "form": form,
    }
    if not form.is_valid():
        return render(request, "sites/sizing.html", context, status=422)
    try:
        context["page"] = SizingPage(revision, size_revision(revision, form.cleaned_data["keep"]))
    except CheckFailed as failure:
        context["failure"] = str(failure)
    return render(request, "sites/sizing.html", context)
