"""Walked legs of the document: by bearing or by turn, with a wheel or a tape, closed or open."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from design.report import XY
from design.survey.bearings import bearings_from_turns
from design.survey.document import LegRow, WalkRow
from design.survey.readings import Leg, Placed, SurveyError
from design.survey.traverse import (
    WHEEL_SHARE,
    Traverse,
    balance_by_compass_rule,
    likely_errors_m,
    turned_errors_m,
    walk,
)

# common practice, no source: a tape pulled leg by leg over a garden
TAPE_SHARE = 0.002
_DUE_EAST_DEG = 90.0


@dataclass(frozen=True)
class WalkResult:
    """Where a walk went and by how much it missed; ``ends_on`` is empty for an open walk.

    Misclosures [m] are those of the readings, also where the compass rule has shared them out.
    """

    start: str
    ends_on: str
    traverse: Traverse
    path: tuple[XY, ...]
    names: tuple[str, ...]

    @property
    def balanced(self) -> bool:
        return self.traverse.balanced

    @property
    def sentence(self) -> str:
        """What the walk says of itself."""
        length = f"{self.raw.length_m:.2f} m"
        if not self.ends_on:
            return f"The walk from {self.start} over {length} is open: nothing checks it."
        missed = (
            f"The walk from {self.start} over {length} misses {self.ends_on} "
            f"by {self.raw.misclosure_m:.2f} m "
            f"({_way(self.raw.misclosure_east_m, 'east', 'west')}, "
            f"{_way(self.raw.misclosure_north_m, 'north', 'south')}), {_ratio(self.raw.ratio)}: "
        )
        shared = " The compass rule has shared it out." if self.balanced else ""
        return missed + _VERDICTS[self.raw.verdict] + shared

    @property
    def raw(self) -> Traverse:
        """The walk as it was read, nothing shared out."""
        return walk(self.traverse.start, [one.leg for one in self.traverse.stretches], self.traverse.close)


_VERDICTS = {
    "good": "good enough.",
    "unsure": "unsure. Look at the longest leg, and at bearings that were turned round.",
    "walk again": "too much. Walk it again.",
}


@dataclass(frozen=True)
class WalkSetting:
    """What holds for all walks: points placed so far, and the wheel's factor."""

    places: Mapping[str, Placed]
    factor: float = 1.0


def walk_document(
    row: WalkRow, setting: WalkSetting
) -> tuple[WalkResult | None, list[Placed], dict[int, str]]:
    """The walk, its points in order, and sentences by leg; legs before a bad one still count.

    Raises SurveyError where the start or the end has no place, or there is no leg.
    """
    start = _known(row.start, setting)
    legs, problems = _legs(row, setting.factor if row.by_wheel else 1.0)
    if not legs:
        if problems:
            return None, [], problems
        raise SurveyError("A walk needs at least one leg. Type its length and its bearing.")
    ends_on = "" if problems else _ends_on(row, setting)
    close = setting.places[ends_on].at if ends_on else None
    found = walk(start.at, legs, close)
    if close is None:
        # an open walk is meant to end where it ends
        found = walk(start.at, legs, found.points[-1])
    if row.compass_rule and ends_on:
        found = balance_by_compass_rule(found)
    result = WalkResult(
        row.start, ends_on, found, (start.at, *found.points), tuple(leg.point for leg in legs)
    )
    return result, _placed(row, result, start), problems


def _known(name: str, setting: WalkSetting) -> Placed:
    if name not in setting.places:
        raise SurveyError(f"{name} has no place yet. Start the walk on a mark, or tie {name} first.")
    return setting.places[name]


def _ends_on(row: WalkRow, setting: WalkSetting) -> str:
    """The point that the walk should have reached: as said, or its last one where that has a place."""
    if row.closes_on:
        return _known(row.closes_on, setting).point
    last = row.legs[-1].point
    return last if last == row.start or last in setting.places else ""


def _legs(row: WalkRow, factor: float) -> tuple[list[Leg], dict[int, str]]:
    legs: list[Leg] = []
    for place, leg in enumerate(row.legs):
        try:
            if not leg.length.m > 0:
                raise SurveyError(f"The leg to {leg.point} must be a length above zero.")
            legs.append(Leg(leg.point, leg.length.m * factor, _bearing(leg, legs)))
        except SurveyError as error:
            return legs, {place: str(error)}
    return legs, {}


def _bearing(leg: LegRow, before: list[Leg]) -> float:
    if leg.bearing is not None:
        return leg.bearing.deg % 360
    if not before:
        if leg.turn is not None:
            raise SurveyError("The first leg has none to turn from. Give its bearing; blank is due east.")
        return _DUE_EAST_DEG
    if leg.turn is None:
        return before[-1].bearing_deg
    turn_deg = -abs(leg.turn.deg) if leg.turn_side == "left" else leg.turn.deg
    return bearings_from_turns(before[-1].bearing_deg, [turn_deg])[-1]


def _placed(row: WalkRow, result: WalkResult, start: Placed) -> list[Placed]:
    share = WHEEL_SHARE if row.by_wheel else TAPE_SHARE
    is_turned = any(leg.turn is not None for leg in row.legs)
    errors = (turned_errors_m if is_turned else likely_errors_m)(result.traverse, share)
    doubt = (
        "" if result.raw.verdict == "good" else f"The walk to {{}} misses by {result.raw.misclosure_m:.2f} m."
    )
    return [
        Placed(name, at, math.hypot(start.error_m, error_m), doubt.format(name), "walk")
        for name, at, error_m in zip(result.names, result.traverse.points, errors, strict=True)
    ]


def _way(value_m: float, positive: str, negative: str) -> str:
    return f"{abs(value_m):.2f} m {positive if value_m >= 0 else negative}"


def _ratio(ratio: float) -> str:
    return "no misclosure" if math.isinf(ratio) else f"1 in {ratio:.0f}"
