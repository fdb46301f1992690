"""Every length and angle of a plane survey by its place in it, and the survey with one of them changed."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from design.survey.document import Angle, Length, PlaneSurvey
from design.survey.plane_walks import TAPE_SHARE
from design.survey.readings import TAPE_SIGMA_M
from design.survey.traverse import BEARING_SIGMA_DEG, WHEEL_SHARE


class Reading(NamedTuple):
    """``path`` such as ties.3.first_tape, a label for people, the value and its likely error [m]."""

    path: str
    label: str
    value_m: float
    sigma_m: float


class Turning(NamedTuple):
    """A bearing or a turn, with its likely error [°]."""

    path: str
    label: str
    value_deg: float
    sigma_deg: float


def readings_of(survey: PlaneSurvey) -> list[Reading]:
    """All lengths that place points."""
    return [*_marks(survey), *_ties(survey), *_legs(survey), *_offsets(survey), *_tapes(survey)]


def bearings_of(survey: PlaneSurvey) -> list[Turning]:
    """All bearings and turns that place points."""
    found = [
        Turning(f"marks.{n}.bearing", f"bearing of {row.name}", row.bearing.deg, BEARING_SIGMA_DEG)
        for n, row in enumerate(survey.marks)
        if row.bearing
    ]
    for w, walk in enumerate(survey.walks):
        for n, leg in enumerate(walk.legs):
            for name, angle in (("bearing", leg.bearing), ("turn", leg.turn)):
                if angle:
                    label = f"{name} to {leg.point}"
                    found.append(Turning(f"walks.{w}.legs.{n}.{name}", label, angle.deg, BEARING_SIGMA_DEG))
    return found


def with_reading(survey: PlaneSurvey, path: str, value: float) -> PlaneSurvey:
    """The survey with that length [m] or angle [°] instead. Raises KeyError for a path that leads nowhere."""
    return _changed(survey, path.split("."), value)


def _changed(node: Any, steps: list[str], value: float) -> Any:
    if not steps:
        if isinstance(node, Length):
            return Length(text=f"{value:.4g} m", m=value)
        if isinstance(node, Angle):
            return Angle(text=f"{value:.4g}", deg=value)
        raise KeyError("That path leads to no reading.")
    step, *rest = steps
    if isinstance(node, list):
        if not step.isdecimal() or int(step) >= len(node):
            raise KeyError(f"There is no row {step}.")
        place = int(step)
        return [*node[:place], _changed(node[place], rest, value), *node[place + 1 :]]
    if not hasattr(node, step):
        raise KeyError(f"There is no {step}.")
    return node.model_copy(update={step: _changed(getattr(node, step), rest, value)})


def _marks(survey: PlaneSurvey) -> Iterator[Reading]:
    for n, row in enumerate(survey.marks):
        if row.off and row.distance:
            label = f"{row.name} from {row.off}"
            yield Reading(f"marks.{n}.distance", label, row.distance.m, TAPE_SIGMA_M)


def _ties(survey: PlaneSurvey) -> Iterator[Reading]:
    for n, row in enumerate(survey.ties):
        for name, mark, tape in (
            ("first_tape", row.first, row.first_tape),
            ("second_tape", row.second, row.second_tape),
        ):
            yield Reading(f"ties.{n}.{name}", f"tie {row.point} from {mark}", tape.m, TAPE_SIGMA_M)


def _legs(survey: PlaneSurvey) -> Iterator[Reading]:
    for w, walk in enumerate(survey.walks):
        share, before = (WHEEL_SHARE if walk.by_wheel else TAPE_SHARE), walk.start
        for n, leg in enumerate(walk.legs):
            label = f"leg {before} to {leg.point}"
            yield Reading(f"walks.{w}.legs.{n}.length", label, leg.length.m, share * abs(leg.length.m))
            before = leg.point


def _offsets(survey: PlaneSurvey) -> Iterator[Reading]:
    for n, row in enumerate(survey.offsets):
        yield Reading(f"offsets.{n}.chainage", f"chainage of {row.point}", row.chainage.m, TAPE_SIGMA_M)
        yield Reading(f"offsets.{n}.offset", f"offset of {row.point}", row.offset.m, TAPE_SIGMA_M)


def _tapes(survey: PlaneSurvey) -> Iterator[Reading]:
    for n, row in enumerate(survey.tapes):
        yield Reading(f"tapes.{n}.tape", f"tape {row.first} to {row.second}", row.tape.m, TAPE_SIGMA_M)
