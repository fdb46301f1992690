"""Jobs to test with: sealed by hand, so that nothing of the quote's own pages is needed."""

import itertools
import json
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from django.utils import timezone

from design.check import check
from design.document import Plan
from design.report import report_to_dict
from hydraulics.catalogue import Catalogue
from jobs.models import Locate
from jobs.services import job_from_quote
from quoting.models import Quote, SealedProposal, Status
from sites.models import Customer, PlanRevision, Site

ROOT = Path(__file__).resolve().parents[2]
# Sums that stand in the seal and must never be seen by an installer.
MONEY = ("7391.44", "5914.27", "1477.17", "2217.43", "83.61", "41.97", "123.45")
_numbers = itertools.count(1)


@cache
def parts_book():
    book = json.loads((ROOT / "demo" / "price_book.json").read_text(encoding="utf-8"))
    return Catalogue.from_dicts(part["data"] for part in book["parts"])


@cache
def sealed_content(plan_path):
    """What a seal holds of that plan, with costs and prices all through it."""
    plan = Plan.model_validate_json((ROOT / plan_path).read_text(encoding="utf-8"))
    report = json.loads(json.dumps(report_to_dict(check(plan, parts_book(), with_coverage=False))))
    return {
        "format": "sealed/1",
        "offer": {
            "currency": "EUR",
            "scope": ["15 rotary heads in 2 zones.", "A bonus worth EUR 123.45 is on us."],
            "sections": [
                {"title": "Trenching", "lines": ["Trench and fill", "Credit 123.45 EUR"], "price": "5914.27"}
            ],
            "options": [
                {"id": 77, "text": "Rain sensor", "net": "83.61", "total": "83.61", "replaces": None}
            ],
            "not_watered": ["Herb bed"],
            "exclusions": ["Rock, and roots thicker than a wrist"],
            "total": "7391.44",
            "net": "5914.27",
            "tax": "1477.17",
            "stages": [{"label": "Deposit", "amount": "2217.43"}],
        },
        "plan": json.loads(plan.model_dump_json(by_alias=True)),
        "report": report,
        "rates": {"hour": "41.97"},
        "lines": [{"text": "Trench and fill", "cost": "41.97", "unit_cost": "83.61", "price": "5914.27"}],
        "parts": {code: part.model_dump(mode="json") for code, part in parts_book().items()},
    }


def make_quote(plan_path="tests/plans/s1.json", *, status=Status.ACCEPTED, units="metric", sealed=True):
    number = next(_numbers)
    customer = Customer.objects.create(name=f"Customer {number}", phone="01 23 45", town="Testby")
    site = Site.objects.create(
        customer=customer, name="Garden", street="Elm Row 3", postcode="12345", town="Testby",
        units=units, access_notes="Gate code 9911",
    )  # fmt: skip
    content = sealed_content(plan_path)
    revision = PlanRevision.objects.create(site=site, number=1, document=content["plan"], digest="0" * 64)
    quote = Quote.objects.create(
        site=site, plan=revision, status=status, number=number, number_year=2031,
        total="7391.44", net="5914.27",
        issued_at=timezone.now(), valid_until=timezone.localdate() + timedelta(days=30),
    )  # fmt: skip
    if sealed:
        SealedProposal.objects.create(
            quote=quote, content=json.dumps(content), pdf=b"%PDF", pdf_sha256="0" * 64, digest="0" * 64,
            sealed_at=timezone.now(),
        )  # fmt: skip
    return quote


def make_job(plan_path="tests/plans/s1.json", **kwargs):
    return job_from_quote(quote=make_quote(plan_path, **kwargs), by=None)


def make_locate(job, by, *, clear_in=-1, valid=14, answered=True):
    """A locate kept as it stands, ``clear_in`` days from today and valid for so many more."""
    clear = timezone.localdate() + timedelta(days=clear_in)
    return Locate.objects.create(
        job=job, reference="LR-1", placed_on=clear - timedelta(days=7), clear_from=clear,
        expires_on=clear + timedelta(days=valid), answers_complete=answered, recorded_by=by,
    )  # fmt: skip


def day(text):
    return date.fromisoformat(text)
