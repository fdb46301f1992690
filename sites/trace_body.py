"""A picture drawn over, as the page sends and shows it: figures as typed, the rest as it is kept."""

from collections.abc import Iterator
from typing import Any

from django.core.exceptions import ValidationError

from design.problems import Problem
from hydraulics.errors import BadQuantity
from sites.errors import SurveyRefused
from sites.figures import default_unit
from sites.models import Picture
from sites.quantity_field import MAX_LENGTH, read_quantity, sentence
from sites.survey_fields import LONGEST_M, typed_bearing
from sites.survey_forms import BECOMES

Typed = dict[str, Any]
KINDS = frozenset(value for _, choices in BECOMES for value, _ in choices)
BARS = ("scale", "check")
# a corner may be set on the very edge
_SLACK_PX = 1.0


def read_trace(sent: Any, picture: Picture, units: str) -> Typed:
    """One trace of the survey document, from what the page sent. Raises SurveyRefused.

    A problem's entity is the part (``scale``, ``check``, an outline's id), its field the one in it.
    """
    if not isinstance(sent, dict):
        raise SurveyRefused((Problem("trace", "", "The drawing is missing; it is one JSON object."),))
    reading = _Reading(units)
    trace: Typed = {"picture": picture.pk, "slanted": sent.get("slanted") is True}
    for name in BARS:
        if isinstance(sent.get(name), dict):
            trace[name] = reading.bar(name, sent[name])
    trace["known"] = [_without_blanks(row) for row in _objects(sent, "known")]
    trace["outlines"] = [reading.outline(row) for row in _objects(sent, "outlines")]
    reading.problems += _outside(trace, picture)
    if reading.problems:
        raise SurveyRefused(tuple(reading.problems))
    return trace


def shown_trace(trace: Typed | None) -> Typed:
    """A kept trace as the page shows it, each figure as it was typed."""
    kept = trace or {}
    shown: Typed = {"slanted": bool(kept.get("slanted")), "known": kept.get("known", [])}
    for name in BARS:
        bar = kept.get(name)
        shown[name] = bar and {
            "first_px": bar["first_px"],
            "second_px": bar["second_px"],
            "first": bar.get("first") or "",
            "second": bar.get("second") or "",
            "length": _text(bar.get("length")),
            "bearing": _text(bar.get("bearing")),
        }
    shown["outlines"] = [
        {
            "id": row["id"],
            "label": row.get("label", ""),
            "becomes": row["becomes"],
            "kind": row.get("kind", ""),
            "pixels": row["pixels"],
            "depth": _text(row.get("depth")),
        }
        for row in kept.get("outlines", [])
    ]
    return shown


class _Reading:
    """Reads figures, and remembers what is wrong with them."""

    def __init__(self, units: str) -> None:
        self.unit = default_unit("length", units)
        self.problems: list[Problem] = []

    def bar(self, name: str, sent: Typed) -> Typed:
        found = {key: sent.get(key) for key in ("first_px", "second_px")}
        found |= {key: sent[key] for key in ("first", "second") if sent.get(key)}
        if length := self._length(name, "length", sent):
            found["length"] = length
        if text := _typed(sent.get("bearing")):
            try:
                found["bearing"] = typed_bearing(text)
            except ValidationError as error:
                self.problems.append(Problem(name, "bearing", " ".join(error.messages)))
        return found

    def outline(self, sent: Typed) -> Typed:
        found = {key: sent.get(key, "") for key in ("id", "label", "becomes", "kind", "pixels")}
        entity = str(found["id"])[:20] or "outline"
        if f"{found['becomes']}:{found['kind']}" not in KINDS:
            self.problems.append(Problem(entity, "kind", "Choose what this becomes."))
        if not _can_be_stored(found["label"]):
            self.problems.append(Problem(entity, "label", "It holds characters that cannot be stored."))
        if depth := self._length(entity, "depth", sent):
            found["depth"] = depth
        return found

    def _length(self, entity: str, field: str, sent: Typed) -> Typed | None:
        text = _typed(sent.get(field))
        if not text:
            return None
        try:
            found = read_quantity(text[: MAX_LENGTH + 1], "length", self.unit)
        except BadQuantity as error:
            self.problems.append(Problem(entity, field, sentence(str(error))))
            return None
        if not 0 < found.value_si <= LONGEST_M or len(text) > MAX_LENGTH:
            self.problems.append(Problem(entity, field, "Type a length above zero, no longer than a garden."))
            return None
        return {"text": found.text, "m": found.value_si}


def _outside(trace: Typed, picture: Picture) -> Iterator[Problem]:
    for name, pixels in _pixels(trace):
        for pixel in pixels if isinstance(pixels, list) else []:
            if not _is_in(pixel, picture):
                yield Problem(name, "", "A point lies outside the picture. Move it in.")
                break


def _pixels(trace: Typed) -> Iterator[tuple[str, Any]]:
    for name in BARS:
        if bar := trace.get(name):
            yield name, [bar["first_px"], bar["second_px"]]
    for row in trace["known"]:
        yield str(row.get("point"))[:20], [row.get("at_px")]
    for row in trace["outlines"]:
        yield str(row["id"])[:20], row["pixels"]


def _is_in(pixel: Any, picture: Picture) -> bool:
    if not isinstance(pixel, list) or len(pixel) != 2:
        return False
    if any(isinstance(value, bool) or not isinstance(value, int | float) for value in pixel):
        return False
    right, down = pixel
    slack = _SLACK_PX
    return -slack <= right <= picture.width + slack and -slack <= down <= picture.height + slack


def _objects(sent: Typed, name: str) -> list[Typed]:
    rows = sent.get(name)
    return [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []


def _without_blanks(row: Typed) -> Typed:
    return {"point": row.get("point"), "at_px": row.get("at_px")}


def _can_be_stored(value: Any) -> bool:
    return not isinstance(value, str) or not any(c == "\x00" or "\ud800" <= c <= "\udfff" for c in value)


def _typed(value: Any) -> str:
    return value.strip() if isinstance(value, str) else ""


def _text(figure: Typed | None) -> str:
    return str(figure["text"]) if figure else ""
