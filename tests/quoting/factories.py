"""Plain factories: a price book, a site with a plan, quotes in each state."""

import json
from decimal import Decimal
from pathlib import Path

from design.canonical import dump_plan, plan_digest
from design.loading import load_plan
from office.company import get_company
from parts.models import Part
from parts.services import import_price_book
from quoting.models import Quote
from quoting.services import Signature, accept_on_paper, draft_quote, issue_quote
from sites.models import Customer, PlanRevision, Site

ROOT = Path(__file__).resolve().parents[2]


def load_price_book():
    """The demo's invented price book, once per database."""
    if not Part.objects.exists():
        book = json.loads((ROOT / "demo" / "price_book.json").read_text(encoding="utf-8"))
        company = get_company()
        company.currency, company.name, company.phone = book["currency"], "Testing Gardens", "+99 000 111 222"
        company.save()
        import_price_book(book, None)


def make_customer(**fields):
    return Customer.objects.create(**{"name": "Ada Example", "town": "Sampletown", **fields})


def make_site(**fields):
    customer = fields.pop("customer", None) or make_customer()
    return Site.objects.create(**{"name": "House", "town": "Sampletown", **fields}, customer=customer)


def make_plan(name="s1", site=None, **fields):
    plan = load_plan((ROOT / "tests" / "plans" / f"{name}.json").read_text(encoding="utf-8"))
    site = site or make_site()
    return PlanRevision.objects.create(
        site=site,
        number=site.plans.count() + 1,
        name=fields.pop("title", "Lawn"),
        document=dump_plan(plan),
        digest=plan_digest(plan),
        **fields,
    )


def make_draft(by=None, plan=None) -> Quote:
    load_price_book()
    quote = draft_quote(plan=plan or make_plan(), by=by)
    _without_stops(quote)
    return quote


def _without_stops(quote):
    """Findings of the check are not what these tests are about."""
    basis = quote.basis
    basis.report = {
        **basis.report,
        "findings": [f for f in basis.report["findings"] if f["severity"] != "stop"],
    }
    basis.save()
    quote.lines.filter(unit_cost=None).update(unit_cost=Decimal(1))


def make_issued(by, plan=None) -> Quote:
    return issue_quote(quote=make_draft(by, plan), by=by)


def make_accepted(by, plan=None) -> Quote:
    return accept_on_paper(quote=make_issued(by, plan), by=by, signature=Signature("Ada Example"))
