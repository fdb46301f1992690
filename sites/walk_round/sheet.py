"""The whole sheet of a visit as it stands: entries, held figures, answers."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from sites.models import SheetEntry, Visit
from sites.survey_services import survey_of
from sites.walk_round.held import HeldAnswer, held_answers
from sites.walk_round.line import Answers
from sites.walk_round.missing import Progress, progress


@dataclass(frozen=True)
class Sheet:
    visit: Visit
    entries: Mapping[str, SheetEntry]
    held: Mapping[str, HeldAnswer]

    @cached_property
    def answers(self) -> Answers:
        """By key of the line; what is held but not complete counts as blank."""
        typed = {key: entry.text for key, entry in self.entries.items()}
        return {**typed, **{key: held.text if held.is_complete else "" for key, held in self.held.items()}}

    @cached_property
    def progress(self) -> Progress:
        return progress(self.answers)


def sheet_of(visit: Visit) -> Sheet:
    entries = {entry.field: entry for entry in visit.sheet.select_related("made_by")}
    return Sheet(visit, entries, held_answers(visit, survey_of(visit), visit.photos.count()))
