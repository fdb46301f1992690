"""The installer's page as data: the stop card, then sections of rows in the order of the work."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.utils import timezone

from jobs import cautions
from jobs.digging import Digging, digging_on
from jobs.measures import depth_words, run_words
from jobs.models import Job, Result, Task, TaskKind
from jobs.phone_rows import Row, SiteToday, row_for
from jobs.snapshot import Snapshot, read_snapshot
from jobs.task_state import TaskState, task_states

_KINDS = {
    "gas": "Gas pipe", "electric": "Electric cable", "water": "Water pipe", "telecom": "Telecom cable",
    "sewer": "Sewer", "drain": "Drain", "future_drain": "Drain to come",
}  # fmt: skip
_KEEP_OFF = {"future_work": "Works to come", "keep_out": "Keep out", "tree": "Tree roots"}


@dataclass(frozen=True)
class Section:
    """``locked`` says why its tasks cannot be ticked yet; ``opens`` whether it is unfolded at first."""

    key: str
    title: str
    rows: tuple[Row, ...]
    cautions: tuple[str, ...] = ()
    opens: bool = False

    @property
    def done(self) -> int:
        return sum(row.state.result == Result.DONE for row in self.rows)

    @property
    def locked(self) -> str:
        return next((row.locked for row in self.rows if row.locked), "")


@dataclass(frozen=True)
class StopCard:
    digging: Digging
    by_hand: tuple[str, ...]
    hazards: tuple[str, ...]


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


@dataclass(frozen=True)
class _Spec:
    key: str
    title: str
    kinds: tuple[TaskKind, ...]
    cautions: tuple[str, ...] = ()


# in the order of the work
_SPECS = (
    _Spec("before", "Before anybody digs", (TaskKind.LOCATE,)),
    _Spec(
        "trades",
        "Licensed trades",
        (TaskKind.PLUMBER, TaskKind.ELECTRICIAN),
        (cautions.WATER, cautions.ELECTRIC),
    ),
    _Spec("stakes", "Set out", (TaskKind.BASE, TaskKind.STAKE), (cautions.STAKES,)),
    _Spec("trench", "Trenches", (TaskKind.TRENCH,), (cautions.BURIED, cautions.TRENCH)),
    _Spec("sleeves", "Crossings", (TaskKind.SLEEVE,), (cautions.SLEEVE,)),
    _Spec("test", "Pipe test", (TaskKind.PIPE_TEST,), (cautions.CEMENT, cautions.TEST)),
    _Spec("cables", "Cable runs", (TaskKind.CABLE,), (cautions.CABLE,)),
    _Spec("fit", "Fit valves and heads", (TaskKind.VALVE, TaskKind.CONTROLLER, TaskKind.HEAD)),
    _Spec("end", "Finish", (TaskKind.FLUSH, TaskKind.WALK)),
)
_SHORT = ("before", "trades")  # a row or two each: no need to fold them while open


def phone_page(job: Job) -> PhonePage:
    site = site_today(job)
    rows = [row_for(state, site) for state in task_states(job)]
    sections = [_section(spec, rows) for spec in _SPECS]
    stop = StopCard(site.digging, _by_hand(site.snapshot, site.units), _hazards(site.snapshot, site.units))
    unfolded = _unfolded(section for section in sections if section.rows)
    return PhonePage(job, site.snapshot, site.units, stop, unfolded)


def site_today(job: Job) -> SiteToday:
    licensed = frozenset(booking.trade for booking in job.bookings.all() if booking.licence_number)
    digging = digging_on(job, timezone.localdate())
    return SiteToday(read_snapshot(job.snapshot), job.quote.site.units, digging, licensed)


def phone_row(job: Job, task: Task) -> Row:
    """One row alone, as it stands now."""
    state = TaskState(task, tuple(task.checkoffs.select_related("by")))
    return row_for(state, site_today(job))


def with_error(page: PhonePage, wrong: Row) -> PhonePage:
    """The page with one row replaced by the one that carries an error, and its section unfolded."""
    return replace(page, sections=tuple(_with_row(section, wrong) for section in page.sections))


def _with_row(section: Section, wrong: Row) -> Section:
    rows = tuple(wrong if row.state.task == wrong.state.task else row for row in section.rows)
    return replace(section, rows=rows, opens=section.opens or wrong in rows)


def _section(spec: _Spec, rows: list[Row]) -> Section:
    own = tuple(row for row in rows if row.state.task.kind in spec.kinds)
    return Section(spec.key, spec.title, own, spec.cautions)


def _unfolded(sections: Iterable[Section]) -> tuple[Section, ...]:
    """What is to be done next stands open: the short sections, and the first other unfinished one."""
    found, next_one = [], True
    for section in sections:
        unfinished = section.done < len(section.rows)
        opens = unfinished and (section.key in _SHORT or next_one)
        next_one = next_one and (section.key in _SHORT or not unfinished)
        found.append(replace(section, opens=opens))
    return tuple(found)


def _by_hand(snapshot: Snapshot, units: str) -> tuple[str, ...]:
    return tuple(
        f"Trench {number}, {run_words(run.length_m, units)}: {run.why}".rstrip(": ")
        for number, run in enumerate(snapshot.runs, start=1)
        if run.method == "hand"
    )


def _hazards(snapshot: Snapshot, units: str) -> tuple[str, ...]:
    ground = snapshot.plan.ground
    lines = []
    for service in ground.services:
        name = f"{_KINDS[service.kind]} “{service.label}”" if service.label else _KINDS[service.kind]
        depth = "depth unknown"
        if service.depth_m is not None:
            depth = f"about {depth_words(service.depth_m, units)} deep"
        lines.append(f"{name}: {depth}, {'located' if service.located else 'not yet located'}")
    for surface in ground.surfaces:
        if surface.kind in _KEEP_OFF:
            lines.append(f"{_KEEP_OFF[surface.kind]}: {surface.label or surface.id}")
    return tuple(lines)
