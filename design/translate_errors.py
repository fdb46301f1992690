"""Validation errors of the typed model, said in plain sentences."""

from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from design.problems import Problem

SENTENCES = {
    "missing": "This is missing.",
    "extra_forbidden": "There is no such field here; check its spelling.",
    "string_type": "This must be text in quotes.",
    "string_unicode": "This text holds characters that cannot be stored.",
    "string_too_short": "This must not be empty.",
    "float_type": "This must be a number, without quotes.",
    "finite_number": "This must be a finite number.",
    "bool_type": "This must be true or false.",
    "list_type": "This must be a list, in square brackets.",
    "tuple_type": "This must be a point such as [3.5, 2.0].",
    "model_type": "This must be an object, in braces.",
    "model_attributes_type": "This must be an object, in braces.",
    "dict_type": "This must be an object, in braces.",
    "union_tag_not_found": "This needs a kind.",
    "recursion_loop": "This is nested too deeply.",
}


def problems_from_validation(error: ValidationError, data: Any) -> list[Problem]:
    """One problem per error, naming the entity by its id where it has one."""
    return [_problem(details, data) for details in error.errors(include_url=False, include_input=True)]


def _problem(details: ErrorDetails, data: Any) -> Problem:
    entity, field = place_of(details["loc"], data)
    if details["type"] in ("union_tag_not_found", "union_tag_invalid"):
        field = "kind"
    if details["type"] == "missing" and details["loc"][-1] in (0, 1):
        return Problem(entity, field, "This must be a point of two numbers, such as [3.5, 2.0].")
    return Problem(entity, field, _sentence(details))


def place_of(location: tuple[int | str, ...], data: Any) -> tuple[str, str]:
    """The entity and the field that a location in the document means.

    The model puts the tag of a union into the location as well; such a step is no key of
    the data and is passed over.
    """
    entity, field, here = "plan", "", data
    for place, step in enumerate(location):
        is_last = place == len(location) - 1
        if isinstance(here, dict) and (step in here or is_last):
            field = f"{field}.{step}" if field else str(step)
            here = here.get(step)
        elif isinstance(here, list) and isinstance(step, int):
            field = f"{field}[{step}]"
            here = here[step] if step < len(here) else None
        else:
            continue
        if isinstance(here, dict):
            entity, field = _name_of(here, entity, field), ""
    return entity, field


def _name_of(block: dict[str, Any], outer: str, field: str) -> str:
    for key in ("id", "label"):
        name = block.get(key)
        if isinstance(name, str) and 0 < len(name) <= 60:
            return name
    return field if outer == "plan" else f"{outer}.{field}"


def _sentence(details: ErrorDetails) -> str:
    kind, context = details["type"], details.get("ctx", {})
    if kind in SENTENCES:
        return SENTENCES[kind]
    if kind in ("literal_error", "union_tag_invalid"):
        expected = str(context.get("expected") or context.get("expected_tags"))
        return f"“{_short(details['input'], context)}” is not known here; use one of: {expected}."
    bounds = {
        "greater_than_equal": ("at least", "ge"),
        "greater_than": ("more than", "gt"),
        "less_than_equal": ("at most", "le"),
        "less_than": ("less than", "lt"),
    }
    if kind in bounds:
        words, key = bounds[kind]
        return f"{_short(details['input'], {})} is out of range: this must be {words} {context[key]:g}."
    if kind == "too_short":
        return f"This list needs at least {context['min_length']} entries."
    if kind == "too_long" and isinstance(details["input"], list) and context.get("max_length") == 2:
        return "This must be a point of two numbers, such as [3.5, 2.0]."
    if kind == "too_long":
        return f"This list has too many entries; at most {context['max_length']} are taken."
    if kind == "string_too_long":
        return f"This text is too long; at most {context['max_length']} characters are taken."
    if kind == "string_pattern_mismatch":
        return "Use letters, digits, dots, dashes and underscores only, and begin with a letter or digit."
    return f"{details['msg']}."


def _short(value: Any, context: Any) -> str:
    text = str(context.get("tag", value))
    return text if len(text) <= 40 else text[:39] + "…"
