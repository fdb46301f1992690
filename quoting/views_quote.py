"""The quote page, and what is done to a draft as a whole."""

from typing import cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from quoting import services
from quoting.access import get_quote_for
from quoting.errors import QuoteError
from quoting.forms import HeadForm, begin_from, whole_number
from quoting.issuing import offer_source
from quoting.models import Quote
from quoting.offer import build_offer
from quoting.proposal_data import render_offer
from quoting.quote_page import quote_page
from quoting.responses import pdf_response
from sites.access import plans_for


@require_safe
@office_only
def quote_detail(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    quote = get_quote_for(person, pk)
    context = quote_page(quote, person, whole_number(request.GET.get("line", "")))
    newest = plans_for(person).filter(site=quote.site).first()
    context["newer_plan"] = newest if quote.is_draft and newest and newest.pk != quote.plan_id else None
    return render(request, "quoting/quote.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def quote_edit(request: HttpRequest, pk: int) -> HttpResponse:
    quote = get_quote_for(person_of(request), pk)
    if request.method != "POST":
        return render(request, "quoting/head.html", {"quote": quote, "form": HeadForm(instance=quote)})
    form = HeadForm(request.POST, instance=get_quote_for(person_of(request), pk))
    if not form.is_valid():
        return render(request, "quoting/head.html", {"quote": quote, "form": form}, status=422)
    fields: dict[str, object] = {name: form.cleaned_data[name] for name in HeadForm.Meta.fields}
    try:
        services.edit_draft(
            quote=quote, began_from=form.cleaned_data["began_from"], fields=fields, by=person_of(request)
        )
    except Clash as clash:
        return _head_clash(request, form, cast(Quote, clash.current))
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return render(request, "quoting/head.html", {"quote": quote, "form": form}, status=409)
    messages.success(request, "Saved.")
    return redirect("quoting:quote", pk=pk)


def _head_clash(request: HttpRequest, form: HeadForm, current: Quote) -> HttpResponse:
    rows = clash_rows(form, HeadForm(instance=current))
    begin_from(form, current.version)
    context = {"quote": current, "form": form, "clash": rows}
    return render(request, "quoting/head.html", context, status=409)


@require_POST
@office_only
def quote_rework(request: HttpRequest, pk: int) -> HttpResponse:
    """Work the draft out anew, from its plan or, if asked, from the newest of its site."""
    person = person_of(request)
    quote = get_quote_for(person, pk)
    plan = plans_for(person).filter(site=quote.site).first() if request.POST.get("newest") else None
    try:
        services.rework_quote(quote=quote, by=person, plan=plan)
    except QuoteError as error:
        messages.error(request, error.sentence)
    else:
        messages.success(request, "Worked out anew with today's prices and rates. Your own edits stayed.")
    return redirect("quoting:quote", pk=pk)


@require_POST
@office_only
def quote_discard(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    try:
        services.discard_draft(quote=get_quote_for(person, pk), by=person)
    except QuoteError as error:
        messages.error(request, error.sentence)
        return redirect("quoting:quote", pk=pk)
    messages.success(request, "The draft is gone.")
    return redirect("quoting:list")


@require_safe
@office_only
def quote_pdf(request: HttpRequest, pk: int) -> HttpResponse:
    """The sealed PDF; of a draft a preview with today's date, which nobody keeps."""
    quote = get_quote_for(person_of(request), pk)
    if quote.seal is not None:
        return pdf_response(bytes(quote.seal.pdf), quote.reference)
    today = timezone.localdate()
    source = offer_source(quote)
    offer = build_offer(source, issued_on=today, valid_until=today)
    return pdf_response(render_offer(offer, source.subject), quote.reference)
