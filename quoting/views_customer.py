"""The customer's page: no login, one offer, one answer."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from office.client_address import client_address
from quoting import services
from quoting.errors import QuoteError
from quoting.forms import AcceptForm, DeclineForm
from quoting.lifecycle import lapse_if_past
from quoting.links import LinkOver, LinkUnknown, note_opened, open_link
from quoting.models import CustomerLink, Quote, Status
from quoting.responses import pdf_response
from quoting.throttle import may_post

LinkView = Callable[[HttpRequest, CustomerLink], HttpResponse]


def by_link(view: LinkView) -> Callable[..., HttpResponse]:
    """Open the link of the address, or say kindly that it does not open. Nothing here is indexed."""

    @wraps(view)
    @never_cache
    def opened(request: HttpRequest, token: str) -> HttpResponse:
        try:
            response = view(request, open_link(token))
        except LinkUnknown:
            response = render(request, "quoting/offer_gone.html", {"why": "unknown"}, status=404)
        except LinkOver as over:
            taken_back = over.link.revoked_at is not None
            why = "revoked" if taken_back else "expired"
            response = render(request, "quoting/offer_gone.html", {"why": why}, status=410)
        response["X-Robots-Tag"] = "noindex, nofollow"
        response.setdefault("Referrer-Policy", "no-referrer")
        return response

    return opened


@require_safe
@by_link
def offer(request: HttpRequest, link: CustomerLink) -> HttpResponse:
    quote = lapse_if_past(link.quote)
    if request.method == "GET":
        note_opened(link)
    return _offer_page(request, link, quote)


@require_safe
@by_link
def offer_pdf(request: HttpRequest, link: CustomerLink) -> HttpResponse:
    """The sealed bytes, whatever became of the offer since."""
    return pdf_response(bytes(link.quote.seal.pdf), link.quote.reference, download=True)


@require_safe
@by_link
def offer_total(request: HttpRequest, link: CustomerLink) -> HttpResponse:
    """The total with the chosen extras, for the page to show while they are ticked."""
    quote = link.quote
    sealed = quote.seal.sealed["offer"]
    form = AcceptForm(request.GET, options=sealed["options"])
    form.is_valid()
    chosen = form.cleaned_data.get("options", [])
    try:
        totals, problem = services.total_with(quote, chosen), ""
    except ValidationError as error:
        totals, problem = services.total_with(quote, []), " ".join(error.messages)
    context = {"offer": sealed, "totals": totals, "problem": problem}
    return render(request, "quoting/_offer_total.html", context)


@require_POST
@by_link
def offer_accept(request: HttpRequest, link: CustomerLink) -> HttpResponse:
    quote = lapse_if_past(link.quote)
    address = client_address(request)
    if not may_post(address):
        return _too_many(request)
    form = AcceptForm(request.POST, options=quote.seal.sealed["offer"]["options"])
    if not form.is_valid():
        return _offer_page(request, link, quote, accept=form, status=422)
    signature = services.Signature(
        name=form.cleaned_data["name"],
        options=tuple(form.cleaned_data["options"]),
        address=address,
        user_agent=request.headers.get("User-Agent", "").replace("\x00", ""),
    )
    return _accept(request, link, form, signature)


def _accept(
    request: HttpRequest, link: CustomerLink, form: AcceptForm, signature: services.Signature
) -> HttpResponse:
    quote = link.quote
    try:
        totals = services.total_with(quote, signature.options)
        shown = form.cleaned_data["shown_total"]
        if quote.status == Status.ISSUED and shown != totals.total:
            form.add_error("options", "The total follows your choice: look at it, then accept once more.")
            return _offer_page(request, link, quote, accept=form, totals=totals, status=422)
        services.accept_by_link(link=link, signature=signature)
    except ValidationError as error:
        form.add_error("options", error.messages)
        return _offer_page(request, link, quote, accept=form, status=422)
    except QuoteError as error:
        quote.refresh_from_db()
        return _offer_page(request, link, quote, notice=error.sentence, status=409)
    return redirect(request.path.removesuffix("accept/"))


@require_POST
@by_link
def offer_decline(request: HttpRequest, link: CustomerLink) -> HttpResponse:
    quote = link.quote
    address = client_address(request)
    if not may_post(address):
        return _too_many(request)
    form = DeclineForm(request.POST)
    if not form.is_valid():
        return _offer_page(request, link, quote, decline=form, status=422)
    try:
        services.decline(quote=quote, by=None, reason=form.cleaned_data["reason"], address=address)
    except QuoteError as error:
        quote.refresh_from_db()
        return _offer_page(request, link, quote, notice=error.sentence, status=409)
    return redirect(request.path.removesuffix("decline/"))


def _offer_page(
    request: HttpRequest, link: CustomerLink, quote: Quote, *, status: int = 200, **more: Any
) -> HttpResponse:
    sealed = quote.seal.sealed
    totals = more.get("totals") or services.total_with(quote, [])
    context = {
        "offer": sealed["offer"],
        "drawing": sealed["drawing"],
        "status": quote.status,
        "acceptance": getattr(quote, "acceptance", None),
        "totals": totals,
        "accept": more.get("accept") or AcceptForm(options=sealed["offer"]["options"]),
        "decline": more.get("decline") or DeclineForm(),
        "notice": more.get("notice", ""),
        "path": _base_path(request),
    }
    response = render(request, "quoting/offer.html", context, status=status)
    # Nobody else hears of the address. With no-referrer a browser would send no origin either,
    # and the forms on this page could not be told from forged ones.
    response["Referrer-Policy"] = "same-origin"
    return response


def _base_path(request: HttpRequest) -> str:
    for ending in ("accept/", "decline/"):
        if request.path.endswith("/" + ending):
            return request.path.removesuffix(ending)
    return request.path


def _too_many(request: HttpRequest) -> HttpResponse:
    response = render(request, "quoting/offer_gone.html", {"why": "too_many"}, status=429)
    response["Retry-After"] = "600"
    return response
