"""Which readings a plan hangs on: each is varied by its own error, and what then changes is told.

A reading is fragile where its error, one way or the other, flips a finding, moves a point of the
ground by more than the limit, or moves the area or the design flow by more than its share.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal

from design.comparing import Change, compare, entities, path_of
from design.geometry import ring_area
from design.report import CheckReport
from hydraulics.findings import Finding, Severity

Unit = Literal["m", "deg", "kPa", "L/min"]
Document = dict[str, Any]

# common practice, no source: what sends an installer back to the office before digging
MOVED_LIMIT_M, AREA_SHARE, FLOW_SHARE = 0.30, 0.05, 0.10
# common practice, no source: a limit missed by less than this is no reason to measure again
HAIR_SHARE = 0.02
# findings about the readings themselves: one that is varied alone always differs from its fellows
_OF_READINGS = frozenset({"supply.bucket.spread"})


@dataclass(frozen=True)
class Outcome:
    """A plan document and its check; ``report`` is none where it cannot be checked, and ``why`` says so."""

    document: Document
    report: CheckReport | None
    why: str = ""


Judge = Callable[[Document], Outcome]


@dataclass(frozen=True)
class Varied:
    """One reading, and what the plan would be with it less and more by its error.

    ``key`` is where it stands, ``name`` what a person calls it. ``documents`` makes the plans when asked
    for; a sentence in place of one says why the reading would then give none.
    """

    key: str
    name: str
    error: float
    unit: Unit
    documents: Callable[[], Iterable[Document | str]]


@dataclass(frozen=True)
class Flip:
    """A finding that comes or goes."""

    finding: Finding
    comes: bool


@dataclass(frozen=True)
class Fragile:
    """What the error of one reading may do, at its worst.

    ``breaks`` says why the plan could no longer be checked at all; empty if it can.
    """

    key: str
    name: str
    error: float
    unit: Unit
    flips: tuple[Flip, ...]
    moved: str  # id of what moves farthest, if beyond the limit
    moved_m: float
    area_share: float
    flow_share: float
    breaks: str = ""

    @property
    def devices(self) -> tuple[str, ...]:
        """What the findings that flip are about."""
        return tuple(dict.fromkeys(id for flip in self.flips for id in flip.finding.where))

    @property
    def weight(self) -> tuple[int, int, float]:
        """The heavier, the sooner it should be measured again."""
        stops = sum(flip.finding.severity == Severity.STOP for flip in self.flips)
        return (stops + bool(self.breaks), len(self.flips), self.moved_m + self.area_share + self.flow_share)


def find_fragile(base: Outcome, readings: Iterable[Varied], judge: Judge) -> tuple[Fragile, ...]:
    """The fragile ones, the heaviest first. ``judge`` checks a document.

    Where it has no time for one it gives no report and no reason: then only what moves is told.
    """
    found = (_weigh(base, reading, judge) for reading in readings)
    return tuple(sorted((one for one in found if one), key=lambda one: one.weight, reverse=True))


def _weigh(base: Outcome, reading: Varied, judge: Judge) -> Fragile | None:
    flips, moved, moved_m, area, flow, breaks = dict[tuple[str, ...], Flip](), "", 0.0, 0.0, 0.0, ""
    for document in reading.documents():
        if isinstance(document, str):
            breaks = document
            continue
        outcome = judge(document)
        if outcome.report is None and base.report is not None:
            breaks = outcome.why or breaks
        flips |= _flips(base.report, outcome.report)
        changes = compare(base.document, outcome.document).changes
        what, far_m = _farthest(changes)
        if far_m > moved_m:
            moved, moved_m = what, far_m
        area = max(area, _area_share(base.document, changes))
        flow = max(flow, _flow_share(base.report, outcome.report))
    moves = moved_m > MOVED_LIMIT_M
    if not (flips or breaks or moves or area > AREA_SHARE or flow > FLOW_SHARE):
        return None
    return Fragile(
        reading.key, reading.name, reading.error, reading.unit, tuple(flips.values()),
        moved if moves else "", moved_m, area, flow, breaks,
    )  # fmt: skip


def _flips(base: CheckReport | None, other: CheckReport | None) -> dict[tuple[str, ...], Flip]:
    """Findings in one and not in the other; notes flip nothing."""
    if base is None or other is None:
        return {}
    before, after = _by_key(base), _by_key(other)
    comes = {key: Flip(found, True) for key, found in after.items() if key not in before}
    goes = {key: Flip(found, False) for key, found in before.items() if key not in after}
    return {key: flip for key, flip in {**comes, **goes}.items() if not _by_a_hair(flip.finding)}


def _by_key(report: CheckReport) -> dict[tuple[str, ...], Finding]:
    return {
        (found.code, found.severity, found.case, *found.where): found
        for found in report.findings
        if found.severity != Severity.NOTE and found.code not in _OF_READINGS
    }


def _by_a_hair(found: Finding) -> bool:
    return found.limit != 0 and abs(found.measured / found.limit - 1) < HAIR_SHARE


def _farthest(changes: Iterable[Change]) -> tuple[str, float]:
    moved = [change for change in changes if change.kind == "moved"]
    if not moved:
        return "", 0.0
    worst = max(moved, key=lambda change: change.moved_m)
    return worst.id, worst.moved_m


def _area_share(before: Document, changes: Iterable[Change]) -> float:
    """The largest change of one area, as a share of it."""
    areas = entities(before, "areas")
    sizes = {name: ring_area(path_of(area, {})) for name, area in areas.items()}
    shares = [abs(c.grown) / sizes[c.id] for c in changes if c.group == "areas" and sizes.get(c.id)]
    return max(shares, default=0.0)


def _flow_share(base: CheckReport | None, other: CheckReport | None) -> float:
    if base is None or other is None or base.supply.design_flow_lpm <= 0:
        return 0.0
    return abs(other.supply.design_flow_lpm / base.supply.design_flow_lpm - 1)
