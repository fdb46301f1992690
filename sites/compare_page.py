"""What the page shows that lays two plan revisions side by side."""

from dataclasses import dataclass
from functools import cached_property

from design.comparing import Change, Comparison, compare
from hydraulics.catalogue import Catalogue
from hydraulics.units import Kind
from parts.services import catalogue
from sites.board_check import units_of
from sites.changed_fields import field_words
from sites.figures import in_system
from sites.models import PlanRevision
from sites.plan_page import PlanPage

KINDS = ("added", "removed", "moved", "changed")
SHOWN = 200  # of each kind; a page with more is read by nobody


@dataclass(frozen=True)
class ChangeRow:
    """``text`` says in the site's units by how much. ``id`` is none for the supply, which has no mark."""

    change: Change
    text: str


@dataclass(frozen=True)
class SumRow:
    name: str
    before: str
    after: str
    difference: str


class ComparePage:
    """Two revisions of one site: what was added, removed, moved and changed, and both drawings."""

    def __init__(self, before: PlanRevision, after: PlanRevision) -> None:
        self.before, self.after = before, after
        self.units: str = before.site.units
        self.comparison: Comparison = compare(before.document, after.document)
        self.parts: Catalogue = catalogue()

    @cached_property
    def drawings(self) -> list[tuple[PlanRevision, PlanPage]]:
        """Both, with what differs marked in each."""
        hidden = frozenset({"findings"})
        sides = (("before", self.before), ("after", self.after))
        return [(plan, PlanPage(plan, hidden, self.comparison.ids, f"{side}-")) for side, plan in sides]

    @cached_property
    def groups(self) -> list[tuple[str, list[ChangeRow], int]]:
        """Kind of change, its rows, and how many more there are."""
        found = []
        for kind in KINDS:
            changes = sorted(self.comparison.changes, key=lambda change: (change.group, change.id))
            rows = [ChangeRow(change, self._text(change)) for change in changes if change.kind == kind]
            if rows:
                found.append((kind, rows[:SHOWN], max(0, len(rows) - SHOWN)))
        return found

    @cached_property
    def sums(self) -> list[SumRow]:
        return [
            SumRow(
                self._part(name),
                self._amount(before, unit),
                self._amount(after, unit),
                self._signed(after - before, unit),
            )
            for name, unit, before, after in self.comparison.sums
        ]

    def _text(self, change: Change) -> str:
        parts = []
        if change.kind == "moved":
            parts.append(f"by {in_system(change.moved_m, 'length', self.units)}")
        if change.group in ("areas", "surfaces", "pipes", "cables", "services", "sleeves") and change.grown:
            unit = "m2" if change.is_by_area else "m"
            whole = change.kind in ("added", "removed")
            size = abs(change.grown) if whole else change.grown
            parts.append(self._amount(size, unit) if whole else self._signed(size, unit))
        parts += [field_words(field, self.parts, units_of(self.before.site)) for field in change.fields]
        return ", ".join(parts)

    def _amount(self, value: float, unit: str) -> str:
        kinds: dict[str, Kind] = {"m": "length", "m2": "area"}
        return in_system(value, kinds[unit], self.units) if unit in kinds else f"{value:.0f}"

    def _signed(self, value: float, unit: str) -> str:
        return f"{'−' if value < 0 else '+'}{self._amount(abs(value), unit)}"

    def _part(self, name: str) -> str:
        part = self.parts.get(name)
        return part.label if part else name
