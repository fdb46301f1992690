"""What the page of cheaper pipes shows, in the site's units and the company's currency."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from babel import Locale, UnknownLocaleError
from babel.numbers import format_currency

from design.canonical import plan_text
from design.sizing_result import PipeChange, SizingResult, WorstHead
from hydraulics.findings import Finding, Severity
from hydraulics.sentences import in_units_of
from office.company import get_company
from sites.check import check_plan, check_revision
from sites.errors import CheckFailed
from sites.models import PlanRevision

MOST_SENTENCES = 12


@dataclass(frozen=True)
class ChangeRow:
    change: PipeChange
    before: str  # money
    after: str


class SizingPage:
    """The offer beside what stands. ``keep`` are the pipes that were to stay."""

    def __init__(self, revision: PlanRevision, result: SizingResult) -> None:
        self.revision, self.result = revision, result
        self.units = revision.site.units
        self.company = get_company()

    @cached_property
    def rows(self) -> list[ChangeRow]:
        return [
            ChangeRow(change, self.money(change.cost_before), self.money(change.cost_after))
            for change in self.result.changes
        ]

    @property
    def metres(self) -> float:
        return sum(change.length_m for change in self.result.changes)

    @property
    def cost_before(self) -> str:
        return self.money(self.result.cost_before)

    @property
    def cost_after(self) -> str:
        return self.money(self.result.cost_after)

    @property
    def lower_bound(self) -> str:
        return self.money(self.result.lower_bound)

    @property
    def difference(self) -> str:
        """What is saved, or what it costs more."""
        return self.money(abs(self.result.saving))

    @property
    def is_dearer(self) -> bool:
        return self.result.saving < 0

    @cached_property
    def worst_heads(self) -> list[tuple[str, WorstHead]]:
        named = (("as drawn", self.result.worst_before), ("with these pipes", self.result.worst_after))
        return [(name, head) for name, head in named if head is not None]

    @property
    def before(self) -> list[str]:
        return self._said(self.result.before)

    @property
    def shortfalls(self) -> list[str]:
        return self._said(self.result.shortfalls)

    @property
    def document(self) -> str:
        return plan_text(self.result.plan) if self.result.plan else ""

    @property
    def bare_least(self) -> bool:
        return self.result.is_found and self.result.head_share == 1.0

    @cached_property
    def new_findings(self) -> list[Finding]:
        """Stops and warnings that the check has of the sized plan and not of the drawn one."""
        if self.result.plan is None or not self.result.changes:
            return []
        try:
            before = {(f.code, f.where) for f in check_revision(self.revision).findings}
            after = check_plan(self.result.plan).findings
        except CheckFailed:
            return []
        return [f for f in after if f.severity != Severity.NOTE and (f.code, f.where) not in before]

    def money(self, amount: Decimal) -> str:
        return format_currency(amount, self.company.currency, locale=_known_locale(self.company.locale))

    def _said(self, sentences: tuple[str, ...]) -> list[str]:
        shown = [in_units_of(self.units, sentence) for sentence in sentences[:MOST_SENTENCES]]
        more = len(sentences) - MOST_SENTENCES
        return [*shown, f"And {more} more."] if more > 0 else shown


def _known_locale(name: str) -> str:
    try:
        return str(Locale.parse(name))
    except (UnknownLocaleError, ValueError, TypeError):
        return "en_GB"
