"""What readings of the ground say, ready for the page, and each row of them in one line."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from design.survey.document import Angle, Length, OutlineRow, PlaneSurvey
from design.survey.plane_outlines import Outline
from design.survey.reduce import PlaneResult, ReadResidual
from sites.survey_forms import BECOMES

_KINDS = {value: words for _, group in BECOMES for value, words in group}
_SHORT = {"boundary:fence": "fence", "boundary:neighbour": "property line"}


def outline_name(row: OutlineRow) -> str:
    """What stands on the plan: the name that was given, or what it is."""
    kind = f"{row.becomes}:{row.kind}"
    return row.label or _SHORT.get(kind) or _KINDS.get(kind, row.kind.replace("_", " "))


@dataclass(frozen=True)
class OutlineSaid:
    """An outline by the number of its row, beside what the wheel found."""

    number: int
    name: str
    outline: Outline

    @property
    def wheel(self) -> str:
        check = self.outline.wheel
        if check is None:
            return ""
        verdict = "agrees" if check.accepted else "does not agree: look for a point left out, or a side"
        return f"The wheel shows {check.wheel_m:.2f} m round it, {check.difference_pct:+.1f} %: {verdict}."


@dataclass(frozen=True)
class Said:
    outlines: tuple[OutlineSaid, ...]
    walks: tuple[str, ...]
    residuals: tuple[ReadResidual, ...]
    fit: str
    wheel: str


def said_of(survey: PlaneSurvey, result: PlaneResult) -> Said:
    return Said(
        tuple(_outlines(survey, result)),
        tuple(walk.sentence for walk in result.walks.values()),
        tuple(sorted(result.residuals, key=lambda one: -abs(one.residual.standardised))),
        _fit(result),
        f"The wheel's factor is {result.wheel.factor:.3f}." if result.wheel else "",
    )


def lines_of(survey: PlaneSurvey) -> dict[str, list[str]]:
    """Each row in one line, by kind: to set two versions side by side."""
    lists: dict[str, list[Any]] = {
        "Mark": survey.marks, "Tie": survey.ties, "Walk": survey.walks, "Offset": survey.offsets,
        "Tape": survey.tapes, "Outline": survey.outlines, "Wheel": [survey.wheel] if survey.wheel else [],
    }  # fmt: skip
    return {kind: [_line(row) for row in rows] for kind, rows in lists.items()}


def _outlines(survey: PlaneSurvey, result: PlaneResult) -> Iterator[OutlineSaid]:
    for number, outline in result.outlines.items():
        row = survey.outlines[number]
        yield OutlineSaid(number + 1, outline_name(row), outline)


def _fit(result: PlaneResult) -> str:
    if result.sigma0 is None:
        return ""
    if result.sigma0 <= 1.5:
        return "The tapes agree as well as tapes do."
    return f"The tapes disagree {result.sigma0:.1f} times as much as tapes should."


def _line(row: Any) -> str:
    return ", ".join(text for text in (_text(value) for value in vars(row).values()) if text)


def _text(value: Any) -> str:
    if isinstance(value, Length | Angle):
        return value.text
    if isinstance(value, list):
        return "; ".join(one if isinstance(one, str) else _line(one) for one in value)
    return "" if value in (None, False) else "yes" if value is True else str(value)
