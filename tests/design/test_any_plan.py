"""Whatever loads as a plan is checked, or refused with sentences: never an unexpected error."""

import copy
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from design.check import check
from design.loading import load_plan
from design.problems import PlanInvalid
from design.report import report_to_dict
from design.report_text import report_text
from tests.design.book import BOOK, ROOT

DOCUMENTS = [
    json.loads((ROOT / path).read_text("utf-8"))
    for path in ("tests/plans/s1.json", "tests/plans/s2.json", "demo/plans/quince-house.json")
]
places = st.tuples(st.floats(-40, 60), st.floats(-40, 60)).map(lambda p: [round(c, 2) for c in p])
CHANGES = ["move", "drop pipe", "part", "supply", "area", "level", "surface", "case"]
KINDS = ["building", "paving", "tree", "water", "future_work", "fence"]
HEADS = [code for code, part in BOOK.items() if part.kind == "head"]


@st.composite
def changed_documents(draw):
    """A sound document after a few rude changes."""
    document = copy.deepcopy(draw(st.sampled_from(DOCUMENTS)))
    layout, ground = document["layout"], document["ground"]
    for _ in range(draw(st.integers(1, 4))):
        change = draw(
            st.sampled_from(["move", "drop pipe", "part", "supply", "area", "level", "surface", "case"])
        )
        if change == "move":
            draw(st.sampled_from(layout["nodes"]))["at"] = draw(places)
        elif change == "drop pipe" and layout["pipes"]:
            layout["pipes"].remove(draw(st.sampled_from(layout["pipes"])))
        elif change == "part":
            heads = [node for node in layout["nodes"] if node["kind"] == "head"]
            draw(st.sampled_from(heads))["part"] = draw(st.sampled_from(HEADS))
        elif change == "supply":
            document["supply"]["static_kpa"] = draw(st.floats(1, 2500))
            document["supply"]["tests"] = draw(st.sampled_from([[], document["supply"]["tests"]]))
        elif change == "area":
            ground["areas"] = draw(st.sampled_from([[], ground["areas"][:1]]))
            for node in layout["nodes"]:
                if node["kind"] == "head" and BOOK[node["part"]].kind == "head":
                    node.pop("area", None)
        elif change == "level":
            ground.setdefault("levels", []).append({"at": draw(places), "z_m": draw(st.floats(-40, 40))})
        elif change == "surface":
            x, y = draw(places)
            kind = draw(st.sampled_from(["building", "paving", "tree", "water", "future_work", "fence"]))
            outline = [[x, y], [x + 9, y], [x + 9, y + 3], [x, y + 3]]
            ground["surfaces"].append(
                {"id": f"new{len(ground['surfaces'])}", "kind": kind, "outline": outline}
            )
        else:
            layout["cases"] = []
    return document


def outcome(document):
    """The report, or the problems for which there is none."""
    try:
        return check(load_plan(document), BOOK), ()
    except PlanInvalid as refused:
        return None, refused.problems


@given(changed_documents())
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_plan_is_checked_or_refused_with_sentences(document):
    report, problems = outcome(document)
    assert all(p.entity and p.sentence.endswith(".") for p in problems)
    if report is None:
        assert problems
        return
    text = json.dumps(report_to_dict(report), allow_nan=False)
    assert json.loads(text)["supply"]["binding"]
    assert report_text(report).endswith("\n")
    trench_m = sum(stretch.length_m for stretch in report.trench)
    assert trench_m <= sum(p.length_m for p in report.pipes) + sum(c.trench_m for c in report.cables) + 0.1


def test_a_plan_without_pipes_is_checked():
    report = check(load_plan({"format": "plan/1", "supply": DOCUMENTS[0]["supply"]}), BOOK)
    assert report.cases == ()
    assert report.supply.design_flow_lpm > 0


def test_readings_that_contradict_each_other_are_refused():
    document = copy.deepcopy(DOCUMENTS[0])
    document["supply"]["tests"] = [{"kind": "gauge", "flow_lpm": 30, "residual_kpa": 470}]
    with pytest.raises(PlanInvalid) as caught:
        check(load_plan(document), BOOK)
    (problem,) = caught.value.problems
    assert (problem.entity, problem.field) == ("supply", "tests")
