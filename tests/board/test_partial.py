"""From half-drawn documents to the largest plan that can be checked; each thing left out is named."""

import copy
import random

import pytest

from design.check import check
from design.document import Plan
from design.partial_check import check_document
from design.report import report_to_dict
from design.unfinished import empty_document, entities_of, load_unfinished
from hydraulics.limits import DEFAULT_LIMITS
from tests.design.book import BOOK, site_plan
from tests.sites.makers import plan_document


def judge(document):
    return check_document(load_unfinished(document), BOOK, DEFAULT_LIMITS)


def named(found):
    return {problem.entity for problem in found.problems}


def nodes_of(found):
    return {node.id for node in found.site.plan.layout.nodes}


@pytest.fixture
def s1():
    return plan_document()


@pytest.mark.parametrize("name", ["s1", "s2", "s3"])
def test_a_whole_plan_is_checked_as_ever(name):
    found = judge(plan_document(name))
    assert found.is_whole
    assert report_to_dict(found.report) == report_to_dict(check(site_plan(name), BOOK))


def test_nothing_drawn_yet_is_no_failure():
    found = judge(empty_document())
    assert found.report is None
    assert named(found) == {"supply"}
    assert judge({}).findings == ()


def test_a_head_that_no_pipe_leads_to_is_left_out_and_named(s1):
    s1["layout"]["nodes"].append({"id": "H99", "kind": "head", "at": [3, 3], "part": "rotary-6"})
    found = judge(s1)
    assert named(found) == {"H99"}
    assert "H99" not in nodes_of(found)
    assert report_to_dict(found.report) == report_to_dict(check(site_plan("s1"), BOOK))


def test_a_cut_pipe_leaves_out_what_lies_behind_it_and_says_so_of_each(s1):
    first = s1["layout"]["pipes"][0]["id"]
    s1["layout"]["pipes"] = s1["layout"]["pipes"][1:]
    found = judge(s1)
    left = {node["id"] for node in s1["layout"]["nodes"]} - nodes_of(found)
    assert left
    assert left <= named(found)
    assert first not in named(found)
    assert any("do not lead to the supply" in problem.sentence for problem in found.problems)


def test_a_valve_without_a_part_takes_its_zone_along(s1):
    valve = next(node for node in s1["layout"]["nodes"] if node["kind"] == "valve")
    del valve["part"]
    found = judge(s1)
    said = {problem.entity: problem.sentence for problem in found.problems}
    assert said[valve["id"]] == "Choose a part for it; until then it is left out."
    assert any(f"{valve['id']} at its end is left out" in sentence for sentence in said.values())
    assert found.report is not None


def test_without_a_pressure_the_ground_and_the_trench_are_still_judged(s1):
    whole = judge(s1)
    del s1["supply"]["static_kpa"]
    found = judge(s1)
    assert found.report is None
    assert named(found) == {"supply"}
    assert found.site.trench == whole.site.trench
    ground = [finding for finding in whole.findings if finding.code.startswith("trench.")]
    assert [finding for finding in found.findings if finding.code.startswith("trench.")] == ground


def test_readings_that_cannot_be_true_leave_the_ground(s1):
    s1["supply"]["tests"] = [{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 2400}]
    found = judge(s1)
    assert found.report is None
    assert named(found) == {"supply"}


def test_unknown_parts_areas_cases_and_double_ids(s1):
    head = next(node for node in s1["layout"]["nodes"] if node["kind"] == "head")
    head["area"] = "nowhere"
    s1["supply"]["meter"] = "no-such-meter"
    s1["layout"]["cases"] = [{"label": "odd", "open": ["nothing"]}]
    s1["ground"]["marks"] = [{"id": head["id"], "at": [0, 0]}]
    s1["ground"]["surfaces"].append(
        {"id": "bow", "kind": "paving", "outline": [[0, 0], [1, 1], [1, 0], [0, 1]]}
    )
    found = judge(s1)
    assert {"odd", "bow", "supply", head["id"]} <= named(found)
    assert found.site.plan.supply.meter is None
    assert found.report is not None


def test_a_head_with_a_wrong_area_only_loses_the_name(s1):
    head = next(node for node in s1["layout"]["nodes"] if node["kind"] == "head")
    head["area"] = "nowhere"
    found = judge(s1)
    assert head["id"] in nodes_of(found)
    assert named(found) == {head["id"]}


def test_a_field_that_no_plan_has_is_named():
    document = plan_document()
    document["ground"]["trees"] = []
    assert not judge(document).is_whole


@pytest.mark.parametrize("seed", range(30))
def test_whatever_is_missing_the_rest_is_a_sound_plan(s1, seed):
    """Entities taken out, fields taken away or filled with nonsense, at random: from memory, no source."""
    chance = random.Random(seed)
    document = copy.deepcopy(s1)
    for block, names in (
        ("ground", ("areas", "surfaces", "services")),
        ("layout", ("nodes", "pipes", "cables")),
    ):
        for name in names:
            for row in list(entities_of(document, block, name)):
                luck = chance.random()
                if luck < 0.08:
                    document[block][name].remove(row)
                elif luck < 0.2:
                    row[chance.choice(list(row))] = chance.choice([None, "x", [], {}, -1, "S", [[0, 0]]])
    found = judge(document)
    assert Plan.model_validate(found.site.plan.model_dump(by_alias=True)) == found.site.plan
    gone = {str(node.get("id")) for node in entities_of(document, "layout", "nodes")} - nodes_of(found)
    assert not gone or found.problems
