"""What stands first on the installer's page: may he dig, where only by hand, what lies in this ground."""

from dataclasses import dataclass

from jobs.digging import Digging
from jobs.measures import depth_words, run_words
from jobs.snapshot import Snapshot

_KINDS = {
    "gas": "Gas pipe", "electric": "Electric cable", "water": "Water pipe", "telecom": "Telecom cable",
    "sewer": "Sewer", "drain": "Drain", "future_drain": "Drain to come",
}  # fmt: skip
_KEEP_OFF = {"future_work": "Works to come", "keep_out": "Keep out", "tree": "Tree roots"}


@dataclass(frozen=True)
class StopCard:
    digging: Digging
    by_hand: tuple[str, ...]
    hazards: tuple[str, ...]


def stop_card(digging: Digging, snapshot: Snapshot, units: str) -> StopCard:
    return StopCard(digging, _by_hand(snapshot, units), _hazards(snapshot, units))


def _by_hand(snapshot: Snapshot, units: str) -> tuple[str, ...]:
    """Each reason once, with the trenches that it holds for."""
    by_reason: dict[str, list[str]] = {}
    for number, run in enumerate(snapshot.runs, start=1):
        if run.method == "hand":
            trench = f"Trench {number}, {run_words(run.length_m, units)}"
            by_reason.setdefault(run.why.removeprefix("Dig by hand "), []).append(trench)
    return tuple(f"{'; '.join(trenches)}: {why}".rstrip(": ") for why, trenches in by_reason.items())


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
