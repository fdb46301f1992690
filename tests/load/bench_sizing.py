"""Pipe sizes of whole plans: time to the proven answer, and the gap that is left.

Goal: the looped plan of the demo in 2 s with no gap. For scale, how many choices there are.
"""

import json
import statistics
import sys
import time
from decimal import Decimal
from pathlib import Path

from design.document import Plan
from design.loading import load_plan
from design.sizing import size_pipes
from design.sizing_candidates import family_of
from hydraulics.catalogue import Catalogue, PipePart
from hydraulics.limits import DEFAULT_LIMITS
from tests.load.eight_zones import PARTS, eight_zones

ROOT = Path(__file__).resolve().parents[2]
GOAL_S = 2.0
ROUNDS = 5


def book() -> tuple[Catalogue, dict[str, Decimal]]:
    rows = json.loads((ROOT / "demo/price_book.json").read_text("utf-8"))["parts"]
    prices = {
        row["data"]["code"]: Decimal(row["prices"][-1]["price"]) / Decimal(str(row["prices"][-1]["pack"]))
        for row in rows
        if row["data"]["kind"] == "pipe" and row["prices"]
    }
    return Catalogue.from_dicts(row["data"] for row in rows), prices


def measure(name: str, plan: Plan, parts: Catalogue, prices: dict[str, Decimal]) -> float:
    times = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        found = size_pipes(plan, parts, DEFAULT_LIMITS, prices)
        times.append(time.perf_counter() - began)
    took = statistics.median(times)
    choices = 1
    for pipe in plan.layout.pipes:
        choices *= sum(part.code in prices for part in family_of(parts, parts.need(pipe.part, PipePart)))
    print(
        f"{name}: {len(plan.layout.pipes)} pipes, {choices:.1e} choices, {found.outcome}, "
        f"{found.cost_before:.2f} -> {found.cost_after:.2f}, bound {found.lower_bound:.2f}, "
        f"gap {found.gap_pct:.2f} %, {found.rounds} rounds, {took:.2f} s (median of {ROUNDS}, "
        f"worst {max(times):.2f} s)"
    )
    return took


def main() -> int:
    parts, prices = book()
    looped = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    took = measure("looped, quince house", looped, parts, prices)
    branched = load_plan((ROOT / "demo/plans/plain-rectangle.json").read_bytes())
    measure("branched, plain rectangle", branched, parts, prices)
    eight, its_parts = eight_zones(), dict(PARTS)
    its_parts |= {code: part for code, part in parts.items() if code in ("pe-25", "pe-50")}
    measure("eight zones, 40 heads", eight, Catalogue(its_parts.values()), prices)
    print(f"goal: looped in {GOAL_S:.0f} s; {took / GOAL_S:.2f} of it")
    return 0 if took < GOAL_S else 1


if __name__ == "__main__":
    sys.exit(main())
