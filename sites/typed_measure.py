"""One measure typed at the drawing board: read in any unit, asked about where it fits another only."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from design.survey.bearings import bearing_deg
from design.survey.readings import SurveyError
from hydraulics.catalogue import Catalogue, HeadPart
from hydraulics.errors import BadQuantity
from hydraulics.units import FACTORS, Quantity
from sites.errors import SitesError
from sites.figures import in_both
from sites.quantity_field import MAX_LENGTH, read_quantity, sentence

MeasureKind = Literal["length", "depth", "height", "angle", "reach", "slope"]
KINDS: tuple[MeasureKind, ...] = ("length", "depth", "height", "angle", "reach", "slope")
LIKELY_UNITS = {"metric": ("cm", "m", "mm", "ft", "in"), "us": ("ft", "in", "m", "cm", "mm")}
# common practice, no source: half of it is a radius of the family, or it is a diameter
DIAMETER_SHARE, LEAST_SHARE = 1.4, 0.4
# What one unit is of another: m and ft, L and US gal, bar and psi, in and mm, m2 and ft2.
SLIPS = ((3.28, "feet and metres"), (3.79, "litres and gallons"), (14.5, "psi and bar"),
         (25.4, "millimetres and inches"), (10.8, "square feet and square metres"))  # fmt: skip
SLIP_SHARE = 0.03
_SLOPE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:(%)|(°|deg)|[:/]\s*(\d+(?:[.,]\d+)?)|)")


class MeasureRefused(SitesError):
    """What was typed is no such measure; the message says what to type instead."""


@dataclass(frozen=True)
class Usual:
    """In metres: usual from ``low`` to ``high``, impossible outside ``least`` to ``most``."""

    name: str
    low: float
    high: float
    least: float
    most: float

    def holds(self, value_m: float) -> bool:
        return self.low <= abs(value_m) <= self.high


# All ranges: common practice, no source; what is possible is what a plan takes.
USUAL: dict[MeasureKind, Usual] = {
    "length": Usual("length on a garden", 0.05, 150, 0, 5000),
    "depth": Usual("depth", 0.05, 2.0, 0, 10),
    "height": Usual("height above or below the tap", 0, 15, -500, 500),
    "reach": Usual("throw", 0.5, 30, 0.01, 60),
}
BARE_UNIT = {"metric": "m", "us": "ft"}


@dataclass(frozen=True)
class Choice:
    text: str
    value: float
    shown: str


@dataclass(frozen=True)
class Question:
    sentence: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True)
class Measure:
    """``value`` is in m, in degrees, or for a slope in %."""

    value: float
    shown: str
    question: Question | None = None


def read_measure(kind: MeasureKind, text: str, system: str, part: HeadPart | None = None) -> Measure:
    """What was typed, a bare number in the units of ``system``. Raises MeasureRefused.

    ``part`` is the head whose throw a reach is.
    """
    if not text.strip():
        raise MeasureRefused("Type a figure first.")
    if len(text) > MAX_LENGTH:
        raise MeasureRefused(f"That is too long for one figure; type at most {MAX_LENGTH} characters.")
    if kind == "angle":
        return _angle(text)
    if kind == "slope":
        return _slope(text)
    return _length(kind, text, system, part)


def head_part(parts: Catalogue, code: str) -> HeadPart | None:
    part = parts.get(code)
    return part if isinstance(part, HeadPart) else None


def _angle(text: str) -> Measure:
    try:
        value = bearing_deg(text.strip().removesuffix("deg"))
    except SurveyError as error:
        raise MeasureRefused(str(error)) from None
    return Measure(value, f"{value:.4g}°")


def _slope(text: str) -> Measure:
    """In %, of '2 %', '1:50', '3°' or a bare number of per cent."""
    found = _SLOPE.fullmatch(text.strip())
    if found is None:
        raise MeasureRefused("Type a slope such as 2 %, 1:50 or 3°.")
    number, percent, degrees, run = found.groups()
    first = float(number.replace(",", "."))
    if run is not None and float(run.replace(",", ".")) == 0:
        raise MeasureRefused("A slope of 1:0 is a wall; type such as 1:50.")
    if degrees:
        value = 100 * math.tan(math.radians(min(first, 89)))
    else:
        value = 100 * first / float(run.replace(",", ".")) if run else first
    if value > 100:
        raise MeasureRefused(f"{value:.0f} % is steeper than a plan takes; at most 100 %.")
    shown = _slope_words(value)
    if percent or degrees or run or not 0 < value < 0.3:
        return Measure(value, shown)
    asked = Question(
        f"{shown} is hardly a slope. Did you mean {_slope_words(100 * value)}?",
        (
            Choice(f"{100 * value:g} %", 100 * value, _slope_words(100 * value)),
            Choice(f"{value:g} %", value, f"{shown}, as typed"),
        ),
    )
    return Measure(value, shown, asked)


def _slope_words(percent: float) -> str:
    return f"{percent:.3g} %" + (f" (1:{100 / percent:.0f})" if percent >= 0.1 else "")


def _length(kind: MeasureKind, text: str, system: str, part: HeadPart | None) -> Measure:
    bare = "in" if (kind, system) == ("depth", "us") else BARE_UNIT["us" if system == "us" else "metric"]
    try:
        typed = read_quantity(text, "length", bare)
    except BadQuantity as error:
        raise MeasureRefused(sentence(str(error))) from None
    if kind != "height" and typed.value_si < 0:
        raise MeasureRefused(f"A {USUAL[kind].name} is not less than nothing.")
    question = _question(kind, typed, is_bare=typed.text != " ".join(text.split()), part=part)
    usual = USUAL[kind]
    if question is None and not usual.least <= typed.value_si <= usual.most:
        raise MeasureRefused(f"{_shown(typed)} cannot be a {usual.name}. Look at the figure and its unit.")
    return Measure(typed.value_si, _shown(typed), question)


def _question(kind: MeasureKind, typed: Quantity, is_bare: bool, part: HeadPart | None) -> Question | None:
    usual = _usual(kind, part)
    if usual.holds(typed.value_si) or typed.value_si == 0:
        return None
    choices = [*_halved(kind, typed, part)]
    if is_bare:
        choices += _in_other_units(typed, usual)
    choices = choices or [*_slips(typed, part)]
    if not choices:
        return None
    possible = USUAL[kind]
    if possible.least <= typed.value_si <= possible.most:
        choices.append(Choice(typed.text, typed.value_si, f"{_shown(typed)}, as typed"))
    return Question(_asked(usual, typed, choices[0], kind, part), tuple(_told_apart(choices)))


def _usual(kind: MeasureKind, part: HeadPart | None) -> Usual:
    """The usual range, or for a reach what that head can throw, a quarter less by its screw."""
    if kind != "reach" or part is None:
        return USUAL[kind]
    throws = [row.throw_m for row in part.rows]
    least = part.min_throw_m or LEAST_SHARE * min(throws)
    return Usual(f"throw of “{part.label}”", least, DIAMETER_SHARE * max(throws), 0.01, 60)


def _halved(kind: MeasureKind, typed: Quantity, part: HeadPart | None) -> Iterator[Choice]:
    if kind != "reach" or part is None:
        return
    half = typed.value_si / 2
    if part.min_throw_m <= half <= 1.1 * max(row.throw_m for row in part.rows):
        yield _choice(half, typed.unit)


def _in_other_units(typed: Quantity, usual: Usual) -> Iterator[Choice]:
    number = typed.value_si / FACTORS["length"][typed.unit]
    for unit in LIKELY_UNITS["us" if typed.unit in ("ft", "in") else "metric"]:
        value = number * FACTORS["length"][unit]
        if unit != typed.unit and usual.holds(value):
            yield Choice(f"{number:g} {unit}", value, in_both(value, "length", unit))


def _slips(typed: Quantity, part: HeadPart | None) -> Iterator[Choice]:
    """The throw that was expected, where the figure is most nearly that by the factor of some unit."""
    near = [
        (abs(typed.value_si / slipped - 1), row.throw_m)
        for row in (part.rows if part else ())
        for factor, _ in SLIPS
        for slipped in (row.throw_m * factor, row.throw_m / factor)
    ]
    miss, throw_m = min(near, default=(1.0, 0.0))
    if miss <= SLIP_SHARE:
        yield _choice(throw_m, typed.unit)


def _asked(usual: Usual, typed: Quantity, first: Choice, kind: MeasureKind, part: HeadPart | None) -> str:
    shown = _shown(typed)
    if kind == "reach" and part is not None and first.value == typed.value_si / 2:
        most = max(row.throw_m for row in part.rows)
        reaches = in_both(most, "length", typed.unit)
        return f"“{part.label}” reaches {reaches}, and {shown} is more. Is that the diameter?"
    slip = next((words for factor, words in SLIPS if _is_slip(typed.value_si, first.value, factor)), "")
    why = f" It looks as if {slip} were mixed up." if slip and part is not None else ""
    return f"{shown} is a rare {usual.name}.{why} Did you mean {first.shown}?"


def _is_slip(value: float, other: float, factor: float) -> bool:
    ratio = max(value, other) / max(min(value, other), 1e-9)
    return abs(ratio / factor - 1) <= SLIP_SHARE


def _told_apart(choices: list[Choice]) -> Iterator[Choice]:
    seen: set[float] = set()
    for choice in choices:
        if round(choice.value, 3) not in seen:
            seen.add(round(choice.value, 3))
            yield choice


def _choice(value_m: float, unit: str) -> Choice:
    unit = "ft" if unit == "ft-in" else unit
    return Choice(
        f"{value_m / FACTORS['length'][unit]:.4g} {unit}", value_m, in_both(value_m, "length", unit)
    )


def _shown(typed: Quantity) -> str:
    return in_both(typed.value_si, "length", typed.unit)
