"""The demo's price book as a catalogue, and the sites of the tests."""

import json
from pathlib import Path

from design.check import check
from design.document import Plan
from design.loading import load_plan
from design.report import CheckReport
from hydraulics.catalogue import Catalogue

ROOT = Path(__file__).resolve().parents[2]
BOOK = Catalogue.from_dicts(
    part["data"] for part in json.loads((ROOT / "demo/price_book.json").read_text("utf-8"))["parts"]
)


def site_plan(name: str) -> Plan:
    return load_plan((ROOT / f"tests/plans/{name}.json").read_bytes())


def site_report(name: str) -> CheckReport:
    return check(site_plan(name), BOOK)
