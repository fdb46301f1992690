"""A plan without the entities that its problems name."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from design.document import Case, HeadNode, Layout, Plan
from design.problems import Problem
from design.unfinished import LISTS

FITTED = ("meter", "backflow")  # what a supply can be without


def without(plan: Plan, problems: Sequence[Problem]) -> Plan:
    """The plan without what the problems name.

    Of those that share an id the first stays, and a head that names an area which is not there
    only loses the name.
    """
    fields: dict[str, set[str]] = defaultdict(set)
    for problem in problems:
        fields[problem.entity].add(problem.field)
    if "nodes" in fields["layout"]:
        return bare(plan)
    kept, areas = _Kept(fields), {area.id for area in plan.ground.areas}
    blocks = {}
    for block, names in LISTS.items():
        here = getattr(plan, block)
        rows = {name: kept.of(getattr(here, name)) for name in names if name != "cases"}
        blocks[block] = here.model_copy(update=rows)
    nodes = [_without_area(node, fields, areas) for node in blocks["layout"].nodes]
    cases = _cases(plan.layout.cases, fields)
    blocks["layout"] = blocks["layout"].model_copy(update={"nodes": nodes, "cases": cases})
    fitted = {name: None for name in FITTED if name in fields["supply"]}
    return plan.model_copy(update={**blocks, "supply": plan.supply.model_copy(update=fitted)})


def bare(plan: Plan) -> Plan:
    """Ground, sleeves and notes only."""
    return plan.model_copy(update={"layout": Layout(notes=plan.layout.notes, sleeves=plan.layout.sleeves)})


class _Kept:
    """Which entities stay. What only shares its id with another stays once."""

    def __init__(self, fields: dict[str, set[str]]) -> None:
        self.fields, self.seen = fields, set[str]()

    def of(self, rows: Iterable[Any]) -> list[Any]:
        return [row for row in rows if self._stays(row)]

    def _stays(self, row: Any) -> bool:
        wrong = self.fields.get(row.id, set()) - {"open", "label"}
        if not wrong or (isinstance(row, HeadNode) and wrong == {"area"} and row.area is not None):
            return True
        is_first = row.id not in self.seen
        self.seen.add(row.id)
        return wrong == {"id"} and is_first


def _without_area(node: Any, fields: dict[str, set[str]], areas: set[str]) -> Any:
    lost = isinstance(node, HeadNode) and node.area not in (None, *areas) and "area" in fields[node.id]
    return node.model_copy(update={"area": None}) if lost else node


def _cases(cases: Iterable[Case], fields: dict[str, set[str]]) -> list[Case]:
    kept: dict[str, Case] = {}
    for case in cases:
        if "open" not in fields[case.label]:
            kept.setdefault(case.label, case)
    return list(kept.values())
