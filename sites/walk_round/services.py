"""Keeping the sheet line by line, and what it lacks with a place to go to."""

from dataclasses import dataclass

from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from hydraulics.units import Quantity
from office.audit import record
from office.models import Person
from office.versions import save_version
from sites.errors import LineRefused
from sites.models import Confidence, SheetEntry, Site, Visit
from sites.plausible_ranges import judge
from sites.readings import Remark, VisitData
from sites.services import save_visit
from sites.walk_round.line import Line
from sites.walk_round.missing import Severity, missing, severity_of
from sites.walk_round.sheet import sheet_of

# the page that keeps the figures of a held line
_PAGES = {"visit": "sites:visit-edit", "ground": "sites:survey", "photos": "sites:photos"}


@dataclass(frozen=True)
class LineAnswer:
    """What was typed. ``confirmed`` holds tokens of questions that somebody answered with yes."""

    text: str
    quantity: Quantity | None = None
    confidence: str = Confidence.MEASURED
    confirmed: frozenset[str] = frozenset()

    @property
    def value_si(self) -> float | None:
        return self.quantity.value_si if self.quantity else None


@dataclass(frozen=True)
class Missing:
    key: str
    question: str
    why: str
    severity: Severity
    url: str  # where it is filled in


def missing_lines(visit: Visit) -> list[Missing]:
    """What the visit's sheet lacks, required lines first, with the place where each is filled in."""
    return [
        Missing(line.key, line.question, line.why, severity_of(line), line_url(visit, line))
        for line in missing(sheet_of(visit).answers)
    ]


def line_url(visit: Visit, line: Line) -> str:
    """Where the line is filled in: on the walk, or on the page that keeps its figure."""
    if line.held:
        return reverse(_PAGES[line.held], args=[visit.pk])
    return f"{reverse('sites:walk', args=[visit.pk])}#line-{line.key}"


@transaction.atomic
def save_line(
    *, visit: Visit, line: Line, answer: LineAnswer, began_from: int, by: Person | None
) -> SheetEntry | None:
    """Keep one line; ``began_from`` is its version, 0 for none yet. None where nothing was or is there.

    Raises LineRefused with a doubt about the figure, or office.versions.Clash where somebody
    kept another answer since.
    """
    Visit.objects.select_for_update().get(pk=visit.pk)  # two first answers at once come one after the other
    stored = SheetEntry.objects.filter(visit=visit, field=line.key).first()
    if stored and (stored.text, stored.confidence) == (answer.text, answer.confidence):
        return stored
    _check(line, answer, stored)
    fields: dict[str, object] = {
        "text": answer.text, "value_si": answer.value_si, "confidence": answer.confidence, "made_by": by,
    }  # fmt: skip
    if stored is not None:
        saved = save_version(stored, began_from=began_from, fields=fields)
    elif answer.text:
        saved = SheetEntry(visit=visit, field=line.key, **fields)
        saved.full_clean()
        saved.save()
    else:
        return None
    record(by=by, verb="sheet.line_kept", subject=visit, detail={"line": line.key})
    return saved


def doubt_about(line: Line, answer: LineAnswer) -> Remark | None:
    """What is asked about the figure, or why it cannot be."""
    if line.usual is None or answer.quantity is None:
        return None
    return next(judge(line.key, answer.quantity, line.usual), None)


def _check(line: Line, answer: LineAnswer, stored: SheetEntry | None) -> None:
    if stored is not None and stored.value_si is not None and stored.value_si == answer.value_si:
        return  # the figure was said to be right when it was kept
    remark = doubt_about(line, answer)
    if remark is not None and not (remark.token and remark.token in answer.confirmed):
        raise LineRefused(remark)


@transaction.atomic
def start_walk(*, site: Site, by: Person) -> Visit:
    """Today's visit of this person, made now unless they have one already."""
    Site.objects.select_for_update().get(pk=site.pk)  # a second tap on the button finds the first one's
    now = timezone.localtime()
    begun = site.visits.filter(visited_on=now.date(), made_by=by).order_by("pk").first()
    if begun is not None:
        return begun
    hour = now.time().replace(second=0, microsecond=0)
    return save_visit(VisitData(now.date(), by.name or by.email, visited_at=hour), site=site, by=by)
