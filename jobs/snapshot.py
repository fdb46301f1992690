"""What installers build from: plan, report and scope of the sealed quote, and no price at all.

Nothing is copied as it stands. The plan, the report and the parts are read into their typed
models, which have no field for money, and written out again; of the offer only the words named
here are taken, and a sum that somebody typed into such words is left out.
"""

import re
from dataclasses import dataclass
from typing import Any

from pydantic import TypeAdapter

from design.document import Plan
from design.report import CheckReport, TrenchStretch
from design.stakeout import Stake
from design.stakeout_points import stake_out
from design.trench_runs import trench_runs
from hydraulics.catalogue import PART_ADAPTER, Catalogue
from jobs.errors import NoSeal
from parts.catalogue_cache import catalogue
from quoting.models import Quote

_REPORT: TypeAdapter[CheckReport] = TypeAdapter(CheckReport)


@dataclass(frozen=True)
class Snapshot:
    """The same, typed. The last four are words of the offer without a figure of money."""

    reference: str
    plan_number: int
    title: str
    plan: Plan
    report: CheckReport
    parts: Catalogue
    stakes: tuple[Stake, ...]
    runs: tuple[TrenchStretch, ...]  # the trench as it is dug
    scope: tuple[str, ...]
    works: tuple[str, ...]
    options: tuple[str, ...]
    excluded: tuple[str, ...]

    def part_label(self, code: str) -> str:
        part = self.parts.get(code)
        return part.label if part else code


def job_snapshot(quote: Quote) -> dict[str, Any]:
    """The price-free extract of a sealed quote, as JSON. Raises NoSeal for a quote without a seal."""
    if quote.seal is None:
        raise NoSeal("This quote was never issued, so there is no sealed plan to build from.")
    sealed = quote.seal.sealed
    offer = sealed["offer"]
    plan = Plan.model_validate(sealed["plan"])
    report = _REPORT.validate_python(sealed["report"])
    words = {
        "scope": offer["scope"],
        "works": [line for section in offer["sections"] for line in section["lines"]],
        "options": _chosen_options(quote, offer),
        "excluded": [*(f"{name}: not watered" for name in offer["not_watered"]), *offer["exclusions"]],
    }
    return {
        "reference": quote.reference,
        "plan_number": quote.plan.number,
        "title": quote.title,
        "plan": plan.model_dump(mode="json", by_alias=True),
        "report": _REPORT.dump_python(report, mode="json"),
        "parts": _parts_of(plan, sealed),
        **{
            name: [_without_money(text, offer["currency"]) for text in texts] for name, texts in words.items()
        },
    }


def read_snapshot(data: dict[str, Any]) -> Snapshot:
    """The typed form of what ``job_snapshot`` made."""
    plan = Plan.model_validate(data["plan"])
    report = _REPORT.validate_python(data["report"])
    return Snapshot(
        reference=data["reference"],
        plan_number=data["plan_number"],
        title=data["title"],
        plan=plan,
        report=report,
        parts=Catalogue.from_dicts(data["parts"]),
        stakes=stake_out(plan, report),
        runs=trench_runs(report.trench),
        scope=tuple(data["scope"]),
        works=tuple(data["works"]),
        options=tuple(data["options"]),
        excluded=tuple(data["excluded"]),
    )


def _codes(plan: Plan) -> set[str]:
    layout = plan.layout
    users = (*layout.nodes, *layout.pipes, *layout.cables, *layout.sleeves)
    codes = {getattr(user, "part", None) for user in users} | {plan.supply.meter, plan.supply.backflow}
    return {code for code in codes if code}


def _parts_of(plan: Plan, sealed: dict[str, Any]) -> list[dict[str, Any]]:
    """Technical data of the parts in the plan: those sealed with it, else those in the book today."""
    book = Catalogue.from_dicts(sealed["parts"].values()) if sealed.get("parts") else catalogue()
    return [
        PART_ADAPTER.dump_python(book[code], mode="json") for code in sorted(_codes(plan)) if code in book
    ]


def _chosen_options(quote: Quote, offer: dict[str, Any]) -> list[str]:
    """Extras and alternatives that the customer said yes to."""
    acceptance = getattr(quote, "acceptance", None)
    chosen = set(acceptance.options) if acceptance else set()
    return [option["text"] for option in offer["options"] if option["id"] in chosen]


def _without_money(text: str, currency: str) -> str:
    unit = rf"(?:[€$£¥₹]|\b{re.escape(currency)}\b)"
    number = r"\d[\d.,\u00a0\u202f']*"
    return re.sub(rf"{unit}\s?{number}|{number}\s?{unit}", "(sum left out)", text)
