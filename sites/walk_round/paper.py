"""The sheet on paper: empty boxes with both units, what is known printed into them."""

from dataclasses import dataclass
from functools import cached_property

from sites.figures import default_unit, unit_written
from sites.models import Confidence, Site, Visit
from sites.walk_round.line import NO, NONE_ASKED, YES, Answers, Line, Place
from sites.walk_round.lines import lines_at
from sites.walk_round.sheet import Sheet

# Squares of the sketch's page; at 5 mm each they fit both A4 and Letter.
SQUARES_WIDE, SQUARES_HIGH = 34, 42
TAPE_ROWS = 26


@dataclass(frozen=True)
class PaperLine:
    line: Line
    answer: str  # as it stands; empty to be written in
    sure: str
    is_none: bool
    is_condition_unmet: bool

    @property
    def written(self) -> str:
        """What is printed into the box; an answer with a box of its own is ticked there instead."""
        return "" if self.line.kind in ("yes_no", "choice") else self.answer

    @property
    def units(self) -> list[str]:
        """Both systems' units to tick one of; one where both use the same."""
        if self.line.measure is None:
            return []
        own = [self.line.unit] if self.line.unit else [
            default_unit(self.line.measure, system) for system in ("metric", "us")
        ]  # fmt: skip
        return [unit_written(unit) for unit in dict.fromkeys(own)]

    @property
    def ticks(self) -> list[tuple[str, bool]]:
        """Boxes to tick: words, and whether it is ticked already."""
        choices = ((YES, "yes"), (NO, "no")) if self.line.kind == "yes_no" else self.line.choices
        found = [(words, self.answer == value) for value, words in choices]
        if self.line.none_said:
            found.append((self.line.none_said, self.is_none))
        return found


class PaperSheet:
    """``sheet`` is None for an empty one."""

    def __init__(self, site: Site, sheet: Sheet | None) -> None:
        self.site, self.sheet = site, sheet

    @property
    def visit(self) -> Visit | None:
        return self.sheet.visit if self.sheet else None

    @property
    def tape_rows(self) -> range:
        return range(TAPE_ROWS)

    @cached_property
    def places(self) -> list[tuple[Place, list[PaperLine]]]:
        return [(place, [self._line(line) for line in lines_at(place)]) for place in Place]

    @property
    def across(self) -> range:
        return range(SQUARES_WIDE + 1)

    @property
    def down(self) -> range:
        return range(SQUARES_HIGH + 1)

    @property
    def size(self) -> tuple[int, int]:
        return SQUARES_WIDE, SQUARES_HIGH

    def _line(self, line: Line) -> PaperLine:
        held = self.sheet.held.get(line.key) if self.sheet else None
        entry = self.sheet.entries.get(line.key) if self.sheet else None
        text = held.text if held else entry.text if entry else ""
        sure = Confidence(entry.confidence).label if entry and text else ""
        unmet = self.sheet is not None and _is_settled(line, self.sheet.answers)
        none = text == NONE_ASKED
        return PaperLine(line, "" if none else text, sure, none, unmet)


def _is_settled(line: Line, answers: Answers) -> bool:
    """Whether it is known that the line is not asked here."""
    return line.when is not None and bool(answers.get(line.when.key)) and not line.applies(answers)
