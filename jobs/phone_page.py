"""The installer's page as data: the stop card, then sections of rows in the order of the work."""

from dataclasses import dataclass, replace

from django.utils import timezone

from jobs import cautions
from jobs.digging import Digging, digging_on
from jobs.measures import depth_words, run_words
from jobs.models import Job, Result, Task, TaskKind
from jobs.phone_rows import Row, row_for
from jobs.snapshot import Snapshot, read_snapshot
from jobs.task_state import TaskState, task_states

_KINDS = {
    "gas": "Gas pipe", "electric": "Electric cable", "water": "Water pipe", "telecom": "Telecom cable",
    "sewer": "Sewer", "drain": "Drain", "future_drain": "Drain to come",
}  # fmt: skip
_KEEP_OFF = {"future_work": "Works to come", "keep_out": "Keep out", "tree": "Tree roots"}


@dataclass(frozen=True)
class Section:
    key: str
    title: str
    rows: tuple[Row, ...]
    cautions: tuple[str, ...] = ()

    @property
    def done(self) -> int:
        return sum(row.state.result == Result.DONE for row in self.rows)


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


# key, title, task kinds, cautions: in the order of the work
_SECTIONS: tuple[tuple[str, str, tuple[TaskKind, ...], tuple[str, ...]], ...] = (
    ("before", "Before anybody digs", (TaskKind.LOCATE,), ()),
    (
        "trades",
        "Licensed trades",
        (TaskKind.PLUMBER, TaskKind.ELECTRICIAN),
        (cautions.WATER, cautions.ELECTRIC),
    ),
    ("stakes", "Set out", (TaskKind.BASE, TaskKind.STAKE), (cautions.STAKES,)),
    ("trench", "Trenches", (TaskKind.TRENCH,), (cautions.BURIED, cautions.TRENCH)),
    ("sleeves", "Crossings", (TaskKind.SLEEVE,), (cautions.SLEEVE,)),
    ("test", "Pipe test", (TaskKind.PIPE_TEST,), (cautions.CEMENT, cautions.TEST)),
    ("cables", "Cable runs", (TaskKind.CABLE,), (cautions.CABLE,)),
    ("fit", "Fit", (TaskKind.VALVE, TaskKind.CONTROLLER, TaskKind.HEAD), ()),
    ("end", "Finish", (TaskKind.FLUSH, TaskKind.WALK), ()),
)


def phone_page(job: Job) -> PhonePage:
    snapshot, units = read_snapshot(job.snapshot), job.quote.site.units
    digging = digging_on(job, timezone.localdate())
    states = task_states(job)
    sections = (
        _section(*spec, [_row(s, snapshot, digging, units) for s in states if s.task.kind in spec[2]])
        for spec in _SECTIONS
    )
    stop = StopCard(digging, _by_hand(snapshot, units), _hazards(snapshot, units))
    return PhonePage(job, snapshot, units, stop, tuple(section for section in sections if section.rows))


def phone_row(job: Job, task: Task) -> Row:
    """One row alone, as it stands now."""
    digging = digging_on(job, timezone.localdate())
    state = TaskState(task, tuple(task.checkoffs.select_related("by")))
    return _row(state, read_snapshot(job.snapshot), digging, job.quote.site.units)


def with_error(page: PhonePage, wrong: Row) -> PhonePage:
    """The page with one row replaced by the one that carries an error."""
    sections = tuple(
        replace(
            section, rows=tuple(wrong if row.state.task == wrong.state.task else row for row in section.rows)
        )
        for section in page.sections
    )
    return replace(page, sections=sections)


def _row(state: TaskState, snapshot: Snapshot, digging: Digging, units: str) -> Row:
    return row_for(state, snapshot, digging, units)


def _section(
    key: str, title: str, kinds: tuple[TaskKind, ...], words: tuple[str, ...], rows: list[Row]
) -> Section:
    return Section(key, title, tuple(rows), words)


def _by_hand(snapshot: Snapshot, units: str) -> tuple[str, ...]:
    return tuple(
        f"{stretch.id}, {run_words(stretch.length_m, units)}: {stretch.why}".rstrip(": ")
        for stretch in snapshot.report.trench
        if stretch.method == "hand"
    )


def _hazards(snapshot: Snapshot, units: str) -> tuple[str, ...]:
    ground = snapshot.plan.ground
    lines = []
    for service in ground.services:
        name = f"{_KINDS[service.kind]} {service.label}".strip()
        depth = (
            "depth unknown"
            if service.depth_m is None
            else f"about {depth_words(service.depth_m, units)} deep"
        )
        lines.append(f"{name}: {depth}, {'located' if service.located else 'not yet located'}")
    for surface in ground.surfaces:
        if surface.kind in _KEEP_OFF:
            lines.append(f"{_KEEP_OFF[surface.kind]}: {surface.label or surface.id}")
    return tuple(lines)
