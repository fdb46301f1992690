"""Outlines named point by point: what they enclose, and the wheel's way round them."""

from collections.abc import Mapping
from dataclasses import dataclass

from design.geometry import path_length
from design.report import XY
from design.survey.document import OutlineRow, PlaneSurvey
from design.survey.readings import SurveyError
from design.survey.wheel import PerimeterCheck, check_perimeter, measure_outline

Problem = tuple[str, str]


@dataclass(frozen=True)
class Outline:
    """A ring or, where ``is_open``, a line; ``length_m`` is its way round, or along it.

    ``wheel`` compares what was walked, where it was walked round this one.
    """

    id: str
    points: tuple[XY, ...]
    length_m: float
    area_m2: float
    is_open: bool = False
    wheel: PerimeterCheck | None = None


def is_line(row: OutlineRow) -> bool:
    """Services run along their points, and so does a fence that does not end where it began."""
    if row.becomes == "service":
        return True
    return row.becomes == "boundary" and row.kind != "neighbour" and row.points[0] != row.points[-1]


def outlines_of(
    survey: PlaneSurvey, places: Mapping[str, XY], factor: float
) -> tuple[dict[int, Outline], list[Problem]]:
    """Outlines by row, and what is wrong with the others."""
    found: dict[int, Outline] = {}
    problems: list[Problem] = []
    seen: set[str] = {mark.name for mark in survey.marks}
    for place, row in enumerate(survey.outlines):
        try:
            if row.id in seen:
                raise SurveyError(f"Something is named {row.id} already. Name it otherwise.")
            seen.add(row.id)
            found[place] = _outline(row, places, _walked(survey, row.id), factor)
        except SurveyError as error:
            problems.append((f"outlines.{place}", str(error)))
    wheel = survey.wheel
    if wheel and wheel.way_round and (wheel.round_what or "") not in seen and survey.outlines:
        problems.append(("wheel", "Which outline did the wheel go round? Choose it."))
    return found, problems


def _walked(survey: PlaneSurvey, name: str) -> float | None:
    wheel = survey.wheel
    return wheel.way_round.m if wheel and wheel.way_round and wheel.round_what == name else None


def _outline(row: OutlineRow, places: Mapping[str, XY], walked_m: float | None, factor: float) -> Outline:
    points = _points(row, places)
    if is_line(row):
        if len(points) < 2:
            raise SurveyError("A line needs at least two points.")
        return Outline(row.id, tuple(points), path_length(points), 0.0, is_open=True)
    size = measure_outline(points)
    wheel = check_perimeter(walked_m, points, factor) if walked_m is not None else None
    return Outline(row.id, tuple(points), size.perimeter_m, size.area_m2, wheel=wheel)


def _points(row: OutlineRow, places: Mapping[str, XY]) -> list[XY]:
    missing = list(dict.fromkeys(name for name in row.points if name not in places))
    if missing:
        has = "has" if len(missing) == 1 else "have"
        raise SurveyError(f"{', '.join(missing)} {has} no place. Measure it, or leave it out of the outline.")
    if not row.points:
        raise SurveyError("Name the points of the outline in order, such as 1 2 3 4.")
    names = row.points
    if len(names) > 1 and names[0] == names[-1] and not is_line(row):
        names = names[:-1]
    return [places[name] for name in names]
