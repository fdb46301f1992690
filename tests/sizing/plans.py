"""The demo's plans and prices, for sizing."""

import json
from decimal import Decimal
from pathlib import Path

from design.loading import load_plan
from hydraulics.catalogue import Catalogue

ROOT = Path(__file__).resolve().parents[2]
_PARTS = json.loads((ROOT / "demo/price_book.json").read_text("utf-8"))["parts"]
BOOK = Catalogue.from_dicts(part["data"] for part in _PARTS)
# price of a metre as of the first supplier's newest row
PRICES = {
    part["data"]["code"]: Decimal(part["prices"][-1]["price"]) / Decimal(str(part["prices"][-1]["pack"]))
    for part in _PARTS
    if part["data"]["kind"] == "pipe" and part["prices"]
}


def demo_plan(name):
    return load_plan((ROOT / f"demo/plans/{name}.json").read_bytes())


def site_plan(name):
    return load_plan((ROOT / f"tests/plans/{name}.json").read_bytes())


def with_pipes(plan, code, only=None):
    """The plan with that part in all its pipes, or in those named."""
    pipes = [
        pipe.model_copy(update={"part": code}) if only is None or pipe.id in only else pipe
        for pipe in plan.layout.pipes
    ]
    return plan.model_copy(update={"layout": plan.layout.model_copy(update={"pipes": pipes})})


def with_supply(plan, **fields):
    return plan.model_copy(update={"supply": plan.supply.model_copy(update=fields)})
