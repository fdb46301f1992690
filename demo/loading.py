"""Loading the invented company through the same services as the pages use: all of it, or nothing."""

import json
from datetime import date, timedelta
from decimal import Decimal, InvalidOperation
from typing import Any

from django.db import transaction
from django.utils import timezone

from demo.climates import climate_rows, rules_fields
from demo.grounds import load_ground
from demo.people import FOLDER, LOGINS
from demo.visits import visit_data
from jobs.models import Job
from jobs.services.locating import LocateTerms, record_locate
from jobs.services.planning import Schedule, plan_job
from office.company import get_company
from office.models import Person
from office.services import update_company
from parts.services import import_price_book
from quoting.answers import Signature, accept_on_paper
from quoting.drafting import draft_quote
from quoting.issuing import issue_quote
from quoting.policies import get_policy, save_policy
from sites.errors import VisitRefused
from sites.models import PlanRevision, Site, Visit
from sites.plan_services import add_plan_revision
from sites.services import create_customer, create_site, save_visit
from sites.watering_services import save_climate, save_watering_rules

NEWEST_PRICE_DAYS_OLD = 14
LOCATE_PLACED_DAYS_AGO = 1


def is_loaded() -> bool:
    return Person.objects.exists()


@transaction.atomic
def load_demo() -> None:
    """Fill an empty installation. Raises what a service refuses: then the demo's data are at fault."""
    today = timezone.localdate()
    people = {
        login.email: Person.objects.create_user(login.email, login.password, name=login.name, role=login.role)
        for login in LOGINS
    }
    owner = next(person for person in people.values() if person.is_owner)
    _load_company(owner)
    import_price_book(_dated(_read("price_book.json"), today), owner)
    for row in _read("customers.json")["customers"]:
        _load_customer(row, people, owner, today)


def _read(name: str) -> Any:
    return json.loads((FOLDER / name).read_text(encoding="utf-8"))


def _load_company(owner: Person) -> None:
    data = _read("company.json")
    company = get_company()
    update_company(by=owner, began_from=company.version, fields=data["company"])
    policy = get_policy()
    fields = {name: _decimal(value) for name, value in data["policy"].items()}
    save_policy(policy=policy, began_from=policy.version, fields=fields, by=owner)


def _decimal(value: object) -> object:
    """Figures stand in the file as text, so that no binary fraction touches them."""
    try:
        return Decimal(value) if isinstance(value, str) else value
    except InvalidOperation:
        return value


def _dated(book: dict[str, Any], today: date) -> dict[str, Any]:
    """The price book with all its days moved, so that the newest price is two weeks old."""
    days = [date.fromisoformat(price["valid_from"]) for part in book["parts"] for price in part["prices"]]
    shift = today - timedelta(days=NEWEST_PRICE_DAYS_OLD) - max(days)

    def moved(price: dict[str, Any]) -> dict[str, Any]:
        return {**price, "valid_from": (date.fromisoformat(price["valid_from"]) + shift).isoformat()}

    parts = [{**part, "prices": [moved(price) for price in part["prices"]]} for part in book["parts"]]
    return {**book, "parts": parts}


def _load_customer(row: dict[str, Any], people: dict[str, Person], owner: Person, today: date) -> None:
    fields = {name: value for name, value in row.items() if name != "sites"}
    customer = create_customer(by=owner, **fields)
    for site_row in row["sites"]:
        own = {"visit", "climate", "watering_rules", "plan", "quote", "job"}
        site = create_site(customer=customer, by=owner, **{k: v for k, v in site_row.items() if k not in own})
        if visit := site_row.get("visit"):
            kept = _load_visit(visit, site, people, today)
            if ground := _read("grounds.json").get(site.name):
                load_ground(kept, ground, people[visit["measured_by"]])
        _load_watering(site_row, site, owner)
        if plan := site_row.get("plan"):
            revision = add_plan_revision(
                site=site, document=_read(plan["file"]), began_from=0, by=owner, name=plan["name"]
            )
            if quote := site_row.get("quote"):
                _load_quote(quote, revision, owner)
        if job := site_row.get("job"):
            _load_job(job, site, people, today)


def _load_visit(row: dict[str, Any], site: Site, people: dict[str, Person], today: date) -> Visit:
    person = people[row["measured_by"]]
    data = visit_data(row, "us" if site.units == "us" else "metric", person.name, today)
    try:
        return save_visit(data, site=site, by=person)
    except VisitRefused as refused:
        if refused.refusals:
            raise
        said = {question.token for question in refused.questions}
        return save_visit(data, site=site, by=person, confirmed=said)


def _load_watering(row: dict[str, Any], site: Site, owner: Person) -> None:
    if climate := row.get("climate"):
        rows = climate_rows(climate)
        save_climate(site=site, rows=rows, source=climate["source"], began_from=0, by=owner)
    if rules := row.get("watering_rules"):
        save_watering_rules(site=site, fields=rules_fields(rules), began_from=0, by=owner)


def _load_quote(row: dict[str, Any], revision: PlanRevision, owner: Person) -> None:
    quote = draft_quote(plan=revision, by=owner)
    if row["status"] == "draft":
        return
    issued = issue_quote(quote=quote, by=owner)
    if row["status"] == "accepted":
        accept_on_paper(quote=issued, by=owner, signature=Signature(name=row["accepted_by"]))


def _load_job(row: dict[str, Any], site: Site, people: dict[str, Person], today: date) -> None:
    job = Job.objects.get(quote__site=site)
    office = next(person for person in people.values() if person.is_office)
    terms = LocateTerms(
        reference="DEMO-0001", placed_on=today - timedelta(days=LOCATE_PLACED_DAYS_AGO), members="gas, power"
    )
    record_locate(job=job, terms=terms, by=office)
    crew = tuple(people[email] for email in row["crew"])
    plan_job(job=job, schedule=Schedule(start_on=None, crew=crew), began_from=job.version, by=office)
