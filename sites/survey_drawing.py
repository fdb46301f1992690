"""The live plan beside the readings: points with their likely error, outlines, and tapes on request."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from design.geometry import bounds
from design.report import XY
from design.survey.document import PlaneSurvey
from design.survey.reduce import PlaneResult
from sites.figures import in_system
from sites.survey_words import outline_name

SIZE, EDGE = 600.0, 46.0
_ENLARGED = (20, 10, 5, 2, 1)
_LARGEST_CIRCLE = 26.0
_STEPS_M = {"metric": (1, 2, 5, 10, 20, 50, 100, 200, 500), "us": tuple(
    feet * 0.3048 for feet in (5, 10, 20, 50, 100, 200, 500, 1000, 2000)
)}  # fmt: skip


@dataclass(frozen=True)
class SurveyDrawing:
    """``svg`` is empty where no point has a place; ``words`` say how circles are drawn."""

    svg: SafeString
    words: str


@dataclass(frozen=True)
class _Sheet:
    left: float
    top: float
    scale: float
    width: float
    height: float

    def place(self, at: XY) -> XY:
        return (
            round(EDGE + (at[0] - self.left) * self.scale, 1),
            round(EDGE + (self.top - at[1]) * self.scale, 1),
        )


def draw_survey(survey: PlaneSurvey, result: PlaneResult, system: str, *, tapes: bool) -> SurveyDrawing:
    """North is up. Weak points are diamonds with their error written beside, the others are dots."""
    walked = [at for walk in result.walks.values() for at in walk.path]
    everywhere = [*result.places.values(), *walked]
    if not everywhere:
        return SurveyDrawing(SafeString(""), "")
    sheet = _sheet(everywhere)
    times = _enlargement(result, sheet.scale)
    parts = [
        *_outlines(survey, result, sheet),
        *_walks(result, sheet),
        *(_tapes(survey, result, sheet) if tapes else ()),
        *_points(result, sheet, times, system),
        *_furniture(sheet, system),
    ]
    svg = format_html(
        '<svg class="ground-plan" viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>',
        f"{sheet.width:.0f}", f"{sheet.height:.0f}", _description(result),
        format_html_join("", "{}", ((part,) for part in parts)),
    )  # fmt: skip
    often = "true to scale" if times == 1 else f"drawn {times} times as large"
    return SurveyDrawing(svg, f"Circles show the likely error, {often}.")


def _description(result: PlaneResult) -> str:
    weak = ", ".join(point.point for point in result.weak)
    said = f"Plan of {len(result.marks)} marks and {len(result.points)} points."
    return f"{said} Unsure: {weak}." if weak else said


def _sheet(everywhere: list[XY]) -> _Sheet:
    left, bottom, right, top = bounds(everywhere)
    wide, high = max(right - left, 0.5), max(top - bottom, 0.5)
    scale = min((SIZE - 2 * EDGE) / wide, (SIZE - 2 * EDGE) / high)
    return _Sheet(left, top, scale, wide * scale + 2 * EDGE, high * scale + 2 * EDGE + 24)


def _enlargement(result: PlaneResult, scale: float) -> int:
    largest = max((point.error_m for point in result.points.values()), default=0.0) * scale
    return next((times for times in _ENLARGED if largest * times <= _LARGEST_CIRCLE), 1)


def _outlines(survey: PlaneSurvey, result: PlaneResult, sheet: _Sheet) -> Iterator[SafeString]:
    for number, outline in result.outlines.items():
        row = survey.outlines[number]
        path = " ".join(f"{x},{y}" for x, y in map(sheet.place, outline.points))
        tag = "polyline" if outline.is_open else "polygon"
        yield format_html('<{} class="becomes-{} kind-{}" points="{}"/>', tag, row.becomes, row.kind, path)
        if not outline.is_open:
            x, y = sheet.place(_middle(outline.points))
            yield format_html('<text class="of-outline" x="{}" y="{}">{}</text>', x, y, outline_name(row))


def _walks(result: PlaneResult, sheet: _Sheet) -> Iterator[SafeString]:
    for walk in result.walks.values():
        path = " ".join(f"{x},{y}" for x, y in map(sheet.place, walk.path))
        yield format_html('<polyline class="walked" points="{}"/>', path)


def _tapes(survey: PlaneSurvey, result: PlaneResult, sheet: _Sheet) -> Iterator[SafeString]:
    places = result.places
    pairs = [(mark, row.point) for row in survey.ties for mark in (row.first, row.second)]
    pairs += [(row.first, row.second) for row in survey.tapes]
    suspects = {
        frozenset((one.residual.distance.first, one.residual.distance.second))
        for one in result.residuals
        if one.is_suspect
    }
    for first, second in pairs:
        if first in places and second in places:
            (x1, y1), (x2, y2) = sheet.place(places[first]), sheet.place(places[second])
            how = "tape suspect" if frozenset((first, second)) in suspects else "tape"
            yield format_html('<line class="{}" x1="{}" y1="{}" x2="{}" y2="{}"/>', how, x1, y1, x2, y2)


def _points(result: PlaneResult, sheet: _Sheet, times: int, system: str) -> Iterator[SafeString]:
    middle = sheet.width / 2
    for name, at in result.marks.items():
        x, y = sheet.place(at)
        yield format_html('<rect class="mark" x="{}" y="{}" width="11" height="11"/>', x - 5.5, y - 5.5)
        yield _name(name, (x, y), middle, "of-mark")
    for point in result.points.values():
        x, y = sheet.place(point.at)
        radius = f"{max(3.0, min(200.0, point.error_m * sheet.scale * times)):.1f}"
        yield format_html('<circle class="error" cx="{}" cy="{}" r="{}"/>', x, y, radius)
        if point.weak:
            shape = f"{x},{y - 7} {x + 7},{y} {x},{y + 7} {x - 7},{y}"
            yield format_html('<polygon class="weak" points="{}"/>', shape)
            unsure = f"{point.point} unsure ±{in_system(point.error_m, 'length', system)}"
            yield _name(unsure, (x, y), middle, "of-weak")
        else:
            yield format_html('<circle class="point" cx="{}" cy="{}" r="4"/>', x, y)
            yield _name(point.point, (x, y), middle, "of-point")


def _name(text: str, at: XY, middle: float, css: str) -> SafeString:
    x, y = at
    anchor = "end" if x > middle and len(text) > 6 else "start"
    x = x - 10 if anchor == "end" else x + 10
    return format_html(
        '<text class="{}" x="{}" y="{}" text-anchor="{}">{}</text>',
        css,
        f"{x:.1f}",
        f"{y - 9:.1f}",
        anchor,
        text,
    )


def _furniture(sheet: _Sheet, system: str) -> Iterator[SafeString]:
    """A scale bar of a round length, and where north is."""
    wanted_m = (sheet.width - 2 * EDGE) / sheet.scale / 3
    steps = _STEPS_M["us" if system == "us" else "metric"]
    step_m = max((step for step in steps if step <= max(wanted_m, steps[0])), default=steps[0])
    y = sheet.height - 10
    end = EDGE + step_m * sheet.scale
    label = f"{step_m / 0.3048:.0f} ft" if system == "us" else f"{step_m:g} m"
    yield format_html('<path class="bar" d="M{} {}v-6M{} {}H{}v-6"/>', EDGE, y, EDGE, y, f"{end:.1f}")
    yield format_html('<text class="of-bar" x="{}" y="{}">{}</text>', f"{end + 6:.1f}", y, label)
    x = sheet.width - 22
    yield format_html('<path class="bar" d="M{} 34V10m-5 8l5 -8l5 8"/>', f"{x:.1f}")
    yield format_html('<text class="of-bar" x="{}" y="46" text-anchor="middle">N</text>', f"{x:.1f}")


def _middle(points: tuple[XY, ...]) -> XY:
    return (math.fsum(x for x, _ in points) / len(points), math.fsum(y for _, y in points) / len(points))
