"""What the quote page shows, gathered from the stored quote."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from office.models import Person
from quoting.cost_side import CostSide, cost_side
from quoting.drawings import office_svg
from quoting.issuing import Hindrance, hindrances
from quoting.line_pricing import price_now
from quoting.models import Choice, Quote, QuoteLine, Section
from quoting.offer import stages_of
from quoting.priced_quote import PriceFinding
from quoting.reports import subject_of
from quoting.revising import REVISABLE, differences
from quoting.totals import chosen_lines, total_of


@dataclass(frozen=True)
class SectionRows:
    title: str
    lines: list[QuoteLine]
    price: Any


def quote_page(quote: Quote, person: Person, marked_line: int | None = None) -> dict[str, Any]:
    """The context of the quote page; ``marked_line`` has its places pointed out on the drawing."""
    lines = list(quote.lines.all())
    marked = next((line for line in lines if line.pk == marked_line), None)
    totals = total_of(chosen_lines(lines), quote.tax_by)
    acceptance = getattr(quote, "acceptance", None)
    return {
        "quote": quote,
        "sections": _sections(lines),
        "extras": [line for line in lines if line.choice != Choice.INCLUDED],
        "totals": totals,
        "stages": stages_of(totals.total, quote.basis.rates),
        "cost": cost_side(lines),
        "hindrances": hindrances(quote) if quote.is_draft else [],
        "findings": price_findings(quote, lines),
        "notes": quote.basis.notes if quote.is_draft else [],
        "check_findings": [f for f in quote.basis.report["findings"] if f["severity"] != "note"],
        "marked": marked,
        "drawing": office_svg(subject_of(quote), marked.where if marked else ()),
        "acceptance": acceptance,
        "chosen": [line for line in lines if acceptance and line.pk in acceptance.options],
        "seal": quote.seal,
        "links": list(quote.links.filter(revoked_at=None)),
        "events": list(quote.events.select_related("by")),
        "changes": differences(quote.replaces, quote) if quote.replaces else [],
        "newer": list(quote.replaced_by.all()),
        "revisable": quote.status in REVISABLE,
        "may_issue": may_issue(hindrances(quote), person) if quote.is_draft else False,
    }


def price_findings(quote: Quote, lines: Sequence[QuoteLine]) -> list[PriceFinding]:
    """What a person should see before a draft goes out."""
    if not quote.is_draft or not lines:
        return []
    found = [finding for finding in price_now(quote, lines).findings if finding.code != "price.missing"]
    return [finding for finding in found if finding.code != "price.old"] + _old_prices(found)


def _old_prices(found: Sequence[PriceFinding]) -> list[PriceFinding]:
    """Old prices come in dozens: the oldest in words, the rest as a count."""
    old = sorted((f for f in found if f.code == "price.old"), key=lambda f: f.measured, reverse=True)
    if len(old) < 2:
        return old
    more = f"{old[0].sentence} {len(old) - 1} more are older than {min(f.limit for f in old):f} days."
    return [replace(old[0], sentence=more, where=tuple(key for f in old for key in f.where))]


def may_issue(found: Sequence[Hindrance], person: Person) -> bool:
    return all(hindrance.may_be_overruled and person.is_owner for hindrance in found)


def costs_of(quote: Quote) -> CostSide:
    return cost_side(list(quote.lines.all()))


def _sections(lines: Sequence[QuoteLine]) -> list[SectionRows]:
    place = {value: index for index, value in enumerate(Section.values)}
    included = [line for line in lines if line.choice == Choice.INCLUDED]
    ordered = sorted(included, key=lambda line: (place[line.section], line.order, line.pk))
    return [
        SectionRows(Section(section).label, rows, sum(line.price for line in rows))
        for section, group in groupby(ordered, key=lambda line: line.section)
        for rows in [list(group)]
    ]
