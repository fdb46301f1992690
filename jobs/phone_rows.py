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
from jobs.phone_groups import group_of
from jobs.services.checking import LICENSED, UNLICENSED
from jobs.snapshot import Snapshot
from jobs.task_state import TaskState

Facts = tuple[tuple[str, str], ...]
_NEAR_M = 0.15
_GONE = "Its figures are not to be found in the plan: ask the office."


@dataclass(frozen=True)
class Detail:
    """``big`` is read at arm's length, ``line`` stands below it; ``note`` is amber."""

    big: Facts = ()
    line: str = ""
    facts: Facts = ()
    note: str = ""


@dataclass(frozen=True)
class Row:
    state: TaskState
    detail: Detail
    locked: str  # why it cannot be ticked yet; empty if it can
    group: str = ""  # the heading that it shares with its neighbours
    form_id: uuid.UUID = field(default_factory=uuid.uuid4)
    error: str = ""
    typed_note: str = ""


@dataclass(frozen=True)
class SiteToday:
    """What the rows of a job are made from."""

    snapshot: Snapshot
    units: str
    digging: Digging
    licensed: frozenset[str]  # trades whose licence number the office has entered


def row_for(state: TaskState, site: SiteToday) -> Row:
    maker = _DETAILS.get(TaskKind(state.task.kind))
    detail = Detail()
    if maker:
        # a newer release may name a peg or a stretch otherwise than the one that made the task
        detail = maker(state.task.ref, site.snapshot, site.units) or Detail(note=_GONE)
    return Row(state, detail, _locked(state, site), group_of(state.task, site.snapshot))


def _locked(state: TaskState, site: SiteToday) -> str:
    task = state.task
    if task.kind in LICENSED and task.kind not in site.licensed:
        return UNLICENSED
    return site.digging.sentence if task.digs and not site.digging.is_open else ""


def _base(ref: str, snapshot: Snapshot, units: str) -> Detail | None:
    for base in base_lines(snapshot.plan, snapshot.stakes):
        if f"{base.first} {base.second}" == ref:
            labels = {mark.id: mark.label or mark.id for mark in snapshot.plan.ground.marks}
            facts = ((base.first, labels[base.first]), (base.second, labels[base.second]))
            big = ((f"{base.first} to {base.second}", tape_words(base.distance_m, units)),)
            return Detail(big, facts=facts)
    return None


def _stake(ref: str, snapshot: Snapshot, units: str) -> Detail | None:
    stake = next((stake for stake in snapshot.stakes if stake.id == ref), None)
    if stake is None:
        return None
    tie = stake.tie
    if tie is None:
        return Detail(note=stake.caution)
    side = tie.side if tie.side == "on the line" else f"{tie.side} of the line"
    words = [f"{side} {tie.first} → {tie.second}", error_words(tie.error_m, units)]
    if stake.check:
        words.append(f"check {stake.check.mark}: {tape_words(stake.check.distance_m, units)}")
    tapes = ((tie.first, tie.first_m), (tie.second, tie.second_m))
    big = tuple((f"from {mark}", tape_words(metres, units)) for mark, metres in tapes)
    return Detail(big, ", ".join(words), note=stake.caution)


def _trench(ref: str, snapshot: Snapshot, units: str) -> Detail | None:
    run = next((run for run in snapshot.runs if run.id == ref), None)
    if run is None:
        return None
    big = (("long", run_words(run.length_m, units)), ("deep", depth_words(run.depth_m, units)))
    method = {"machine": "by machine", "hand": "by hand only", "bore": "bored, no open trench"}
    facts = [("From – to", _ends(run.path, snapshot))]
    if run.pipes:
        facts.append(("Pipe", _pipe_words(run.pipes, snapshot)))
    if run.cables:
        facts.append(("Cable", ", ".join(run.cables)))
    line = f"{method[run.method]}, {run.soil.replace('_', ' ')}"
    return Detail(big, line, tuple(facts), run.why)


def _sleeve(ref: str, snapshot: Snapshot, units: str) -> Detail:
    sleeve = next(sleeve for sleeve in snapshot.report.sleeves if sleeve.id == ref)
    surfaces = {surface.id: surface.label or surface.id for surface in snapshot.plan.ground.surfaces}
    big = (("to bore", run_words(sleeve.bored_m, units)), ("sleeve", run_words(sleeve.sleeve_m, units)))
    through = ", ".join((*sleeve.pipes, *sleeve.cables)) or "nothing yet"
    facts = (("From – to", _ends(sleeve.path, snapshot)), ("Through it", through))
    note = "The sleeve is there already: find both ends before you trench." if sleeve.existing else ""
    return Detail(big, f"under {surfaces.get(sleeve.surface, sleeve.surface)}", facts, note)


def _cable(ref: str, snapshot: Snapshot, units: str) -> Detail:
    cable = next(cable for cable in snapshot.report.cables if cable.id == ref)
    limit = run_words(cable.limit_m, units) if cable.limit_m else "no limit"
    big = (("to lay", run_words(cable.length_m, units)), ("limit", limit))
    line = f"{run_words(cable.trench_m, units)} trench, {run_words(cable.rise_m, units)} rise, "
    line += f"{run_words(cable.slack_m, units)} slack"
    facts = (("From – to", f"{cable.from_id} – {cable.to_id}"), ("Cable", snapshot.part_label(cable.part)))
    return Detail(big, line, facts, _over(cable.length_m, cable.limit_m))


def _over(length_m: float, limit_m: float | None) -> str:
    if limit_m is None or length_m <= 0.95 * limit_m:
        return ""
    if length_m > limit_m:
        return "Longer than its limit: call the office before you lay it."
    return f"{100 * length_m / limit_m:.0f} % of its limit: no detour, or call the office."


def _pipe_words(pipes: tuple[str, ...], snapshot: Snapshot) -> str:
    """Each kind of pipe once, with the pipes of the plan that are made of it."""
    codes = {pipe.id: pipe.part for pipe in snapshot.report.pipes}
    by_code: dict[str, list[str]] = {}
    for pipe in pipes:
        by_code.setdefault(codes.get(pipe, ""), []).append(pipe)
    return "; ".join(f"{snapshot.part_label(code)}: {', '.join(ids)}" for code, ids in by_code.items())


def _ends(path: tuple[XY, ...], snapshot: Snapshot) -> str:
    return f"{_place(path[0], snapshot)} – {_place(path[-1], snapshot)}"


def _place(point: XY, snapshot: Snapshot) -> str:
    """The name of the peg there, or the place in site metres."""
    near = [(math.dist(stake.at, point), stake.id) for stake in snapshot.stakes]
    distance, name = min(near, default=(math.inf, ""))
    return name if distance <= _NEAR_M else f"({point[0]:.1f}, {point[1]:.1f})"


def _head(ref: str, snapshot: Snapshot, units: str) -> Detail:
    big, facts, note = head_facts(ref, snapshot, units)
    return Detail(big, facts=facts, note=note)


def _valve(ref: str, snapshot: Snapshot, units: str) -> Detail:
    return Detail(facts=valve_facts(ref, snapshot, units))


def _test(ref: str, snapshot: Snapshot, units: str) -> Detail:
    big, facts = test_facts(snapshot, units)
    return Detail(big, facts=facts)


def _zone(ref: str, snapshot: Snapshot, units: str) -> Detail:
    from_report = next((zone for zone in snapshot.report.zones if zone.id == ref), None)
    return Detail(facts=(("Heads", ", ".join(from_report.heads)),)) if from_report else Detail()


_DETAILS: dict[TaskKind, Callable[[str, Snapshot, str], Detail | None]] = {
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
