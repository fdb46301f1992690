"""The list of quotes, and the page that begins a new one."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from office.access import office_only, person_of
from quoting import services
from quoting.access import get_plan_revision_for, plans_to_quote, quotes_for
from quoting.errors import PlanNotPriceable
from quoting.forms import SearchForm, whole_number
from quoting.models import Status
from quoting.search import search_quotes

PER_PAGE = 50


@require_safe
@office_only
def quote_list(request: HttpRequest) -> HttpResponse:
    services.lapse_all_past()
    form = SearchForm(request.GET)
    form.is_valid()
    words, status = form.cleaned_data.get("q", ""), form.cleaned_data.get("status", "")
    found = search_quotes(quotes_for(person_of(request)), words, status)
    page = Paginator(found, PER_PAGE).get_page(request.GET.get("page"))
    context = {"page": page, "q": words, "status": status, "statuses": Status.choices}
    template = "quoting/_list.html" if getattr(request, "htmx", False) else "quoting/list.html"
    return render(request, template, context)


@require_safe
@office_only
def quote_new(request: HttpRequest) -> HttpResponse:
    """Plans to begin a quote from, the newest first."""
    words, site = request.GET.get("q", "")[:100], whole_number(request.GET.get("site", ""))
    found = plans_to_quote(person_of(request), words, site)
    page = Paginator(found, PER_PAGE).get_page(request.GET.get("page"))
    return render(request, "quoting/new.html", {"page": page, "q": words})


@require_POST
@office_only
def quote_draft(request: HttpRequest, plan_pk: int) -> HttpResponse:
    person = person_of(request)
    plan = get_plan_revision_for(person, plan_pk)
    try:
        quote = services.draft_quote(plan=plan, by=person)
    except PlanNotPriceable as error:
        messages.error(request, error.sentence)
        return redirect("quoting:new")
    messages.success(request, "Worked out from the plan. Look through the lines before you issue it.")
    return redirect("quoting:quote", pk=quote.pk)
