"""What the phone page of the walk shows: each line in its place, with its form and its photos."""

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from functools import cached_property

from sites.models import SheetEntry, SitePhoto, Visit
from sites.walk_round.forms import LineForm
from sites.walk_round.held import HeldAnswer
from sites.walk_round.line import NONE_ASKED, Line, Place
from sites.walk_round.lines import LINES, lines_at
from sites.walk_round.missing import is_missing, missing
from sites.walk_round.services import line_url
from sites.walk_round.sheet import Sheet, sheet_of


@dataclass
class LineView:
    """One line on the page. ``stored`` is what somebody else kept meanwhile; ``swapped`` beside an answer."""

    line: Line
    form: LineForm
    entry: SheetEntry | None
    held: HeldAnswer | None
    applies: bool
    is_missing: bool
    held_url: str
    photos: list[SitePhoto] = field(default_factory=list)
    stored: SheetEntry | None = None
    swapped: bool = False

    @property
    def is_none(self) -> bool:
        return self.entry is not None and self.entry.text == NONE_ASKED

    @property
    def is_folded(self) -> bool:
        """An answered line shows its answer, and the form only on demand."""
        return not self.is_missing and not self.form.is_bound

    @property
    def shown(self) -> str:
        """The kept answer in words; empty where there is none."""
        if self.held is not None:
            return self.held.text
        if self.is_none:
            return self.line.none_said or "None"
        said = self.line.shown(self.entry.text) if self.entry else ""
        return said[:1].upper() + said[1:]

    @property
    def stored_shown(self) -> str:
        if self.stored is None:
            return ""
        none = self.stored.text == NONE_ASKED
        return (self.line.none_said or "none") if none else self.line.shown(self.stored.text) or "nothing"

    @property
    def advice(self) -> str:
        return self.line.says.get(self.entry.text, "") if self.entry else ""


@dataclass(frozen=True)
class PlaceView:
    place: Place
    lines: list[LineView]


class WalkPage:
    """``bound`` holds a form that was posted and not kept, by the key of its line."""

    def __init__(self, visit: Visit, bound: LineForm | None = None, stored: SheetEntry | None = None) -> None:
        self.visit, self.site = visit, visit.site
        self.bound, self.stored = bound, stored
        self.sheet: Sheet = sheet_of(visit)

    @cached_property
    def photos(self) -> dict[str, list[SitePhoto]]:
        found: dict[str, list[SitePhoto]] = defaultdict(list)
        for photo in self.visit.photos.all():
            found[photo.about].append(photo)
        return found

    @property
    def places(self) -> list[PlaceView]:
        return [PlaceView(place, [self.view(line) for line in lines_at(place)]) for place in Place]

    @property
    def lacking(self) -> list[tuple[Place, int]]:
        """Each place, with the number of its required lines that nobody has answered."""
        found = Counter(line.place for line in missing(self.sheet.answers) if line.required)
        return [(place, found[place]) for place in Place]

    @property
    def next_missing(self) -> Line | None:
        """The first required line in walking order that nobody has answered."""
        lacking = missing(self.sheet.answers)
        return lacking[0] if lacking and lacking[0].required else None

    def view(self, line: Line, *, swapped: bool = False) -> LineView:
        entry = self.sheet.entries.get(line.key)
        is_bound = self.bound is not None and self.bound.line is line
        return LineView(
            line=line,
            form=self.bound if self.bound and is_bound else LineForm(line, self.site.units, entry),
            entry=entry,
            held=self.sheet.held.get(line.key),
            applies=line.applies(self.sheet.answers),
            is_missing=is_missing(line, self.sheet.answers),
            held_url=line_url(self.visit, line) if line.held else "",
            photos=self.photos.get(line.key, []),
            stored=self.stored if is_bound else None,
            swapped=swapped,
        )

    def turned_over(self, before: Sheet) -> list[LineView]:
        """Lines that are asked now and were not, or the other way, to be put beside an answer."""
        changed = [line for line in LINES if line.applies(before.answers) != line.applies(self.sheet.answers)]
        return [self.view(line, swapped=True) for line in changed]
