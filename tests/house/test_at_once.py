"""Two who save the same thing at the same moment: one is kept whole, the other is told."""

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.models import Job
from jobs.services import Schedule, plan_job
from office.company import get_company
from office.models import Person
from office.services import update_company, update_person
from office.versions import Clash
from quoting import issuing
from quoting.errors import QuoteError
from quoting.links import open_link
from quoting.models import Acceptance, Quote, Status
from quoting.policies import get_policy, production_rates, save_policy, save_rate
from quoting.sealing import check_seal
from quoting.services import (
    Signature,
    accept_by_link,
    discard_draft,
    edit_draft,
    edit_line,
    issue_quote,
    make_link,
    new_revision,
    remove_line,
)
from sites.errors import PlanClash
from sites.readings import VisitData
from sites.services import add_plan_revision, save_visit, update_customer, update_site
from tests.conftest import client_of
from tests.jobs.makers import make_job
from tests.quoting.factories import make_draft, make_issued
from tests.sites.makers import make_customer, make_site, plan_document, take_in_parts
from tests.support.at_once import together

pytestmark = pytest.mark.django_db(transaction=True)
WORD = "one", "two"


def person(email="many@example.test", role="owner"):
    return Person.objects.create_user(email, "correct horse battery", name="Many", role=role)


@pytest.fixture
def owner():
    return person()


@pytest.fixture(autouse=True)
def _quick_pdf(monkeypatch):
    monkeypatch.setattr(issuing, "render_offer", lambda offer, subject: offer["reference"].encode())


def one_of_two(jobs, clash=Clash):
    """Run two at once: one result, one clash."""
    results, errors = together(jobs)
    assert len(results) == 1
    assert [type(error) for error in errors] == [clash]
    return results[0]


def test_a_customer(owner):
    row = make_customer()
    saved = one_of_two(
        [lambda n=n: update_customer(row, began_from=1, by=owner, name=n, notes=n) for n in WORD]
    )
    row.refresh_from_db()
    assert (row.name, row.notes, row.version) == (saved.name, saved.name, 2)


def test_a_site(owner):
    row = make_site()
    saved = one_of_two([lambda n=n: update_site(row, began_from=1, by=owner, name=n, town=n) for n in WORD])
    row.refresh_from_db()
    assert (row.name, row.town, row.version) == (saved.name, saved.name, 2)


def test_a_visit_with_its_rows(owner):
    site = make_site()
    days = date(2026, 5, 4), date(2026, 5, 5)
    visit = save_visit(VisitData(visited_on=days[0], measured_by="Ola"), site=site, by=owner)
    jobs = [
        lambda day=day: save_visit(
            VisitData(visited_on=day, measured_by=str(day)), site=site, visit=visit, began_from=1, by=owner
        )
        for day in days
    ]
    one_of_two(jobs)
    visit.refresh_from_db()
    assert visit.measured_by == str(visit.visited_on)


@pytest.mark.parametrize("begun", [0, 1])
def test_a_plan(owner, begun):
    take_in_parts()
    site = make_site()
    if begun:
        add_plan_revision(site=site, document=plan_document(), began_from=0, by=owner)

    def save(name):
        document = plan_document()
        document["layout"]["notes"] = [{"text": name}]
        return add_plan_revision(site=site, document=document, began_from=begun, by=owner, name=name)

    one_of_two([lambda n=n: save(n) for n in WORD], PlanClash)
    assert [row.number for row in site.plans.order_by("number")] == list(range(1, begun + 2))


def test_the_company_the_policy_and_a_rate(owner):
    company, policy, rate = get_company(), get_policy(), production_rates()["head"]
    one_of_two(
        [lambda n=n: update_company(by=owner, began_from=company.version, fields={"phone": n}) for n in WORD]
    )
    one_of_two(
        [
            lambda n=n: save_policy(policy=policy, began_from=1, fields={"validity_days": n}, by=owner)
            for n in (20, 21)
        ]
    )
    one_of_two([lambda n=n: save_rate(rate=rate, began_from=1, value=Decimal(n), by=owner) for n in (20, 21)])


def test_a_quote_and_a_line_of_it(owner):
    quote = make_draft(owner)
    one_of_two(
        [
            lambda n=n: edit_draft(quote=quote, began_from=quote.version, fields={"title": n}, by=owner)
            for n in WORD
        ]
    )
    line = quote.lines.first()
    one_of_two(
        [
            lambda n=n: edit_line(line=line, began_from=line.version, by=owner, fields={"text": n})
            for n in WORD
        ]
    )
    quote.refresh_from_db()
    assert quote.net == sum(row.price for row in quote.lines.filter(choice="included"))


def test_a_line_edited_while_it_is_taken_out(owner):
    quote = make_draft(owner)
    line = quote.lines.first()
    _, errors = together(
        [
            lambda: edit_line(line=line, began_from=line.version, by=owner, fields={"text": "kept"}),
            lambda: remove_line(line=line, by=owner),
        ]
    )
    assert all(isinstance(error, QuoteError) for error in errors)
    assert not quote.lines.filter(pk=line.pk).exists()


def test_a_line_edited_while_the_quote_is_issued(owner):
    """Either the edit is sealed with it, or it comes too late; the seal fits the lines in both cases."""
    quote = make_draft(owner)
    line = quote.lines.filter(choice="included").first()
    _, errors = together(
        [
            lambda: edit_line(line=line, began_from=line.version, by=owner, fields={"quantity": Decimal(9)}),
            lambda: issue_quote(quote=quote, by=owner),
        ]
    )
    assert all(isinstance(error, QuoteError) for error in errors)
    issued = Quote.objects.get()
    assert issued.status == Status.ISSUED
    assert check_seal(issued).problems == ()


def test_a_draft_discarded_twice(owner):
    quote = make_draft(owner)
    results, errors = together([lambda: discard_draft(quote=quote, by=owner)] * 2)
    assert (len(results), [isinstance(error, QuoteError) for error in errors]) == (1, [True])


def test_the_customer_accepts_twice_at_once(owner):
    link = open_link(make_link(quote=make_issued(owner), by=owner).token)
    results, errors = together(
        [lambda n=n: accept_by_link(link=link, signature=Signature(name=f"Ada {n}")) for n in range(6)]
    )
    assert len(results) == 1
    assert all(isinstance(error, QuoteError) for error in errors)
    assert Acceptance.objects.count() == Job.objects.count() == 1


def test_the_customer_accepts_while_a_new_revision_goes_out(owner):
    first = make_issued(owner)
    link = open_link(make_link(quote=first, by=owner).token)
    second = new_revision(quote=first, by=owner)
    results, errors = together(
        [
            lambda: accept_by_link(link=link, signature=Signature(name="Ada Example")),
            lambda: issue_quote(quote=second, by=owner),
        ]
    )
    assert (len(results), len(errors)) == (1, 1)
    assert isinstance(errors[0], QuoteError)
    states = {quote.revision: quote.status for quote in Quote.objects.all()}
    accepted = {first.revision: Status.ACCEPTED, second.revision: Status.DRAFT}
    replaced = {first.revision: Status.SUPERSEDED, second.revision: Status.ISSUED}
    assert states in (accepted, replaced)
    assert Acceptance.objects.exists() == (states == accepted)


def test_a_job_is_planned(owner):
    job = make_job()
    crews = [[owner], []]
    one_of_two(
        [
            lambda crew=crew: plan_job(job=job, schedule=Schedule(None, crew), began_from=1, by=owner)
            for crew in crews
        ]
    )
    assert Job.objects.get().version == 2


def test_two_owners_do_not_lock_each_other_out(owner):
    other = person("second@example.test")
    _, errors = together(
        [
            lambda who=who: update_person(by=who, person=who, fields={"role": "office"})
            for who in (owner, other)
        ]
    )
    assert len(errors) == 1
    assert Person.objects.filter(role="owner").count() == 1


def test_a_person_is_not_overwritten_unseen(owner):
    crew = person("crew@example.test", "installer")
    browser, url = client_of(owner), reverse("office:person_edit", args=[crew.pk])
    mark = browser.get(url).context["form"]["began_from"].value()
    typed = {"email": crew.email, "role": "installer", "is_active": "on", "began_from": mark}
    assert browser.post(url, {**typed, "name": "First"}).status_code == 302
    late = browser.post(url, {**typed, "name": "Second"})
    assert late.status_code == 422
    assert "Somebody else changed this person" in late.content.decode()
    assert 'value="Second"' in late.content.decode()
    crew.refresh_from_db()
    assert crew.name == "First"


@pytest.mark.parametrize(
    ("url", "data"),
    [
        (
            "/people/add/",
            {"name": "Nia", "email": "nia@example.test", "role": "office", "password": "x" * 14},
        ),
        ("/parts/suppliers/", {"code": "quarry", "name": "Quarry"}),
        ("/jobs/holidays/", {"date": "2031-05-01", "name": "May Day"}),
    ],
)
def test_a_button_pressed_twice_adds_once(owner, url, data):
    browsers = [client_of(owner) for _ in range(4)]
    results, errors = together([lambda b=b: b.post(url, data).status_code for b in browsers])
    assert errors == []
    assert results.count(302) == 1
    assert set(results) <= {302, 400, 409, 422}
