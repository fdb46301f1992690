"""The page of a visit's heights: rows as typed, the heights that follow, and the lie of the ground."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.forms import BaseFormSet
from django.http import QueryDict
from django.utils.safestring import SafeString, mark_safe
from pydantic import ValidationError

from design.document import Level
from design.drawing.levels import HeightsOfGround, levels_drawing
from design.drawing.options import Units
from design.drawing.svg import to_svg
from design.report import XY
from design.survey.document import LevelSurvey
from design.survey.levelling import LevelledPoint, LevelResult, Misclosure, reduce_levels
from design.terrain import AreaTerrain, contours, describe_area, outline_between, step_for
from sites.ground_places import ground_places
from sites.level_forms import ROWS, level_document, rows_of
from sites.models import Visit
from sites.survey_services import survey_of

FRESH_ROWS: Mapping[str, int] = {"spots": 2, "falls": 2, "sights": 3}
TITLES = {"spots": "Known height", "falls": "Fall", "sights": "Reading"}
WHOLE = "Ground between the levels"
# a height that no plan can hold is left out of drawing and board
_LARGEST_M = 500.0


@dataclass(frozen=True)
class AreaLine:
    name: str
    terrain: AreaTerrain | None


class LevelPage:
    """Bound to what was posted, or showing what is kept."""

    def __init__(
        self, visit: Visit, posted: QueryDict | None = None, stored: dict[str, Any] | None = None
    ) -> None:
        self.visit, self.posted = visit, posted
        kept = survey_of(visit)
        self.began_from = kept.version if kept else 0
        self.stored = stored if stored is not None else (kept.levels if kept else {})
        initial = rows_of(self.stored)
        self.rows: dict[str, BaseFormSet] = {
            kind: form_set(
                posted,
                prefix=kind,
                initial=initial[kind] or [{} for _ in range(FRESH_ROWS[kind])],
                form_kwargs={"system": visit.site.units},
            )
            for kind, form_set in ROWS.items()
        }
        self.places = ground_places(visit)
        self._show_problems()

    @property
    def spots(self) -> BaseFormSet:
        return self.rows["spots"]

    @property
    def falls(self) -> BaseFormSet:
        return self.rows["falls"]

    @property
    def sights(self) -> BaseFormSet:
        return self.rows["sights"]

    def is_valid(self) -> bool:
        valid = [rows.is_valid() for rows in self.rows.values()]
        return all(valid)

    def document(self) -> dict[str, Any]:
        """The readings, from what can be read of the form so far."""
        return self._read[0]

    @cached_property
    def result(self) -> LevelResult:
        try:
            survey = LevelSurvey.model_validate(self.document())
        except ValidationError:
            return LevelResult()
        return reduce_levels(survey, self.places.points)

    @cached_property
    def heights(self) -> list[LevelledPoint]:
        return sorted(self.result.points.values(), key=lambda point: point.name)

    @property
    def contradictions(self) -> tuple[Misclosure, ...]:
        return self.result.contradictions

    @property
    def closed(self) -> list[Misclosure]:
        """Loops that close as well as readings can."""
        return [one for one in self.result.misclosures if not one.mistake]

    @property
    def unplaced(self) -> list[str]:
        """Points with a height and no place: nothing can be drawn of them."""
        return [point.name for point in self.heights if point.at is None]

    @cached_property
    def levels(self) -> list[Level]:
        """Heights with a place, as a plan holds them."""
        return [
            Level(id=f"level-{point.name}", at=_tidy(point.at), z_m=round(point.z_m, 3))
            for point in self.heights
            if point.at is not None and abs(point.z_m) <= _LARGEST_M
        ]

    @cached_property
    def areas(self) -> list[AreaLine]:
        areas = self.places.areas or {WHOLE: outline_between(self.levels)}
        return [AreaLine(name, describe_area(self.levels, outline)) for name, outline in areas.items()]

    @cached_property
    def drawing(self) -> SafeString:
        """Empty where nothing has a place."""
        placed = {point.name: (point.at, point.z_m) for point in self.heights if point.at is not None}
        if not placed:
            return SafeString("")
        lines = contours(self.levels, step_for(self.levels)) if len(self.levels) > 2 else []
        low = [spot for line in self.areas if line.terrain for spot in line.terrain.low_spots]
        ground = HeightsOfGround(placed, self.places.areas, lines, low)
        units: Units = "us" if self.visit.site.units == "us" else "metric"
        return mark_safe(to_svg(levels_drawing(ground, units)))  # noqa: S308

    def to_look_at(self) -> list[tuple[str, str, str]]:
        """Id of the control, its row and label, and the sentence of all that keeps it from being saved."""
        return [
            (bound.id_for_label, f"{TITLES[kind]} {place + 1}, {bound.label}", error)
            for kind, rows in self.rows.items()
            for place, form in enumerate(rows.forms)
            for bound in form.visible_fields()
            for error in bound.errors
        ]

    @cached_property
    def _read(self) -> tuple[dict[str, Any], dict[str, tuple[str, int]]]:
        if self.posted is None:
            return self.stored, dict(_stored_places(self.stored))
        self.is_valid()
        return level_document(self.rows)

    def _show_problems(self) -> None:
        """Each sentence beside its row."""
        for problem in self.result.problems:
            kind, place = self._read[1].get(problem.row, ("", 0))
            if kind:
                form = self.rows[kind].forms[place]
                form.said = [*getattr(form, "said", ()), problem.sentence]


def _stored_places(document: dict[str, Any]) -> Iterator[tuple[str, tuple[str, int]]]:
    """Where in the form each row of a kept document stands."""
    for kind in ("spots", "falls"):
        for number, _ in enumerate(document.get(kind, [])):
            yield f"{kind}-{number}", (kind, number)
    row = 0
    for stand, setup in enumerate(document.get("setups", [])):
        yield f"setups-{stand}", ("sights", row)
        for number, _ in enumerate(setup["sights"]):
            yield f"setups-{stand}-sights-{number}", ("sights", row + 1 + number)
        row += 1 + len(setup["sights"])


def _tidy(at: XY) -> XY:
    return (round(at[0], 3), round(at[1], 3))


def with_more_rows(posted: QueryDict, kind: str) -> QueryDict:
    """What was posted, with an empty row of that kind added."""
    data = posted.copy()
    name = f"{kind}-TOTAL_FORMS"
    total = data.get(name, "")
    if kind in ROWS and isinstance(total, str) and total.isdecimal() and len(total) < 4:
        data[name] = str(int(total) + 1)
    return data
