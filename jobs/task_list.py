"""The tasks of a job, in the order in which the work goes."""

from collections.abc import Iterator
from dataclasses import dataclass

from design.document import ControllerNode, HeadNode, ValveNode
from design.stakeout import base_lines
from jobs.models import TaskKind
from jobs.snapshot import Snapshot

_METHOD_TITLES = {"machine": "Trench {}", "hand": "Trench {}, by hand", "bore": "Trench {}: bore it"}


@dataclass(frozen=True)
class TaskSpec:
    """``ref`` is the id of what the task is about; ``digs`` says that it waits for a valid locate."""

    kind: TaskKind
    title: str
    ref: str = ""
    digs: bool = False


def tasks_for(snapshot: Snapshot) -> tuple[TaskSpec, ...]:
    """Every task of a job, from what the sealed quote says."""
    return (
        *_before(snapshot),
        *_setting_out(snapshot),
        *_ground(snapshot),
        *_laying(snapshot),
        *_end(snapshot),
    )


def _before(snapshot: Snapshot) -> Iterator[TaskSpec]:
    yield TaskSpec(TaskKind.LOCATE, "Ask for buried services to be located")
    yield TaskSpec(TaskKind.PLUMBER, "Connection and backflow protection by a licensed plumber")
    if any(isinstance(node, ControllerNode) for node in snapshot.plan.layout.nodes):
        yield TaskSpec(TaskKind.ELECTRICIAN, "Power for the controller by a licensed electrician")


def _setting_out(snapshot: Snapshot) -> Iterator[TaskSpec]:
    for base in base_lines(snapshot.plan, snapshot.stakes):
        yield TaskSpec(TaskKind.BASE, f"Measure {base.first} to {base.second}", f"{base.first} {base.second}")
    for stake in snapshot.stakes:
        unnamed = f"{stake.kind} " if stake.kind in ("trench turn", "sleeve end") else ""
        name = f"{unnamed}{stake.id} {stake.label}".strip()
        yield TaskSpec(TaskKind.STAKE, f"Set out {name}", stake.id)


def _ground(snapshot: Snapshot) -> Iterator[TaskSpec]:
    for number, run in enumerate(snapshot.runs, start=1):
        title = _METHOD_TITLES[run.method].format(number)
        yield TaskSpec(TaskKind.TRENCH, title, run.id, digs=True)
    for sleeve in snapshot.report.sleeves:
        yield TaskSpec(TaskKind.SLEEVE, f"Crossing {sleeve.id}", sleeve.id, digs=not sleeve.existing)


def _laying(snapshot: Snapshot) -> Iterator[TaskSpec]:
    nodes = snapshot.plan.layout.nodes
    if any(pipe.role == "main" for pipe in snapshot.report.pipes):
        yield TaskSpec(TaskKind.PIPE_TEST, "Pressure-test the main before it is covered")
    for node in nodes:
        if isinstance(node, ValveNode):
            yield TaskSpec(TaskKind.VALVE, f"Fit valve {node.id} {node.label}".strip(), node.id)
    for cable in snapshot.report.cables:
        yield TaskSpec(TaskKind.CABLE, f"Lay cable {cable.id}", cable.id)
    for node in nodes:
        if isinstance(node, ControllerNode):
            yield TaskSpec(TaskKind.CONTROLLER, f"Mount controller {node.id} {node.label}".strip(), node.id)
    for node in nodes:
        if isinstance(node, HeadNode):
            yield TaskSpec(TaskKind.HEAD, f"Fit {node.id} {node.label}".strip(), node.id)


def _end(snapshot: Snapshot) -> Iterator[TaskSpec]:
    for zone in snapshot.report.zones:
        name = zone.label if zone.label == zone.id else f"{zone.id} {zone.label}".strip()
        yield TaskSpec(TaskKind.FLUSH, f"Flush, run and adjust zone {name}", zone.id)
    yield TaskSpec(TaskKind.WALK, "Walk through with the customer")
