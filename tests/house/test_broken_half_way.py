"""Whatever breaks while something is saved: the database stands as it stood before."""

import hashlib
import json
from datetime import date
from pathlib import Path

import pytest
from django.apps import apps
from django.core import serializers
from django.db.models import QuerySet

from demo import loading
from demo.loading import load_demo
from hydraulics.units import parse_quantity
from jobs.models import Booking, Job, Task
from office.models import AuditEvent
from parts.models import Part, Price, Supplier
from parts.services import import_price_book
from quoting.links import open_link
from quoting.models import Acceptance, Quote, QuoteEvent, QuoteLine, SealedProposal
from quoting.services import Signature, accept_by_link, draft_quote, issue_quote, make_link, new_revision
from sites.models import FlowTest, PlanRevision, Visit
from sites.readings import Bucket, VisitData
from sites.services import add_plan_revision, save_visit
from tests.quoting.factories import load_price_book, make_draft, make_issued, make_plan
from tests.sites.makers import make_site, plan_document

pytestmark = pytest.mark.django_db
ROOT = Path(__file__).resolve().parents[2]


class Broken(Exception):
    pass


def whole_database() -> str:
    """A digest of every row of ours."""
    ours = [model for app in ("office", "parts", "sites", "quoting", "jobs") for model in _models(app)]
    digest = hashlib.sha256()
    for model in ours:
        digest.update(serializers.serialize("json", model._default_manager.order_by("pk")).encode())
    return digest.hexdigest()


def _models(app):
    return apps.get_app_config(app).get_models()


def breaks_at(monkeypatch, model):
    """The next row of that model cannot be written, nor can a batch of them."""

    def refuse(*args, **kwargs):
        raise Broken(model.__name__)

    monkeypatch.setattr(model, "save", refuse)
    monkeypatch.setattr(type(model._default_manager.all()), "bulk_create", _refusing(model))


def _refusing(model):
    plain = QuerySet.bulk_create

    def bulk_create(self, *args, **kwargs):
        if self.model is model:
            raise Broken(model.__name__)
        return plain(self, *args, **kwargs)

    return bulk_create


def leaves_no_trace(monkeypatch, model, action):
    before = whole_database()
    breaks_at(monkeypatch, model)
    with pytest.raises(Broken):
        action()
    monkeypatch.undo()
    assert whole_database() == before


@pytest.mark.parametrize("model", [Quote, QuoteEvent, AuditEvent, SealedProposal])
def test_issuing(monkeypatch, clerk, model):
    quote = make_draft(clerk)
    leaves_no_trace(monkeypatch, model, lambda: issue_quote(quote=quote, by=clerk))


@pytest.mark.parametrize("model", [Quote, QuoteEvent, AuditEvent, SealedProposal])
def test_issuing_what_replaces_another(monkeypatch, clerk, model):
    quote = new_revision(quote=make_issued(clerk), by=clerk)
    leaves_no_trace(monkeypatch, model, lambda: issue_quote(quote=quote, by=clerk))


@pytest.mark.parametrize("model", [Acceptance, Quote, QuoteEvent, AuditEvent, Job, Task, Booking])
def test_accepting(monkeypatch, clerk, model):
    link = open_link(make_link(quote=make_issued(clerk), by=clerk).token)
    signature = Signature(name="Ada Example")
    leaves_no_trace(monkeypatch, model, lambda: accept_by_link(link=link, signature=signature))


@pytest.mark.parametrize("model", [Quote, QuoteLine, AuditEvent])
def test_drafting_and_revising(monkeypatch, clerk, model):
    load_price_book()
    plan, issued = make_plan(), make_issued(clerk)
    leaves_no_trace(monkeypatch, model, lambda: draft_quote(plan=plan, by=clerk))
    leaves_no_trace(monkeypatch, model, lambda: new_revision(quote=issued, by=clerk))


@pytest.mark.parametrize("model", [PlanRevision, AuditEvent])
def test_keeping_a_plan(monkeypatch, clerk, model):
    load_price_book()
    site, document = make_site(), plan_document()
    action = {"site": site, "document": document, "began_from": 0, "by": clerk}
    leaves_no_trace(monkeypatch, model, lambda: add_plan_revision(**action))


@pytest.mark.parametrize("model", [FlowTest, AuditEvent])
def test_changing_a_visit(monkeypatch, clerk, model):
    site = make_site()
    data = VisitData(visited_on=date(2026, 5, 4), measured_by="Ola")
    visit = save_visit(data, site=site, by=clerk)
    assert Visit.objects.count() == 1
    later = VisitData(visited_on=date(2026, 5, 5), measured_by="Ola", buckets=(Bucket(*_bucket()),))
    leaves_no_trace(
        monkeypatch, model, lambda: save_visit(later, site=site, visit=visit, began_from=1, by=clerk)
    )


def _bucket():
    return parse_quantity("20", "volume", "L"), parse_quantity("38", "time", "s"), "Yard"


@pytest.mark.parametrize("model", [Supplier, Part, Price, AuditEvent])
def test_taking_in_a_price_book(monkeypatch, clerk, model):
    book = json.loads((ROOT / "demo" / "price_book.json").read_text(encoding="utf-8"))
    leaves_no_trace(monkeypatch, model, lambda: import_price_book(book, clerk))


@pytest.mark.parametrize(
    "step", ["_load_company", "import_price_book", "_load_visit", "_load_quote", "_load_job"]
)
def test_loading_the_demo(monkeypatch, step):
    before = whole_database()
    plain = getattr(loading, step)

    def breaks_afterwards(*args, **kwargs):
        plain(*args, **kwargs)
        raise Broken(step)

    monkeypatch.setattr(loading, step, breaks_afterwards)
    with pytest.raises(Broken):
        load_demo()
    assert whole_database() == before
    assert not loading.is_loaded()
