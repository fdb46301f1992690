"""Issuing, the customer's link, the answer, and the next revision."""

from datetime import timedelta

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from office.access import office_only, person_of
from office.versions import Clash
from quoting import services
from quoting.access import get_quote_for
from quoting.errors import QuoteError
from quoting.forms import DeclineForm, IssueForm, PaperForm
from quoting.issuing import offer_source
from quoting.links import address_of
from quoting.models import Quote
from quoting.offer import build_offer
from quoting.policies import get_policy
from quoting.quote_page import costs_of, may_issue


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def issue(request: HttpRequest, pk: int) -> HttpResponse:
    """What will be sealed, and the button that does it."""
    person = person_of(request)
    quote = get_quote_for(person, pk)
    if not quote.is_draft:
        messages.error(request, "This quote has been issued.")
        return redirect("quoting:quote", pk=pk)
    form = IssueForm(request.POST or None, initial={"began_from": quote.version})
    if request.method != "POST" or not form.is_valid():
        return _issue_page(request, quote, form, 422 if request.method == "POST" else 200)
    data = form.cleaned_data
    try:
        services.issue_quote(
            quote=quote, by=person, began_from=data["began_from"], overrule_reason=data["overrule_reason"]
        )
    except Clash:
        messages.warning(request, "Somebody changed the quote meanwhile. Look at it again, then issue it.")
        fresh = IssueForm(initial={"began_from": Quote.objects.get(pk=pk).version})
        return _issue_page(request, get_quote_for(person, pk), fresh, 409)
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return _issue_page(request, quote, form, 409)
    messages.success(request, "Issued and sealed. Make the customer's link next.")
    return redirect("quoting:quote", pk=pk)


def _issue_page(request: HttpRequest, quote: Quote, form: IssueForm, status: int) -> HttpResponse:
    today, policy = timezone.localdate(), get_policy()
    found = services.hindrances(quote)
    valid_until = today + timedelta(days=policy.validity_days)
    context = {
        "quote": quote,
        "form": form,
        "hindrances": found,
        "may_issue": may_issue(found, person_of(request)),
        "offer": build_offer(offer_source(quote), issued_on=today, valid_until=valid_until),
        "cost": costs_of(quote),
    }
    return render(request, "quoting/issue.html", context, status=status)


@require_POST
@office_only
def link_make(request: HttpRequest, pk: int) -> HttpResponse:
    """The new link, shown once: only its hash is kept."""
    person = person_of(request)
    quote = get_quote_for(person, pk)
    try:
        made = services.make_link(quote=quote, by=person)
    except QuoteError as error:
        messages.error(request, error.sentence)
        return redirect("quoting:quote", pk=pk)
    address = address_of(made.token, request)
    response = render(request, "quoting/link.html", {"quote": quote, "address": address, "link": made.link})
    response["Cache-Control"] = "no-store"
    return response


@require_POST
@office_only
def link_revoke(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    count = services.revoke_links(quote=get_quote_for(person, pk), by=person)
    messages.success(request, "The link no longer opens." if count else "There was no link to take back.")
    return redirect("quoting:quote", pk=pk)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def accept(request: HttpRequest, pk: int) -> HttpResponse:
    """A signature on paper, recorded by the office."""
    person = person_of(request)
    quote = get_quote_for(person, pk)
    options = quote.seal.sealed["offer"]["options"] if quote.seal else []
    form = PaperForm(request.POST or None, options=options)
    context = {"quote": quote, "form": form, "options": options}
    if request.method != "POST" or not form.is_valid():
        return render(
            request, "quoting/accept.html", context, status=422 if request.method == "POST" else 200
        )
    data = form.cleaned_data
    signature = services.Signature(data["name"], tuple(data["options"]), data["signed_on"])
    try:
        services.accept_on_paper(quote=quote, by=person, signature=signature)
    except ValidationError as error:
        for name, sentences in error.message_dict.items():
            form.add_error(name if name in form.fields else None, sentences)
        return render(request, "quoting/accept.html", context, status=422)
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return render(request, "quoting/accept.html", context, status=409)
    messages.success(request, "Accepted. The job is waiting under Jobs.")
    return redirect("quoting:quote", pk=pk)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def decline(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    quote = get_quote_for(person, pk)
    form = DeclineForm(request.POST or None)
    if request.method != "POST" or not form.is_valid():
        status = 422 if request.method == "POST" else 200
        return render(request, "quoting/decline.html", {"quote": quote, "form": form}, status=status)
    try:
        services.decline(quote=quote, by=person, reason=form.cleaned_data["reason"])
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return render(request, "quoting/decline.html", {"quote": quote, "form": form}, status=409)
    messages.success(request, "Kept as declined, with the reason.")
    return redirect("quoting:quote", pk=pk)


@require_POST
@office_only
def revise(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    try:
        draft = services.new_revision(quote=get_quote_for(person, pk), by=person)
    except QuoteError as error:
        messages.error(request, error.sentence)
        return redirect("quoting:quote", pk=pk)
    messages.success(
        request,
        "The next revision, as a draft. The present offer stands until you issue this.",
    )
    return redirect("quoting:quote", pk=draft.pk)
