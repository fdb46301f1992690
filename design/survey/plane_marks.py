"""Marks placed by their coordinates, or by a distance and a bearing from another mark."""

import math
from collections.abc import Iterable, Sequence

from design.report import XY
from design.survey.document import MarkRow
from design.survey.readings import SurveyError, length_ok

_DUE_EAST_DEG = 90.0
Problem = tuple[str, str]  # the row, such as ties.2, and a sentence


def place_marks(rows: Sequence[MarkRow]) -> tuple[dict[str, XY], list[Problem]]:
    """Marks by name, and what keeps others from having a place."""
    places: dict[str, XY] = {}
    waiting, problems = _named_once(rows)
    while waiting:
        ready = [place for place in waiting if rows[place].off is None or rows[place].off in places]
        if not ready:
            problems += [(f"marks.{place}", _out_of_reach(rows[place])) for place in waiting]
            break
        for place in ready:
            try:
                places[rows[place].name] = _placed(rows[place], places)
            except SurveyError as error:
                problems.append((f"marks.{place}", str(error)))
        waiting = [place for place in waiting if place not in ready]
    return places, problems


def _named_once(rows: Sequence[MarkRow]) -> tuple[list[int], list[Problem]]:
    first: dict[str, int] = {}
    problems = []
    for place, row in enumerate(rows):
        if first.setdefault(row.name, place) != place:
            problems.append((f"marks.{place}", f"There is a mark {row.name} already."))
    return list(first.values()), problems


def _placed(row: MarkRow, places: dict[str, XY]) -> XY:
    if row.off is None:
        return (_metres(row.east), _metres(row.north))
    if row.distance is None:
        raise SurveyError(f"How far is {row.name} from {row.off}? Type the distance.")
    away_m = length_ok(row.distance.m, f"The distance to {row.name}")
    angle = math.radians(row.bearing.deg if row.bearing else _DUE_EAST_DEG)
    east, north = places[row.off]
    return (east + away_m * math.sin(angle), north + away_m * math.cos(angle))


def _metres(length: object) -> float:
    return float(getattr(length, "m", 0.0))


def _out_of_reach(row: MarkRow) -> str:
    if row.off == row.name:
        return f"{row.name} cannot be measured from itself. Name another mark."
    return f"{row.off} is no mark with a place. Measure {row.name} from one that has, or give east and north."


def places_of(names: Iterable[str], places: dict[str, XY]) -> tuple[list[XY], list[str]]:
    """The places of these names in order, and the names that have none."""
    names = list(names)
    return [places[name] for name in names if name in places], [n for n in names if n not in places]
