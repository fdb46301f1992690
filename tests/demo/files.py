"""The demo's files as Python values."""

import json
from pathlib import Path
from typing import Any

from design.document import Plan
from design.loading import load_plan
from hydraulics.catalogue import Catalogue

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo"
REFERENCE_PLANS = ROOT / "tests" / "plans"
ALL_PLANS = sorted([*(DEMO / "plans").glob("*.json"), *REFERENCE_PLANS.glob("*.json")])


def read(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))


def plan_of(path: Path) -> Plan:
    return load_plan(path.read_bytes())


def price_book() -> Any:
    return read(DEMO / "price_book.json")


def demo_catalogue() -> Catalogue:
    return Catalogue.from_dicts(part["data"] for part in price_book()["parts"])
