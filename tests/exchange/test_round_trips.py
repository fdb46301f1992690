"""What goes out comes back: our own GeoJSON to the same ground, our DXF to the same lines."""

import io
import json
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from ezdxf import bbox
from hypothesis import given, settings
from hypothesis import strategies as st

from design.canonical import dump_plan
from design.document import Plan
from design.exchange.becomes import SAME, likely
from design.exchange.dxf_in import read_dxf
from design.exchange.dxf_out import dxf_text_of
from design.exchange.geojson_in import read_geojson
from design.exchange.geojson_out import geojson_text
from design.exchange.ground_from import ground_from
from design.exchange.placing import Placing, placed
from design.exchange.unit_guess import guess_unit
from design.loading import load_plan

ROOT = Path(__file__).resolve().parents[2]
PLANS = sorted([*(ROOT / "tests/plans").glob("s*.json"), *(ROOT / "demo/plans").glob("*.json")])


def ground_of(plan):
    return {name: rows for name, rows in dump_plan(plan)["ground"].items() if rows}


def reread(plan, origin=None):
    shapes = read_geojson(geojson_text(plan, origin).encode())
    becomes = {layer.name: SAME for layer in shapes.layers}
    return ground_from(placed(shapes, Placing(shapes.unit)), becomes, "plan.geojson").ground


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
@pytest.mark.parametrize("origin", [None, (11.5, 48.1), (-179.9999, -60.0)])
def test_our_geojson_comes_back_as_the_same_ground(path, origin):
    plan = load_plan(path.read_bytes())
    assert reread(plan, origin) == ground_of(plan)


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_what_our_geojson_is_needs_no_choice(path):
    shapes = read_geojson(geojson_text(load_plan(path.read_bytes())).encode())
    assert {likely(layer) for layer in shapes.layers} == {SAME}
    assert guess_unit(shapes).sure


METRE = st.integers(-300_000, 300_000).map(lambda n: n / 1000)


@st.composite
def grounds(draw):
    x, y, wide, tall = draw(METRE), draw(METRE), draw(st.floats(4, 50)), draw(st.floats(4, 50))
    wide, tall = round(wide, 3), round(tall, 3)
    box = [[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]]
    hole = [[x + 1, y + 1], [x + 2, y + 1], [x + 2, y + 2]]
    box = [[round(a, 3), round(b, 3)] for a, b in (box if draw(st.booleans()) else box[::-1])]
    hole = [[round(a, 3), round(b, 3)] for a, b in (hole if draw(st.booleans()) else hole[::-1])]
    label = draw(st.text(st.characters(blacklist_categories=["Cs", "Cc"]), max_size=20))
    path = draw(st.lists(st.tuples(METRE, METRE), min_size=2, max_size=6))
    ground = {
        "areas": [{"id": "a", "label": label, "cover": "bed", "outline": box, "holes": [hole]}],
        "services": [
            {"id": "s", "kind": "gas", "path": path, "depth_m": 0.6, "located": draw(st.booleans())}
        ],
        "levels": [{"at": [x, y], "z_m": draw(st.integers(-500, 500))}],
        "marks": [{"id": "m", "label": label, "at": [x, y]}],
    }
    return Plan.model_validate(
        {"format": "plan/1", "ground": ground, "supply": {"at": [0, 0], "static_kpa": 300}}
    )


@settings(deadline=None, max_examples=60)
@given(grounds(), st.none() | st.tuples(st.floats(-180, 180), st.floats(-80, 80)))
def test_any_ground_comes_back(plan, origin):
    assert reread(plan, origin) == ground_of(plan)


def test_outlines_follow_the_right_hand_rule():
    """RFC 7946 section 3.1.6: exterior rings are counterclockwise, interior rings are clockwise, closed."""
    plan = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    whole = json.loads(geojson_text(plan))
    polygons = [f["geometry"] for f in whole["features"] if (f["geometry"] or {}).get("type") == "Polygon"]
    assert polygons
    for polygon in polygons:
        for number, ring in enumerate(polygon["coordinates"]):
            assert ring[0] == ring[-1]
            twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))
            assert (twice > 0) == (number == 0)
    assert "not longitude and latitude" in whole["site_plane"]["note"]


def read_back(plan):
    return ezdxf.read(io.StringIO(dxf_text_of(plan)))


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_the_audit_of_the_library_finds_nothing_in_our_dxf(path):
    document = read_back(load_plan(path.read_bytes()))
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    assert document.header["$INSUNITS"] == 6


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_our_dxf_has_each_thing_where_it_is(path):
    plan = load_plan(path.read_bytes())
    space = read_back(plan).modelspace()
    heads = [node for node in plan.layout.nodes if node.kind == "head"]
    circles = [(c.dxf.center.x, c.dxf.center.y) for c in space.query('CIRCLE[layer=="Heads"]')]
    assert circles == pytest.approx([pytest.approx(tuple(node.at)) for node in heads])
    pipes = [p for p in space.query("LWPOLYLINE") if p.dxf.layer.startswith("Pipes ")]
    assert len(pipes) == len(plan.layout.pipes)
    # ezdxf's own measuring of what is drawn, against the plan's outlines
    lawns = [area for area in plan.ground.areas if area.cover == "turf"]
    if lawns:
        box = bbox.extents(space.query('LWPOLYLINE[layer=="Lawn"]'))
        xs = [x for lawn in lawns for x, _ in lawn.outline]
        assert (box.extmin.x, box.extmax.x) == pytest.approx((min(xs), max(xs)))


def test_our_dxf_comes_back_as_the_same_outlines():
    plan = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    shapes = read_dxf(dxf_text_of(plan).encode())
    assert shapes.unit == "m"
    found = {shape.points for shape in shapes.shapes if shape.layer == "Building"}
    assert found == {tuple(s.outline) for s in plan.ground.surfaces if s.kind == "building"}


def test_an_arc_of_a_head_runs_as_its_bearings_do():
    """From north by 90 degrees clockwise is the quadrant of 0 to 90 against the clock."""
    plan = Plan.model_validate(
        {"format": "plan/1", "supply": {"at": [0, 0], "static_kpa": 300},
         "layout": {"nodes": [{"id": "H", "kind": "head", "at": [5, 5], "part": "x", "from_deg": 0,
                               "sweep_deg": 90, "reach_m": 4}]}}
    )  # fmt: skip
    (arc,) = read_back(plan).modelspace().query("ARC")
    assert (arc.dxf.start_angle, arc.dxf.end_angle) == (0, 90)


def test_a_part_code_of_odd_letters_is_no_layer_of_them():
    document = json.loads((ROOT / "tests/plans/s1.json").read_text())
    for pipe in document["layout"]["pipes"]:
        pipe["part"] = "<32>/'*|\"=;,`\n"
    audit = read_back(Plan.model_validate(document)).audit()
    assert audit.errors == []
    assert audit.fixes == []


def test_text_in_a_drawing_is_only_text():
    words = "0\nEOF\r%%u^J\x00ü"
    ground = {"areas": [{"id": "a", "label": words, "outline": [[0, 0], [9, 0], [9, 9]]}]}
    plan = Plan.model_validate(
        {"format": "plan/1", "ground": ground, "supply": {"at": [0, 0], "static_kpa": 300}}
    )
    document = read_back(plan)
    assert document.audit().errors == []
    assert any("ü" in text.dxf.text for text in document.modelspace().query("TEXT"))
