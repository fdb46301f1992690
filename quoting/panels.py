"""What the daily page and a site's page show of quotes."""

from datetime import timedelta

from django.urls import reverse
from django.utils import timezone

from office.company import get_company
from office.models import Person
from office.navigation import PanelRow
from quoting.access import quotes_for
from quoting.lifecycle import lapse_all_past
from quoting.models import Acceptance, Quote, Status
from quoting.money_words import money_words
from sites.access import plans_for
from sites.models import Site

SHOWN = 8
NEWS_DAYS = 7
# common practice, no source: reminders before an offer runs out
SOON_DAYS = 7


def fresh_answers(person: Person) -> list[PanelRow]:
    """Offers that customers answered in the last days, the newest first."""
    since = timezone.now() - timedelta(days=NEWS_DAYS)
    answered = quotes_for(person).filter(status__in=[Status.ACCEPTED, Status.DECLINED], decided_at__gte=since)
    rows = answered.select_related("site__customer", "acceptance").order_by("-decided_at")[:SHOWN]
    return [_answer(quote) for quote in rows]


def waiting_offers(person: Person) -> list[PanelRow]:
    """Offers that are out, those that run out first on top; and drafts."""
    lapse_all_past()
    soon = timezone.localdate() + timedelta(days=SOON_DAYS)
    out = quotes_for(person).filter(status=Status.ISSUED).order_by("valid_until", "pk")[:SHOWN]
    return [
        PanelRow(
            f"{quote.reference}, {quote.site}",
            _url(quote),
            f"valid until {quote.valid_until:%Y-%m-%d}",
            quote.valid_until is not None and quote.valid_until <= soon,
        )
        for quote in out
    ]


def drafts(person: Person) -> list[PanelRow]:
    rows = quotes_for(person).filter(status=Status.DRAFT)[:SHOWN]
    return [PanelRow(f"{quote.site}", _url(quote), quote.reference) for quote in rows]


def quotes_of_site(person: Person, site: Site) -> list[PanelRow]:
    company = get_company()
    rows = quotes_for(person).filter(site=site)[:SHOWN]
    return [
        PanelRow(
            f"{quote.reference}: {quote.get_status_display().lower()}",
            _url(quote),
            money_words(quote.total, company.currency, company.locale) if quote.total is not None else "",
        )
        for quote in rows
    ]


def new_quote_of_site(person: Person, site: Site) -> tuple[str, str] | None:
    """Label and address of the button on the site's page; none without a plan."""
    if not plans_for(person).filter(site=site).exists():
        return None
    return "New quote", f"{reverse('quoting:new')}?site={site.pk}"


def _answer(quote: Quote) -> PanelRow:
    if quote.status == Status.ACCEPTED:
        how = "on the customer's page" if quote.acceptance.by == Acceptance.By.LINK else "on paper"
        words = f"accepted {how} by {quote.acceptance.name}"
    else:
        words = "declined"
    return PanelRow(f"{quote.reference}, {quote.site}", _url(quote), words, quote.status == Status.ACCEPTED)


def _url(quote: Quote) -> str:
    return reverse("quoting:quote", args=[quote.pk])
