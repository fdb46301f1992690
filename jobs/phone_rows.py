"""The rows of the installer's page: each a task with the measures that it needs."""

import math
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field

from design.report import XY
from design.stakeout import base_lines
from jobs.digging import Digging
from jobs.measures import depth_words, error_words, run_words, tape_words
from jobs.models import TaskKind
from jobs.phone_devices import head_facts, test_facts, valve_facts
from jobs.snapshot import Snapshot
from jobs.task_state import TaskState

Facts = tuple[tuple[str, str], ...]
_NEAR_M = 0.15


@dataclass(frozen=True)
class Detail:
    """``big`` is read at arm's length; ``note`` is amber."""

    big: Facts = ()
    facts: Facts = ()
    note: str = ""


@dataclass(frozen=True)
class Row:
    state: TaskState
    detail: Detail
    locked: str  # why it cannot be ticked yet; empty if it can
    form_id: uuid.UUID = field(default_factory=uuid.uuid4)
    error: str = ""
    typed_note: str = ""


def row_for(state: TaskState, snapshot: Snapshot, digging: Digging, units: str) -> Row:
    maker = _DETAILS.get(TaskKind(state.task.kind))
    detail = maker(state.task.ref, snapshot, units) if maker else Detail()
    locked = digging.sentence if state.task.digs and not digging.is_open else ""
    return Row(state, detail, locked)


def _base(ref: str, snapshot: Snapshot, units: str) -> Detail:
    for base in base_lines(snapshot.plan, snapshot.stakes):
        if f"{base.first} {base.second}" == ref:
            labels = {mark.id: mark.label or mark.id for mark in snapshot.plan.ground.marks}
            facts = ((base.first, labels[base.first]), (base.second, labels[base.second]))
            return Detail(((f"{base.first} to {base.second}", tape_words(base.distance_m, units)),), facts)
    return Detail()


def _stake(ref: str, snapshot: Snapshot, units: str) -> Detail:
    stake = next(stake for stake in snapshot.stakes if stake.id == ref)
    tie = stake.tie
    if tie is None:
        return Detail(note=stake.caution)
    side = (
        tie.side
        if tie.side == "on the line"
        else f"{tie.side}, standing at {tie.first} and facing {tie.second}"
    )
    facts = [("Side", side), ("Likely error", error_words(tie.error_m, units))]
    if stake.check:
        facts.append((f"Check from {stake.check.mark}", tape_words(stake.check.distance_m, units)))
    tapes = (
        (f"from {tie.first}", tape_words(tie.first_m, units)),
        (f"from {tie.second}", tape_words(tie.second_m, units)),
    )
    return Detail(tapes, tuple(facts), stake.caution)


def _trench(ref: str, snapshot: Snapshot, units: str) -> Detail:
    stretch = next(stretch for stretch in snapshot.report.trench if stretch.id == ref)
    big = (("long", run_words(stretch.length_m, units)), ("deep", depth_words(stretch.depth_m, units)))
    method = {"machine": "open trench, machine", "hand": "by hand only", "bore": "bored, no open trench"}
    facts = [("How", method[stretch.method]), ("From – to", _ends(stretch.path, snapshot))]
    if stretch.pipes:
        facts.append(("Pipes in it", _pipe_words(stretch.pipes, snapshot)))
    if stretch.cables:
        facts.append(("Cables in it", ", ".join(stretch.cables)))
    facts.append(("Soil", stretch.soil.replace("_", " ")))
    return Detail(big, tuple(facts), stretch.why)


def _sleeve(ref: str, snapshot: Snapshot, units: str) -> Detail:
    sleeve = next(sleeve for sleeve in snapshot.report.sleeves if sleeve.id == ref)
    surfaces = {surface.id: surface.label or surface.id for surface in snapshot.plan.ground.surfaces}
    big = (("to bore", run_words(sleeve.bored_m, units)), ("sleeve", run_words(sleeve.sleeve_m, units)))
    facts = [
        ("Under", surfaces.get(sleeve.surface, sleeve.surface)),
        ("From – to", _ends(sleeve.path, snapshot)),
    ]
    through = [*sleeve.pipes, *sleeve.cables]
    facts.append(("Through it", ", ".join(through) or "nothing yet"))
    note = "The sleeve is there already: find both ends before you trench." if sleeve.existing else ""
    return Detail(big, tuple(facts), note)


def _cable(ref: str, snapshot: Snapshot, units: str) -> Detail:
    cable = next(cable for cable in snapshot.report.cables if cable.id == ref)
    limit = run_words(cable.limit_m, units) if cable.limit_m else "none given"
    big = (("to lay", run_words(cable.length_m, units)), ("limit", limit))
    parts = f"{run_words(cable.trench_m, units)} trench, {run_words(cable.rise_m, units)} rise, "
    parts += f"{run_words(cable.slack_m, units)} slack"
    facts = (
        ("From – to", f"{cable.from_id} – {cable.to_id}"),
        ("Cable", snapshot.part_label(cable.part)),
        ("Made of", parts),
    )
    return Detail(big, facts, _over(cable.length_m, cable.limit_m))


def _over(length_m: float, limit_m: float | None) -> str:
    if limit_m is None or length_m <= 0.95 * limit_m:
        return ""
    if length_m > limit_m:
        return "Longer than its limit: call the office before you lay it."
    return f"{100 * length_m / limit_m:.0f} % of its limit: no detour, or call the office."


def _pipe_words(pipes: tuple[str, ...], snapshot: Snapshot) -> str:
    codes = {pipe.id: pipe.part for pipe in snapshot.report.pipes}
    return ", ".join(f"{pipe} ({snapshot.part_label(codes.get(pipe, ''))})" for pipe in pipes)


def _ends(path: tuple[XY, ...], snapshot: Snapshot) -> str:
    return f"{_place(path[0], snapshot)} – {_place(path[-1], snapshot)}"


def _place(point: XY, snapshot: Snapshot) -> str:
    """The name of the peg there, or the place in site metres."""
    near = [(math.dist(stake.at, point), stake.id) for stake in snapshot.stakes]
    distance, name = min(near, default=(math.inf, ""))
    return name if distance <= _NEAR_M else f"({point[0]:.1f}, {point[1]:.1f})"


def _head(ref: str, snapshot: Snapshot, units: str) -> Detail:
    return Detail(*head_facts(ref, snapshot, units))


def _valve(ref: str, snapshot: Snapshot, units: str) -> Detail:
    return Detail(facts=valve_facts(ref, snapshot, units))


def _test(ref: str, snapshot: Snapshot, units: str) -> Detail:
    return Detail(*test_facts(snapshot, units))


def _zone(ref: str, snapshot: Snapshot, units: str) -> Detail:
    from_report = next((zone for zone in snapshot.report.zones if zone.id == ref), None)
    return Detail(facts=(("Heads", ", ".join(from_report.heads)),)) if from_report else Detail()


_DETAILS: dict[TaskKind, Callable[[str, Snapshot, str], Detail]] = {
    TaskKind.BASE: _base,
    TaskKind.STAKE: _stake,
    TaskKind.TRENCH: _trench,
    TaskKind.SLEEVE: _sleeve,
    TaskKind.CABLE: _cable,
    TaskKind.HEAD: _head,
    TaskKind.VALVE: _valve,
    TaskKind.CONTROLLER: _valve,
    TaskKind.PIPE_TEST: _test,
    TaskKind.FLUSH: _zone,
}
