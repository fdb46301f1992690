"""Headings within a long section: what kind of point is set out, which zone a head belongs to."""

from design.report import ZoneResult
from jobs.models import Task, TaskKind
from jobs.snapshot import Snapshot

_POINTS = {
    "head": "Heads",
    "valve": "Valves",
    "controller": "Controller",
    "sleeve end": "Ends of crossings",
    "trench turn": "Turns and ends of trenches",
}
_KINDS = {TaskKind.BASE: "Between the marks", TaskKind.VALVE: "Valves", TaskKind.CONTROLLER: "Controller"}


def group_of(task: Task, snapshot: Snapshot) -> str:
    """The heading that a task shares with its neighbours; empty where the section needs none."""
    kind = TaskKind(task.kind)
    if kind == TaskKind.STAKE:
        return next((_POINTS[stake.kind] for stake in snapshot.stakes if stake.id == task.ref), "")
    if kind == TaskKind.HEAD:
        return next((_zone(zone) for zone in snapshot.report.zones if task.ref in zone.heads), "")
    return _KINDS.get(kind, "")


def _zone(zone: ZoneResult) -> str:
    return f"Heads of {zone.id}" if zone.label in ("", zone.id) else f"Heads of {zone.id}, {zone.label}"
