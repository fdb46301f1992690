"""The page of two versions: each drawn, what each changed, and what must be chosen."""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from design.comparing import GROUPS, Change, Comparison, compare, entities
from design.drawing import LAYERS, DrawingOptions, plan_drawing, to_svg
from design.merging import Conflict, Entity
from design.partial_check import PartialReport
from parts.services import catalogue
from sites.board_check import report_on, units_of
from sites.board_clash import Sides
from sites.changed_fields import field_words
from sites.figures import in_system
from sites.models import Site

MOST_LINES = 100
LAYERS_SHOWN = frozenset(LAYERS) - {"findings", "wetting"}


@dataclass(frozen=True)
class ChoiceRow:
    key: str
    title: str
    mine: str
    theirs: str
    suggested: str


class ClashPage:
    """Both sides of a site's plan for one person."""

    def __init__(self, site: Site, sides: Sides) -> None:
        self.site, self.sides = site, sides
        self.units, self.parts = units_of(site), catalogue()
        self.mine: PartialReport = report_on(sides.mine.document)

    @cached_property
    def my_drawing(self) -> SafeString:
        return self._drawing(self.mine, "mine-", self.sides.my_changes)

    @cached_property
    def their_drawing(self) -> SafeString:
        return self._drawing(report_on(self.sides.theirs.document), "theirs-", self.sides.their_changes)

    @property
    def my_lines(self) -> list[str]:
        return self._lines(self.sides.my_changes, self.sides.mine.document)

    @property
    def their_lines(self) -> list[str]:
        return self._lines(self.sides.their_changes, self.sides.theirs.document)

    @property
    def can_keep_mine(self) -> bool:
        return self.mine.is_whole

    @property
    def renamed(self) -> list[str]:
        return [f"{old} of yours becomes {new}" for old, new in self.sides.merged.renamed.items()]

    @property
    def choices(self) -> list[ChoiceRow]:
        return [self._choice(conflict) for conflict in self.sides.merged.conflicts]

    def _choice(self, conflict: Conflict) -> ChoiceRow:
        _, word = GROUPS.get(conflict.list_name, ("", ""))
        kind = (conflict.mine or conflict.theirs or {}).get("kind")
        name = kind if conflict.list_name == "nodes" and isinstance(kind, str) else word
        return ChoiceRow(
            conflict.key,
            f"{name[:1].upper()}{name[1:]} {conflict.id}".strip() if name else "The supply",
            self._side(conflict, conflict.mine),
            self._side(conflict, conflict.theirs),
            "theirs" if conflict.mine is None else "mine",
        )

    def _side(self, conflict: Conflict, entity: Entity | None) -> str:
        """What one side did to it, said of a document that holds nothing else."""
        before, after = (_alone(conflict, one) for one in (conflict.base, entity))
        changes = compare(before, after).changes
        return self._words(changes[0]) if changes else "as it was"

    def _lines(self, found: Comparison, after: dict[str, Any]) -> list[str]:
        order = sorted(found.changes, key=lambda change: (change.group, change.id))
        lines = [f"{_named(one)}: {self._words(one)}" for one in order if not self._only_follows(one, after)]
        more = len(lines) - MOST_LINES
        return [*lines[:MOST_LINES], f"and {more} more"] if more > 0 else lines

    def _only_follows(self, change: Change, after: dict[str, Any]) -> bool:
        """A pipe or cable that is as it was, and lies elsewhere since its end does."""
        if change.group not in ("pipes", "cables"):
            return False
        both = [entities(side, change.group).get(change.id) for side in (self.sides.base_document, after)]
        return both[0] == both[1]

    def _words(self, change: Change) -> str:
        if change.kind in ("added", "removed"):
            return "added" if change.kind == "added" else "taken out"
        words = [field_words(field, self.parts, self.units) for field in change.fields]
        if change.kind == "moved":
            words.insert(0, f"moved {in_system(change.moved_m, 'length', self.units)}")
        return ", ".join(words) or "drawn anew"

    def _drawing(self, found: PartialReport, prefix: str, changed: Comparison) -> SafeString:
        options = DrawingOptions(
            layers=LAYERS_SHOWN, units=self.units, parts=self.parts, highlight=changed.ids, id_prefix=prefix
        )
        drawing = plan_drawing(found.site.plan, found.report, options)
        return mark_safe(to_svg(drawing))  # noqa: S308 - the drawing escapes all text in it


def _named(change: Change) -> str:
    return change.name if change.group == "supply" else f"{change.name} {change.id}"


def _alone(conflict: Conflict, entity: Entity | None) -> dict[str, Any]:
    if conflict.list_name == "supply":
        return {"supply": entity} if entity else {}
    block, _ = GROUPS[conflict.list_name]
    return {block: {conflict.list_name: [entity] if entity else []}}
