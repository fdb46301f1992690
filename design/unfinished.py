"""A document that is still being drawn: bounded and of the right shape, though no plan yet."""

import json
from typing import Any

from design.loading import list_length_problems, parse_object
from design.problems import PlanInvalid, Problem

MAX_DEPTH = 16  # a hole's corner lies eight deep
GROUND_LISTS = ("marks", "areas", "surfaces", "services", "levels")
LAYOUT_LISTS = ("nodes", "pipes", "cables", "cases", "sleeves", "notes")
LISTS = {"ground": GROUND_LISTS, "layout": LAYOUT_LISTS}


def empty_document() -> dict[str, Any]:
    """A plan/1 document without anything in it, a supply neither."""
    return {"format": "plan/1", **{block: {name: [] for name in names} for block, names in LISTS.items()}}


def load_unfinished(source: str | bytes | dict[str, Any]) -> dict[str, Any]:
    """The document as plain JSON values, whether or not it is a plan.

    Blocks are objects and the lists in them hold objects; it is within the bounds of a plan,
    and every text in it can be stored. Raises PlanInvalid.
    """
    data = parse_object(source)
    problems = [*list_length_problems(data), *_shape_problems(data)]
    if not problems:
        problems = [*_value_problems(data)]
    if problems:
        raise PlanInvalid(problems)
    return data


def entities_of(document: dict[str, Any], block: str, name: str) -> list[dict[str, Any]]:
    """One list of a document that ``load_unfinished`` took; empty where it is missing."""
    found: list[dict[str, Any]] = (document.get(block) or {}).get(name) or []
    return found


def ids_of(document: dict[str, Any]) -> set[str]:
    """Every id in a document that ``load_unfinished`` took."""
    return {
        str(row["id"])
        for block, names in LISTS.items()
        for name in names
        for row in entities_of(document, block, name)
        if row.get("id") is not None
    }


def _shape_problems(data: dict[str, Any]) -> list[Problem]:
    problems = []
    if data.get("format", "plan/1") != "plan/1":
        problems.append(Problem("plan", "format", "Only documents of the format plan/1 can be drawn here."))
    for block in ("ground", "supply", "layout"):
        here = {} if data.get(block) is None else data[block]
        if not isinstance(here, dict):
            problems.append(Problem(block, "", "This must be an object, in braces."))
            continue
        for name in LISTS.get(block, ()):
            rows = [] if here.get(name) is None else here[name]
            if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
                problems.append(Problem(block, name, "This must be a list of objects."))
    return problems


def _value_problems(data: dict[str, Any]) -> list[Problem]:
    """Nesting, NUL characters, half characters and numbers without an end: none can be stored."""
    queue: list[tuple[Any, int]] = [(data, 1)]
    while queue:
        here, depth = queue.pop()
        if depth > MAX_DEPTH:
            return [Problem("plan", "", "The plan is nested too deeply.")]
        if isinstance(here, dict):
            queue += ((item, depth + 1) for pair in here.items() for item in pair)
        elif isinstance(here, list):
            queue += ((item, depth + 1) for item in here)
        elif isinstance(here, str) and "\x00" in here:
            return [Problem("plan", "", "A text in the plan holds a NUL character; remove it.")]
    try:
        json.dumps(data, allow_nan=False, ensure_ascii=False).encode()
    except UnicodeEncodeError:
        return [Problem("plan", "", "A text in the plan holds characters that cannot be stored.")]
    except ValueError:
        return [Problem("plan", "", "The plan holds a number too large to be stored.")]
    return []
