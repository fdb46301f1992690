"""Plans with a solved report: the drawing takes them as they come from the check."""

import re
from xml.etree import ElementTree

import pytest

from design.check import check
from design.drawing import DrawingOptions, plan_drawing, pressure_path_chart, supply_chart, to_svg
from design.drawing.labels import _boxes
from design.loading import load_plan
from tests.design.book import BOOK, ROOT

PLANS = sorted([*ROOT.glob("demo/plans/*.json"), *ROOT.glob("tests/plans/*.json")])
OPTIONS = DrawingOptions(parts=BOOK)


@pytest.fixture(scope="module", params=PLANS, ids=lambda path: path.stem)
def checked(request):
    plan = load_plan(request.param.read_bytes())
    return plan, check(plan, BOOK)


def test_every_node_pipe_and_trench_is_on_it(checked):
    plan, report = checked
    svg = to_svg(plan_drawing(plan, report, OPTIONS))
    ElementTree.fromstring(svg)
    ids = set(re.findall(r'data-entity="([^"]+)"', svg))
    wanted = {n.id for n in plan.layout.nodes} | {p.id for p in plan.layout.pipes}
    wanted |= {a.id for a in plan.ground.areas} | {s.id for s in plan.ground.services}
    wanted |= {t.id for t in report.trench} | {c.id for c in report.cables}
    assert wanted <= ids


def test_no_label_covers_another_and_none_leaves_the_page(checked):
    drawing = plan_drawing(*checked, OPTIONS)
    labels = next(g for g in drawing.groups if g.kind == "labels").shapes
    # A mark keeps its letter even where there is no room: tapes are pulled from it.
    free = [label for label in labels if label.style != "label-strong"]
    boxes = [(label.text, box) for label in free for box in _boxes(label)]
    for index, (text, (left, top, right, bottom)) in enumerate(boxes):
        assert left >= 0
        assert right <= drawing.width
        for other, (x, y, r, b) in boxes[:index]:
            assert text == other or not (left < r and right > x and top < b and bottom > y), (text, other)


def test_charts_of_each_case(checked):
    plan, report = checked
    assert "nan" not in to_svg(supply_chart(plan, report, OPTIONS))
    for case in report.cases:
        chart = pressure_path_chart(plan, report, case.label, OPTIONS)
        if len(case.worst_path) > 1:
            assert chart is not None
            stations = [g.title for g in chart.groups if g.kind == "station"]
            assert [s.split(":")[0] for s in stations] == list(case.worst_path)
