"""An exported case runs in EPANET 2.3 (owa-epanet) with the same pressures and flows to 0.1 %."""

import json

import pytest

from design.check import check
from design.epanet_export import UnknownCase, export_case, export_case_file
from design.loading import load_plan
from tests.design.book import BOOK, ROOT, site_plan
from tests.design.engine import run_inp

TOLERANCE = 1e-3
PLANS = {
    "branched": ROOT / "tests/plans/s1.json",
    "terraces": ROOT / "tests/plans/s3.json",
    "own valves": ROOT / "tests/plans/s2.json",
    "looped": ROOT / "demo/plans/quince-house.json",
}


@pytest.mark.parametrize("name", PLANS)
def test_every_case_agrees_with_the_engine(name, tmp_path):
    plan = load_plan(PLANS[name].read_bytes())
    for case in check(plan, BOOK, with_coverage=False).cases:
        inp = export_case_file(plan, BOOK, case.label)
        run = run_inp(inp, tmp_path)
        for node, pressure in case.node_kpa.items():
            if node in inp.nodes:
                assert run.node_kpa[node] == pytest.approx(pressure, rel=TOLERANCE), (
                    case.label,
                    node,
                )
        for pipe in case.pipes:
            if pipe.id in inp.links:
                flow = run.link_lpm[pipe.id]
                assert flow == pytest.approx(pipe.flow_lpm, rel=TOLERANCE, abs=1e-3), (case.label, pipe.id)
        for head in case.heads:
            assert run.emitter_lpm[head.id] == pytest.approx(head.flow_lpm, rel=TOLERANCE), head.id


def test_an_unknown_case_is_refused_with_those_that_there_are():
    with pytest.raises(UnknownCase, match=r"Edge rows.*Middle row"):
        export_case(site_plan("s1"), BOOK, "Front")


def test_a_label_cannot_begin_a_section_of_the_file():
    document = json.loads(PLANS["branched"].read_bytes())
    valve = next(node["id"] for node in document["layout"]["nodes"] if node["kind"] == "valve")
    label = "Front\n[PIPES]\r\n[END]"
    document["layout"]["cases"] = [{"label": label, "open": [valve]}]
    text = export_case(load_plan(document), BOOK, label)
    assert "Case: Front [PIPES] [END]\n" in text
    assert [line for line in text.splitlines() if line.strip() == "[PIPES]"] == ["[PIPES]"]
