"""The measured ground and the walk of a demo visit, kept by the services as if somebody had typed them."""

from collections.abc import Mapping
from typing import Any

from hydraulics.units import Kind, parse_quantity
from office.models import Person
from sites.figures import default_unit
from sites.models import Visit
from sites.survey_services import save_survey
from sites.walk_round.lines import LINES
from sites.walk_round.services import LineAnswer, save_line

LENGTHS = ("east", "north", "distance", "first_tape", "second_tape", "tape", "taped", "shown", "way_round")


def load_ground(visit: Visit, data: Mapping[str, Any], by: Person) -> None:
    """``data`` is one entry of grounds.json: rows of a plane survey with lengths as text, and the sheet."""
    rows = {name: value for name, value in data.items() if name != "sheet"}
    save_survey(visit=visit, part="plane", document=_typed(rows, visit.site.units), began_from=0, by=by)
    lines = {line.key: line for line in LINES}
    for key, (text, confidence) in data["sheet"].items():
        line = lines[key]
        kind: Kind | None = line.usual.kind if line.usual else None
        unit = line.unit or (default_unit(kind, visit.site.units) if kind else "")
        quantity = parse_quantity(text, kind, unit) if kind else None
        answer = LineAnswer(text=text, quantity=quantity, confidence=confidence)
        save_line(visit=visit, line=line, answer=answer, began_from=0, by=by)


def _typed(value: Any, units: str, name: str = "") -> Any:
    """The same rows with each length as the survey keeps it: text beside metres."""
    if isinstance(value, dict):
        return {key: _typed(item, units, key) for key, item in value.items()}
    if isinstance(value, list):
        return [_typed(item, units) for item in value]
    if name not in LENGTHS:
        return value
    metres = parse_quantity(value, "length", default_unit("length", units)).value_si
    return {"text": value, "m": metres}
