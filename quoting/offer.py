"""The offer: everything that the customer may read about a quote, and nothing else.

Plain JSON values, so that it can be sealed. The customer's page and the PDF are both made
from it; neither ever sees a cost, because none is in here.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from office.models import Company
from quoting.models import Choice, Kind, Quote, QuoteLine, Section
from quoting.payment_stages import payment_stages
from quoting.priced_quote import TaxAmount
from quoting.pricing_rates import pricing_settings
from quoting.proposal.wording import ACCEPTANCE, CANCELLATION, CAUTIONS, REINSTATEMENT, START
from quoting.scope_words import Subject, areas, figures, not_watered, promise, scope_sentences, water
from quoting.totals import Totals, chosen_lines, total_of
from sites.models import Customer, Site


@dataclass(frozen=True)
class OfferSource:
    """What an offer is written from. ``rates`` is the stored policy of the quote."""

    quote: Quote
    lines: tuple[QuoteLine, ...]
    rates: Mapping[str, Any]
    company: Company
    subject: Subject


def build_offer(source: OfferSource, *, issued_on: date, valid_until: date) -> dict[str, Any]:
    quote, rates = source.quote, source.rates
    totals = total_of(chosen_lines(source.lines), quote.tax_by)
    return {
        "reference": quote.reference,
        "revision": quote.revision,
        "title": quote.title,
        "message": quote.message,
        "issued_on": issued_on.isoformat(),
        "valid_until": valid_until.isoformat(),
        "currency": source.company.currency,
        "locale": source.company.locale,
        "units": source.subject.units,
        "company": _company(source.company),
        "customer": _customer(quote.site.customer),
        "site": _site(quote.site),
        **_garden(source.subject),
        "sections": sections_of(chosen_lines(source.lines)),
        "options": options_of(source.lines, quote.tax_by),
        **totals_dict(totals),
        "stages": stages_of(totals.total, rates),
        "exclusions": [line.strip() for line in str(rates["exclusions"]).splitlines() if line.strip()],
        "conditions": _conditions(rates, source.company),
        "cautions": [{"title": title, "text": text} for title, text in CAUTIONS],
        "acceptance_text": ACCEPTANCE,
    }


def _garden(subject: Subject) -> dict[str, Any]:
    return {
        "promise": promise(subject),
        "scope": scope_sentences(subject),
        "figures": figures(subject),
        "water": water(subject),
        "areas": areas(subject),
        "not_watered": not_watered(subject),
    }


def _conditions(rates: Mapping[str, Any], company: Company) -> list[dict[str, str]]:
    rows = [
        ("Start of work", START),
        ("Lawn and paving", REINSTATEMENT),
        ("Warranty", rates["warranty"]),
        ("Terms", company.terms),
        ("Right to cancel", CANCELLATION),
    ]
    return [{"title": title, "text": text} for title, text in rows if text]


def totals_dict(totals: Totals) -> dict[str, Any]:
    return {
        "net": str(totals.net),
        "taxes": [_tax(row) for row in totals.taxes],
        "tax": str(totals.tax),
        "total": str(totals.total),
    }


def sections_of(lines: Iterable[QuoteLine]) -> list[dict[str, Any]]:
    """Headings in their order, each with what it holds and one price for all of it.

    No price of a single line and no quantity beside a price: a customer, or a competitor,
    could divide a cost out of those. An adjustment, such as a discount, is a row of its own.
    """
    by_section: dict[str, list[QuoteLine]] = {}
    own_rows: list[QuoteLine] = []
    for line in lines:
        if line.kind == Kind.ADJUSTMENT:
            own_rows.append(line)
        else:
            by_section.setdefault(line.section, []).append(line)
    rows = [_section(section, by_section[section]) for section in Section if section in by_section]
    return rows + [{"title": line.text, "lines": [], "price": str(line.price)} for line in own_rows]


def _section(section: Section, lines: list[QuoteLine]) -> dict[str, Any]:
    named = dict.fromkeys(line.text for line in lines if line.listed)
    price = sum((line.price for line in lines), Decimal("0.00"))
    return {"title": section.label, "lines": list(named), "price": str(price)}


def options_of(lines: Iterable[QuoteLine], tax_by: str) -> list[dict[str, Any]]:
    """Each extra and alternative with what it adds to the offer as it stands."""
    rows = list(lines)
    base = total_of(chosen_lines(rows), tax_by)
    texts = {row.pk: row.text for row in rows}
    found = []
    for row in rows:
        if row.choice == Choice.INCLUDED:
            continue
        with_it = total_of(chosen_lines(rows, [row.pk]), tax_by)
        instead = texts.get(row.alternative_to_id or 0) if row.choice == Choice.ALTERNATE else None
        found.append(
            {
                "id": row.pk,
                "text": row.text,
                "instead_of": instead or "",
                "replaces": row.alternative_to_id,
                "net": str(with_it.net - base.net),
                "total": str(with_it.total - base.total),
            }
        )
    return found


def stages_of(total: Decimal, rates: Mapping[str, Any]) -> list[dict[str, str]]:
    """The payments, the deposit first; they sum to the total."""
    stages = [stage for stage in payment_stages(total, pricing_settings(rates)) if stage.amount]
    names = ["Deposit", *["Payment"] * len(stages)][: len(stages)]
    if len(names) > 1:
        names[-1] = "Last payment"
    return [
        {"name": name, "when": stage.label, "amount": str(stage.amount)}
        for name, stage in zip(names, stages, strict=True)
    ]


def _tax(row: TaxAmount) -> dict[str, str]:
    return {"rate": f"{row.percent.normalize():f}", "base": str(row.net), "tax": str(row.tax)}


def _company(company: Company) -> dict[str, Any]:
    return {
        "name": company.name,
        "address": _address(company),
        "phone": company.phone,
        "email": company.email,
        "licence": company.licence,
        "paper": company.paper,
        "accent": company.accent,
    }


def _customer(customer: Customer) -> dict[str, Any]:
    return {"name": customer.name, "address": _address(customer)}


def _site(site: Site) -> dict[str, Any]:
    return {"name": site.name, "address": _address(site)}


def _address(row: Company | Customer | Site) -> list[str]:
    town = " ".join(word for word in (row.postcode, row.town) if word)
    return [line for line in (row.street, town) if line]
