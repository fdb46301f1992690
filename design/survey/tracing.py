"""Outlines drawn over a picture, in site metres: by two known points, with a third as check.

Limits of the check, error by the pixel and by scale: common practice, no source.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from design.geometry import path_length, point_at, ring_area
from design.report import XY
from design.survey.document import Becomes, ScaleBar, Trace, TracedOutline
from design.survey.picture_fit import LEAST_KNOWN, PictureFit, fit_slanted, fit_two, misses_m
from design.survey.readings import TAPE_SIGMA_M, SurveyError, known
from design.survey.wheel import measure_outline

Verdict = Literal["good", "unsure", "do not use", "not checked"]

# common practice, no source: a corner is set within two pixels
CLICK_PX = 2.0
# common practice, no source: a check within 1 % is good, beyond 2 % the scale is not to be used
GOOD_PCT, WORST_PCT = 1.0, 2.0
# two lengths in directions this far apart tell a slant; nearer together they tell a wrong figure
_CROSSWISE_DEG = 30.0
_EAST_DEG = 90.0
# figures of millimetres say nothing of per cent
_LEAST_CHECK_M = 0.10
LEAST_AROUND, LEAST_ON_A_LINE = 3, 2


@dataclass(frozen=True)
class TracedShape:
    """An outline of the picture in metres; ``problem`` says why it has no corners, if it has none."""

    id: str
    label: str
    becomes: Becomes
    kind: str
    points: tuple[XY, ...]
    depth_m: float | None = None
    problem: str = ""

    @property
    def closed(self) -> bool:
        return self.becomes != "service"

    @property
    def length_m(self) -> float:
        """Way round, or length of a line [m]."""
        if len(self.points) < 2:
            return 0.0
        return path_length((*self.points, self.points[0]) if self.closed else self.points)

    @property
    def area_m2(self) -> float:
        return ring_area(self.points) if self.closed and len(self.points) > 2 else 0.0


@dataclass(frozen=True)
class TraceCheck:
    """What the check says of the scale: ``off_m`` and ``off_pct`` by which the picture differs."""

    off_m: float
    off_pct: float
    crosswise: bool

    @property
    def verdict(self) -> Verdict:
        off_pct = round(abs(self.off_pct), 6)  # adding floats must not move what is just at a limit
        if off_pct <= GOOD_PCT:
            return "good"
        return "unsure" if off_pct <= WORST_PCT else "do not use"


@dataclass(frozen=True)
class TraceResult:
    """``error_m`` is the likely error of a corner, at the worst of those drawn."""

    outlines: tuple[TracedShape, ...]
    error_m: float
    metres_per_pixel: float
    verdict: Verdict
    sentences: tuple[str, ...]
    fit: PictureFit

    @property
    def usable(self) -> bool:
        return self.verdict != "do not use"


@dataclass(frozen=True)
class _Seen:
    """A point of the survey where the picture shows it."""

    name: str
    pixel: XY
    place: XY


def reduce_trace(trace: Trace, places: Mapping[str, XY]) -> TraceResult:
    """The outlines in metres, with how far they may be trusted. ``places`` are the survey's points.

    Raises SurveyError where the picture has no scale yet, or one that cannot be.
    """
    seen = _seen(trace, places)
    if trace.slanted:
        return _by_slant(trace, seen)
    if trace.scale is None:
        raise SurveyError("The picture has no scale yet. Mark two points of it whose distance you know.")
    pixels = (trace.scale.first_px, trace.scale.second_px)
    ground = scale_ends(trace.scale, places)
    fit = fit_two(pixels, ground)
    check = _checked(fit, trace, places)
    return _result(trace, fit, check, tuple(_of_two(fit, trace, places, check, seen)))


def scale_ends(bar: ScaleBar, places: Mapping[str, XY]) -> tuple[XY, XY]:
    """Where the two points of a scale lie [m]: the survey's points, or a length from the first one.

    Without a point the first lies at 0, 0; without a bearing the second lies due east of it.
    """
    if bar.first and bar.second:
        return known(places, bar.first), known(places, bar.second)
    if bar.length is None or not bar.length.m > 0:
        raise SurveyError("Type the distance between the two points, or choose both from the survey.")
    bearing = bar.bearing.deg if bar.bearing else _EAST_DEG
    if bar.second and not bar.first:
        second = known(places, bar.second)
        return point_at(second, bearing + 180, bar.length.m), second
    first = known(places, bar.first) if bar.first else (0.0, 0.0)
    return first, point_at(first, bearing, bar.length.m)


def can_be_slanted(trace: Trace, places: Mapping[str, XY]) -> bool:
    """Whether the picture shows enough of the survey's points to undo a slant."""
    return len({one.name for one in _seen(trace, places)}) >= LEAST_KNOWN


def _seen(trace: Trace, places: Mapping[str, XY]) -> list[_Seen]:
    """The survey's points that were marked in the picture, each once."""
    found: dict[str, _Seen] = {}
    for bar in (trace.scale, trace.check):
        for name, pixel in ((bar.first, bar.first_px), (bar.second, bar.second_px)) if bar else ():
            if name and name in places:
                found.setdefault(name, _Seen(name, pixel, places[name]))
    for one in trace.known:
        if one.point in places:
            found.setdefault(one.point, _Seen(one.point, one.at_px, places[one.point]))
    return list(found.values())


def _by_slant(trace: Trace, seen: Sequence[_Seen]) -> TraceResult:
    pixels, ground = [one.pixel for one in seen], [one.place for one in seen]
    fit = fit_slanted(pixels, ground)
    check = _checked(fit, trace, {one.name: one.place for one in seen}, only_lengths=True)
    said = [f"The slant is undone by {len(seen)} known points."]
    if len(seen) == LEAST_KNOWN:
        said.append("Four points fit any picture: mark a fifth, or a length, to check them.")
    else:
        misses = misses_m(fit, pixels, ground)
        worst = max(range(len(seen)), key=lambda place: misses[place])
        check = check or _by_misses(misses, ground, len(seen))
        said.append(f"They are met within {misses[worst]:.2f} m, the worst at {seen[worst].name}.")
    return _result(trace, fit, check, (*said, *_of_check(check)))


def _by_misses(misses: Sequence[float], ground: Sequence[XY], count: int) -> TraceCheck:
    """Many points check each other: their spare misses against the width of the ground that they span."""
    spare = 2 * count - 8
    off_m = math.sqrt(sum(miss**2 for miss in misses) / spare)
    wide_m = max(math.dist(a, b) for a in ground for b in ground)
    return TraceCheck(off_m, 100 * off_m / wide_m, crosswise=True)


def _checked(
    fit: PictureFit, trace: Trace, places: Mapping[str, XY], only_lengths: bool = False
) -> TraceCheck | None:
    bar = trace.check
    if bar is None:
        return None
    if bar.length is not None:
        true_m = bar.length.m
    elif bar.first and bar.second and not only_lengths:
        true_m = math.dist(known(places, bar.first), known(places, bar.second))
    else:
        return None
    if true_m < _LEAST_CHECK_M:
        raise SurveyError("The check is too short to tell anything. Take a length of some metres.")
    shown_m = math.dist(fit.ground(bar.first_px), fit.ground(bar.second_px))
    crosswise = trace.scale is not None and _apart_deg(trace.scale, bar) >= _CROSSWISE_DEG
    return TraceCheck(shown_m - true_m, 100 * (shown_m / true_m - 1), crosswise)


def _apart_deg(first: ScaleBar, second: ScaleBar) -> float:
    """The angle between two lines of the picture, at most 90."""
    angles = [
        math.atan2(bar.second_px[1] - bar.first_px[1], bar.second_px[0] - bar.first_px[0])
        for bar in (first, second)
    ]
    apart = abs(math.degrees(angles[0] - angles[1])) % 180
    return min(apart, 180 - apart)


def _of_two(
    fit: PictureFit,
    trace: Trace,
    places: Mapping[str, XY],
    check: TraceCheck | None,
    seen: Sequence[_Seen],
) -> Iterator[str]:
    yield from _of_scale(trace.scale, places)
    yield from _of_check(check)
    for one in seen:
        off_m = math.dist(fit.ground(one.pixel), one.place)
        if off_m > TAPE_SIGMA_M + CLICK_PX * fit.metres_per_pixel(one.pixel):
            yield f"{one.name} lies {off_m:.2f} m from where the survey has it."
    if check is not None and check.crosswise and check.verdict != "good":
        yield "Lengths differ by direction: the picture was probably taken at a slant." + (
            " Its known points can undo that."
            if can_be_slanted(trace, places)
            else " Mark four points of the survey in it, and the slant can be undone."
        )


def _of_scale(bar: ScaleBar | None, places: Mapping[str, XY]) -> Iterator[str]:
    """Two known points with a length typed as well: whether it is theirs."""
    if bar and bar.first and bar.second and bar.length is not None:
        apart_m = math.dist(known(places, bar.first), known(places, bar.second))
        if abs(apart_m - bar.length.m) > max(3 * TAPE_SIGMA_M, GOOD_PCT / 100 * apart_m):
            yield (
                f"{bar.first} and {bar.second} lie {apart_m:.2f} m apart in the survey, not "
                f"{bar.length.m:.2f} m as typed. The survey's distance is used."
            )


def _of_check(check: TraceCheck | None) -> Iterator[str]:
    if check is None:
        yield "Nothing checks the scale yet. Mark a second known distance, best across the first."
        return
    said = f"The check differs by {abs(check.off_m):.2f} m ({abs(check.off_pct):.1f} %)"
    if check.verdict == "good":
        yield f"{said}: good."
    elif check.verdict == "unsure":
        yield f"{said}: unsure. Measure one more length on the ground before you dig by it."
    else:
        yield f"{said}: do not use this picture by this scale. Look at both lengths and all four points."


def _result(
    trace: Trace, fit: PictureFit, check: TraceCheck | None, sentences: tuple[str, ...]
) -> TraceResult:
    shapes = tuple(_shape(fit, one) for one in trace.outlines)
    drawn = [
        pixel
        for shape, one in zip(shapes, trace.outlines, strict=True)
        for pixel in one.pixels
        if not shape.problem
    ]
    looked_at = drawn or _anchors(trace)
    share = _scale_share(fit, trace, check)
    return TraceResult(
        shapes,
        max(_error_m(fit, _anchors(trace), pixel, share) for pixel in looked_at),
        max(fit.metres_per_pixel(pixel) for pixel in looked_at),
        check.verdict if check else "not checked",
        sentences,
        fit,
    )


def _shape(fit: PictureFit, one: TracedOutline) -> TracedShape:
    depth_m = one.depth.m if one.depth else None
    points: tuple[XY, ...] = ()
    problem = ""
    least = LEAST_ON_A_LINE if one.becomes == "service" else LEAST_AROUND
    try:
        points = tuple(fit.ground(pixel) for pixel in one.pixels)
        if len(points) < least:
            problem = f"{one.label or 'This outline'} has {len(points)} of the {least} corners that it needs."
        elif one.becomes != "service":
            measure_outline(points)
    except SurveyError as error:
        problem = f"{one.label or 'This outline'}: {error}"
    return TracedShape(one.id, one.label, one.becomes, one.kind, points, depth_m, problem)


def _anchors(trace: Trace) -> list[XY]:
    """Where the picture is held to the ground."""
    held = [trace.scale.first_px, trace.scale.second_px] if trace.scale else []
    return held + [one.at_px for one in trace.known]


def _error_m(fit: PictureFit, anchors: Sequence[XY], pixel: XY, share: float) -> float:
    """Likely error of a corner [m]: of setting it, and of the scale over its way from the nearest anchor."""
    place = fit.ground(pixel)
    away_m = min(math.dist(place, fit.ground(anchor)) for anchor in anchors)
    return math.hypot(CLICK_PX * fit.metres_per_pixel(pixel), share * away_m)


def _scale_share(fit: PictureFit, trace: Trace, check: TraceCheck | None) -> float:
    """By what share of a length the scale may be wrong: its own two ends, or what the check says."""
    share = abs(check.off_pct) / 100 if check else 0.0
    if trace.scale is None:
        return share
    ends = (trace.scale.first_px, trace.scale.second_px)
    apart_m = math.dist(*(fit.ground(end) for end in ends))
    if math.dist(*ends) < 1 or apart_m == 0:
        return share
    return max(share, math.hypot(CLICK_PX * math.sqrt(2) / math.dist(*ends), TAPE_SIGMA_M / apart_m))
