"""The page that lays two plan revisions of a site side by side."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from office.access import office_only, person_of
from sites.access import get_plan_for, get_site_for
from sites.compare_page import ComparePage
from sites.comparison_panels import comparison_panels
from sites.models import Site


@require_safe
@office_only
def plan_compare(request: HttpRequest, site_pk: int) -> HttpResponse:
    """``?before=2&after=3``; without them the newest revision and the one before it."""
    person = person_of(request)
    site = get_site_for(person, site_pk)
    plans = list(site.plans.order_by("-number").defer("document"))
    numbers = _asked(request, site)
    context: dict[str, object] = {"site": site, "plans": plans}
    if numbers is not None:
        before, after = (get_plan_for(person, site_pk, number) for number in numbers)
        context |= {
            "page": ComparePage(before, after),
            "before": before,
            "after": after,
            "panels": comparison_panels(person, before, after) if before != after else [],
        }
    return render(request, "sites/compare.html", context)


def _asked(request: HttpRequest, site: Site) -> tuple[int, int] | None:
    newest = list(site.plans.order_by("-number").values_list("number", flat=True)[:2])
    if not newest:
        return None
    after = _number(request.GET.get("after", ""), newest[0])
    return _number(request.GET.get("before", ""), newest[-1] if after == newest[0] else after), after


def _number(text: str, otherwise: int) -> int:
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 9 else otherwise
