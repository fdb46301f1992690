"""From a document that is still being drawn, the largest plan that can be checked.

What is not finished, or not connected, is left out, and a problem names it.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from design.document import Cable, Pipe, Plan
from design.partial_without import bare, without
from design.plan_rules import plan_problems
from design.problems import PlanInvalid, Problem
from design.site import Site
from design.translate_errors import problems_from_validation
from design.unfinished import LISTS, entities_of, ids_of
from hydraulics.catalogue import Catalogue
from hydraulics.limits import Limits

MAX_ROUNDS = 12
MAX_PROBLEMS = 100
# stands in for a supply that nobody has measured; nothing about water is worked out from it
STAND_IN = {"at": [0, 0], "static_kpa": 300}
NO_SUPPLY = "Nobody has measured a pressure here yet, so nothing is said about water: write down a visit."
NOT_JOINED = "The pipes drawn here do not lead to the supply yet; until then it is left out."
NO_START = "There is no supply yet; set it where the pipes begin."


@dataclass(frozen=True)
class Partial:
    """``has_supply`` false: the plan's supply is a stand-in, and nothing may be said about water."""

    site: Site
    has_supply: bool
    problems: tuple[Problem, ...]


def partial_site(document: dict[str, Any], parts: Catalogue, limits: Limits) -> Partial:
    """The part of a document, as ``load_unfinished`` gave it, that can be measured."""
    plan, has_supply, problems = _typed(document)
    words, gone = _Words(document), ids_of(document) - _plan_ids(plan)
    for _ in range(MAX_ROUNDS):
        site, found = _measured(plan, parts, limits)
        if site is not None:
            return Partial(site, has_supply, tuple(problems[:MAX_PROBLEMS]))
        problems += words.said(found, plan, gone)
        plan = without(plan, found)
        gone = ids_of(document) - _plan_ids(plan)
    problems.append(Problem("layout", "", "Too much is unfinished here to check any pipe."))
    return Partial(Site(bare(plan), parts, limits), has_supply, tuple(problems[:MAX_PROBLEMS]))


def _measured(plan: Plan, parts: Catalogue, limits: Limits) -> tuple[Site | None, list[Problem]]:
    problems = plan_problems(plan)
    if problems:
        return None, problems
    try:
        return Site(plan, parts, limits), []
    except PlanInvalid as error:
        return None, list(error.problems)


def _typed(document: dict[str, Any]) -> tuple[Plan, bool, list[Problem]]:
    """Every entity that is complete by itself, as a plan; and whether the supply is."""
    data: dict[str, Any] = {"format": "plan/1", "supply": document.get("supply")}
    data |= {
        block: {name: list(entities_of(document, block, name)) for name in names}
        for block, names in LISTS.items()
    }
    has_supply, problems = isinstance(data["supply"], dict), list[Problem]()
    if not has_supply:
        problems.append(Problem("supply", "static_kpa", NO_SUPPLY))
        data["supply"] = STAND_IN
    try:
        return _validated(data), has_supply, problems
    except ValidationError as error:
        problems += _named(error, data)
        places = {details["loc"][:3] for details in error.errors(include_url=False, include_input=False)}
    if any(place[0] == "supply" for place in places):
        has_supply, data["supply"] = False, STAND_IN
    for block, names in LISTS.items():
        for name in names:
            rows = data[block][name]
            data[block][name] = [row for at, row in enumerate(rows) if (block, name, at) not in places]
    return _validated(data), has_supply, problems


def _validated(data: dict[str, Any]) -> Plan:
    return Plan.model_validate_json(json.dumps(data), strict=True)


def _named(error: ValidationError, data: dict[str, Any]) -> Iterator[Problem]:
    for problem in problems_from_validation(error, data):
        if problem.entity == "supply" or problem.field.startswith("supply"):
            missing = problem.field == "static_kpa" and problem.sentence == "This is missing."
            yield replace(problem, entity="supply", sentence=NO_SUPPLY if missing else problem.sentence)
        elif problem.field == "part" and problem.sentence == "This is missing.":
            yield replace(problem, sentence="Choose a part for it; until then it is left out.")
        else:
            yield problem


class _Words:
    """Problems in words that fit what is only left out for now."""

    def __init__(self, document: dict[str, Any]) -> None:
        drawn = [pipe.get(end) for pipe in entities_of(document, "layout", "pipes") for end in ("from", "to")]
        self.joined = {name for name in drawn if isinstance(name, str)}

    def said(self, problems: list[Problem], plan: Plan, gone: set[str]) -> Iterator[Problem]:
        """``gone`` are the ids that the document has and the plan has no more."""
        runs: list[Pipe | Cable] = [*plan.layout.pipes, *plan.layout.cables]
        ends = {(run.id, field): end for run in runs for field, end in (("from", run.from_), ("to", run.to))}
        for problem in problems:
            end = ends.get((problem.entity, problem.field))
            if problem.entity == "layout" and problem.field == "nodes":
                yield Problem("supply", "at", NO_START)
            elif end in gone:
                yield replace(problem, sentence=f"{end} at its end is left out for now, and so is this.")
            elif problem.sentence.startswith("No pipe") and problem.entity in self.joined:
                yield replace(problem, sentence=NOT_JOINED)
            else:
                yield problem


def _plan_ids(plan: Plan) -> set[str]:
    return {
        row.id
        for block, names in LISTS.items()
        for name in names
        if name != "cases"
        for row in getattr(getattr(plan, block), name)
        if row.id is not None
    }
