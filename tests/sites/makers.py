"""Plain factories for the tests of the sites app."""

import json
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@cache
def _book_text():
    return (ROOT / "demo" / "price_book.json").read_text(encoding="utf-8")


def take_in_parts():
    from parts.services import import_price_book

    return import_price_book(json.loads(_book_text()), None)


def plan_text(name="s1"):
    return (ROOT / "tests" / "plans" / f"{name}.json").read_text(encoding="utf-8")


def plan_document(name="s1"):
    return json.loads(plan_text(name))


def make_customer(**fields):
    from sites.services import create_customer

    return create_customer(by=None, **{"name": "Mara Teal", "phone": "+49 (30) 123-45.67", **fields})


def make_site(customer=None, **fields):
    from sites.services import create_site

    return create_site(customer=customer or make_customer(), by=None, **{"name": "House", **fields})


def make_plan(site, **fields):
    from sites.services import add_plan_revision

    given = {"document": plan_text(), "began_from": 0, "by": None, **fields}
    return add_plan_revision(site=site, **given)


def make_visit(site, **fields):
    from django.utils import timezone

    from sites.readings import VisitData
    from sites.services import save_visit

    data = VisitData(visited_on=timezone.localdate(), measured_by="Ola", **fields)
    return save_visit(data, site=site, by=None)


def visit_post(**fields):
    """What a browser sends from the visit form: three bucket rows, one gauge row, one height row."""
    data = {"visited_on": "2026-05-04", "measured_by": "Ola", "service_material": "unknown"}
    for kind, number in (("bucket", 3), ("gauge", 1), ("height", 1)):
        data |= {f"{kind}-TOTAL_FORMS": number, f"{kind}-INITIAL_FORMS": 0}
    return {**data, **fields}
