"""The installer's page as data: the stop card, then sections of rows in the order of the work."""

from dataclasses import dataclass, replace

from django.utils import timezone

from jobs import cautions
from jobs.cautions import Caution
from jobs.digging import digging_on
from jobs.models import Job, Result, Task, TaskKind
from jobs.phone_rows import Row, SiteToday, row_for
from jobs.snapshot import Snapshot, read_snapshot
from jobs.stop_card import StopCard, stop_card
from jobs.task_state import task_states


@dataclass(frozen=True)
class Section:
    """``locked`` says why its tasks cannot be ticked yet; ``opens`` whether it is unfolded at first."""

    key: str
    title: str
    rows: tuple[Row, ...]
    cautions: tuple[Caution, ...] = ()
    opens: bool = False

    @property
    def done(self) -> int:
        return sum(row.state.result == Result.DONE for row in self.rows)

    @property
    def locked(self) -> str:
        return next((row.locked for row in self.rows if row.locked), "")

    @property
    def groups(self) -> dict[str, list[Row]]:
        """Rows below their common heading, such as the heads of one zone; the empty heading is none."""
        found: dict[str, list[Row]] = {}
        for row in self.rows:
            found.setdefault(row.group, []).append(row)
        return found


@dataclass(frozen=True)
class PhonePage:
    job: Job
    snapshot: Snapshot
    units: str
    stop: StopCard
    sections: tuple[Section, ...]

    @property
    def total(self) -> int:
        return sum(len(section.rows) for section in self.sections)

    @property
    def done(self) -> int:
        return sum(section.done for section in self.sections)

    @property
    def next_row(self) -> Row | None:
        """The first task that nobody has touched and that the crew may do now."""
        return next((row for section in self.sections for row in section.rows if _is_free(row)), None)

    @property
    def said(self) -> int:
        """How many tasks are short of something or in trouble."""
        words = (Result.SHORT, Result.PROBLEM)
        return sum(row.state.result in words for section in self.sections for row in section.rows)

    def section_of(self, task: Task) -> Section:
        return next(s for s in self.sections if any(row.state.task == task for row in s.rows))

    def row_of(self, task: Task) -> Row:
        return next(row for section in self.sections for row in section.rows if row.state.task == task)


@dataclass(frozen=True)
class _Spec:
    key: str
    title: str
    kinds: tuple[TaskKind, ...]
    cautions: tuple[Caution, ...] = ()


# in the order of the work
_SPECS = (
    _Spec("before", "Before anybody digs", (TaskKind.LOCATE,)),
    _Spec(
        "trades",
        "Licensed trades",
        (TaskKind.PLUMBER, TaskKind.ELECTRICIAN),
        (cautions.WATER, cautions.ELECTRIC),
    ),
    _Spec("stakes", "Set out", (TaskKind.BASE, TaskKind.STAKE), (cautions.BASE, cautions.FLAGS)),
    _Spec("trench", "Trenches", (TaskKind.TRENCH,), (cautions.BURIED, cautions.TRENCH)),
    _Spec("sleeves", "Crossings", (TaskKind.SLEEVE,), (cautions.SLEEVE,)),
    _Spec("test", "Pipe test", (TaskKind.PIPE_TEST,), (cautions.TEST, cautions.CEMENT)),
    _Spec("cables", "Cable runs", (TaskKind.CABLE,), (cautions.CABLE,)),
    _Spec("fit", "Fit valves and heads", (TaskKind.VALVE, TaskKind.CONTROLLER, TaskKind.HEAD)),
    _Spec("end", "Finish", (TaskKind.FLUSH, TaskKind.WALK)),
)


def phone_page(job: Job) -> PhonePage:
    site = site_today(job)
    rows = [row_for(state, site) for state in task_states(job)]
    sections = tuple(section for spec in _SPECS if (section := _section(spec, rows)).rows)
    stop = stop_card(site.digging, site.snapshot, site.units)
    page = PhonePage(job, site.snapshot, site.units, stop, sections)
    return _unfolded(page)


def site_today(job: Job) -> SiteToday:
    licensed = frozenset(booking.trade for booking in job.bookings.all() if booking.licence_number)
    digging = digging_on(job, timezone.localdate())
    return SiteToday(read_snapshot(job.snapshot), job.quote.site.units, digging, licensed)


def with_error(page: PhonePage, wrong: Row) -> PhonePage:
    """The page with one row replaced by the one that carries an error, and its section unfolded."""
    return replace(page, sections=tuple(_with_row(section, wrong) for section in page.sections))


def _with_row(section: Section, wrong: Row) -> Section:
    rows = tuple(wrong if row.state.task == wrong.state.task else row for row in section.rows)
    return replace(section, rows=rows, opens=section.opens or wrong in rows)


def _section(spec: _Spec, rows: list[Row]) -> Section:
    own = tuple(row for row in rows if row.state.task.kind in spec.kinds)
    section = Section(spec.key, spec.title, own, spec.cautions)
    return replace(section, rows=tuple(row for group in section.groups.values() for row in group))


def _unfolded(page: PhonePage) -> PhonePage:
    """Only what is to be done next stands open; all else is one line, so that it is found again."""
    first = page.next_row
    return replace(
        page, sections=tuple(replace(section, opens=first in section.rows) for section in page.sections)
    )


def _is_free(row: Row) -> bool:
    return row.state.result == "open" and not row.locked and row.state.task.kind != TaskKind.LOCATE
