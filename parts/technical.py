"""Technical data of a part: validated against the catalogue's models, refused in plain sentences."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from design.problems import Problem
from design.translate_errors import problems_from_validation
from hydraulics.catalogue import PART_ADAPTER, Part

# What each kind of part is called on a page.
KIND_NAMES = {
    "pipe": "Pipe",
    "head": "Head",
    "drip": "Drip line",
    "valve": "Valve",
    "backflow": "Backflow device",
    "meter": "Water meter",
    "cable": "Cable",
    "controller": "Controller",
    "fitting": "Fitting",
    "sundry": "Sundry",
}
# Where a new part of that kind is filed at first.
USUAL_CATEGORY = {
    "pipe": "pipe", "head": "heads", "drip": "heads", "valve": "valves", "backflow": "backflow",
    "meter": "backflow", "cable": "control", "controller": "control", "fitting": "fittings",
    "sundry": "sundries",
}  # fmt: skip


class PartInvalid(ValueError):
    """The data describe no part; ``problems`` name the field and say what to do."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        super().__init__("; ".join(str(problem) for problem in problems))


def validate_data(data: object) -> Part:
    """The part that the data describe, or PartInvalid."""
    if not isinstance(data, Mapping):
        raise PartInvalid([Problem("part", "data", "The technical data must be an object, in braces.")])
    try:
        part = PART_ADAPTER.validate_python(_lists_as_tuples(data))
    except ValidationError as error:
        raise PartInvalid(_tidy(problems_from_validation(error, data))) from None
    if "\x00" in PART_ADAPTER.dump_json(part).decode().replace("\\u0000", "\x00"):
        raise PartInvalid([Problem("part", "data", "The text holds a NUL character; remove it.")])
    return part


def dump_data(part: Part) -> dict[str, Any]:
    """The data as stored: what differs from the defaults, with the kind."""
    return {"kind": part.kind, **PART_ADAPTER.dump_python(part, mode="json", exclude_defaults=True)}


def _tidy(problems: list[Problem]) -> list[Problem]:
    """Named after the part, said plainly, and without what only follows from another problem."""
    rows = {problem.entity.split("[")[0] for problem in problems if "[" in problem.entity}
    return [_named(problem) for problem in problems if problem.field not in rows]


def _named(problem: Problem) -> Problem:
    entity = "part" if problem.entity == "plan" else problem.entity
    sentence = problem.sentence.removeprefix("Value error, ")
    if "valid number" in sentence:
        sentence = "This must be a number."
    elif "valid integer" in sentence:
        sentence = "This must be a whole number."
    return Problem(entity, problem.field, sentence[0].upper() + sentence[1:])


def _lists_as_tuples(value: Any) -> Any:
    """JSON has lists only; strictness about list or tuple would help nobody."""
    if isinstance(value, Mapping):
        return {key: _lists_as_tuples(item) for key, item in value.items()}
    return tuple(_lists_as_tuples(item) for item in value) if isinstance(value, list) else value
