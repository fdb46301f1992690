"""From JSON text, bytes or a dictionary to a Plan, or to a list of plain sentences."""

import json
from collections import Counter
from typing import Any, NoReturn

from pydantic import ValidationError

from design.document import Plan
from design.plan_rules import plan_problems
from design.problems import PlanInvalid, Problem
from design.translate_errors import problems_from_validation

MAX_BYTES = 1_000_000
MAX_ENTRIES = 500  # of any one list of entities, unless the next line says otherwise
MAX_BY_LIST = {
    "nodes": 1_000, "pipes": 1_200, "cables": 1_000, "cases": 100, "levels": 300,
    "areas": 100, "surfaces": 300, "services": 100, "sleeves": 100,
}  # fmt: skip
MAX_POINTS = {"ground": 10_000, "layout": 5_000}  # of all outlines and routes together
MAX_WALLS = 400  # sides of all buildings together: each is looked past from each head
MAX_PROBLEMS = 100


def load_plan(source: str | bytes | dict[str, Any]) -> Plan:
    """The plan that the JSON text, the bytes (UTF-8) or the dictionary describes.

    Raises PlanInvalid, whose ``problems`` name the entity and the field.
    """
    text = _as_text(source)
    data = parse_object(text)
    problems = list_length_problems(data)
    if problems:
        raise PlanInvalid(problems)
    try:
        plan = Plan.model_validate_json(text, strict=True)
    except ValidationError as error:
        raise PlanInvalid(problems_from_validation(error, data)[:MAX_PROBLEMS]) from None
    problems = plan_problems(plan)
    if problems:
        raise PlanInvalid(problems[:MAX_PROBLEMS])
    return plan


def parse_object(source: str | bytes | dict[str, Any]) -> dict[str, Any]:
    """The JSON object, at most as large as a plan may be, whatever is in it. Raises PlanInvalid."""
    data = _parse(_as_text(source))
    if not isinstance(data, dict):
        _refuse("A plan is one JSON object, in braces.")
    return data


def list_length_problems(data: dict[str, Any]) -> list[Problem]:
    """Lists of entities too long to be one garden, found before anything is built from them."""
    problems = []
    for part in ("ground", "supply", "layout"):
        block = data.get(part)
        for name, value in block.items() if isinstance(block, dict) else ():
            most = MAX_BY_LIST.get(name, MAX_ENTRIES)
            if isinstance(value, list) and len(value) > most:
                sentence = f"This list has {len(value)} entries; at most {most} are taken."
                problems.append(Problem(part, name, sentence))
        points = _count_points(block)
        if points > MAX_POINTS.get(part, points):
            sentence = f"All lines here have {points} points together; at most {MAX_POINTS[part]} are taken."
            problems.append(Problem(part, "", sentence))
    return [*problems, *_wall_problems(data.get("ground"))]


def _wall_problems(ground: Any) -> list[Problem]:
    surfaces = ground.get("surfaces") if isinstance(ground, dict) else None
    buildings = [
        surface.get("outline")
        for surface in (surfaces if isinstance(surfaces, list) else ())
        if isinstance(surface, dict) and surface.get("kind") == "building"
    ]
    walls = sum(len(outline) for outline in buildings if isinstance(outline, list))
    if walls <= MAX_WALLS:
        return []
    sentence = (
        f"All buildings have {walls} corners together; at most {MAX_WALLS} are taken. Draw them simpler."
    )
    return [Problem("ground", "surfaces", sentence)]


def _count_points(block: Any) -> int:
    """How many lists of two entries there are, at any depth."""
    count, queue = 0, [block]
    while queue:
        here = queue.pop()
        if isinstance(here, dict):
            queue += here.values()
        elif isinstance(here, list):
            if len(here) == 2 and not isinstance(here[0], list | dict):
                count += 1
            else:
                queue += here
    return count


def _as_text(source: str | bytes | dict[str, Any]) -> str:
    if isinstance(source, dict):
        try:
            source = json.dumps(source, allow_nan=False)
        except (TypeError, ValueError, RecursionError):
            _refuse("The plan holds something that JSON cannot carry, such as NaN or Infinity.")
    if len(source) > MAX_BYTES:
        _refuse(f"The plan is larger than {MAX_BYTES // 1_000_000} MB; leave out what is not part of it.")
    if isinstance(source, bytes):
        try:
            source = source.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            _refuse(f"The file is not UTF-8 text (byte {error.start}); save it as UTF-8.")
    return source.removeprefix("\ufeff")


def _parse(text: str) -> Any:
    if not text.strip():
        _refuse("The plan is empty.")
    try:
        return json.loads(text, parse_constant=_no_constant, object_pairs_hook=_no_repeats)
    except json.JSONDecodeError as error:
        _refuse(f"This is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.")
    except RecursionError:
        _refuse("The plan is nested too deeply.")
    except ValueError:
        _refuse("The plan holds a number too long to read.")


def _no_constant(name: str) -> NoReturn:
    _refuse(f"The plan holds {name}, which is no number; put the measured figure there.")


def _no_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        twice = Counter(name for name, _ in pairs).most_common(1)[0][0]
        entity = str(found.get("id", "plan"))
        raise PlanInvalid([Problem(entity, twice, f"“{twice}” is given twice; keep one.")])
    return found


def _refuse(sentence: str) -> NoReturn:
    raise PlanInvalid([Problem("plan", "", sentence)])
