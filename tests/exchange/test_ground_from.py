"""Layers of a file become the ground of a plan: sound outlines, own ids, nothing beyond what a plan takes."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from design.document import Ground
from design.exchange.becomes import ALL, BY_CODE, choices_for, likely
from design.exchange.ground_from import ground_from
from design.exchange.outlines import TOLERANCE_M
from design.exchange.placing import Placing, placed
from design.exchange.refused import FileRefused
from design.exchange.shapes import Layer, Shape, Shapes
from design.exchange.simplify import thin
from design.loading import list_length_problems
from design.plan_rules import _ring_problem

BOX = ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0))


def ring(points=BOX, layer="a", **more):
    return Shape(layer, "ring", tuple(points), **more)


def made(*shapes, name="Plot 7.dxf", **becomes):
    return ground_from(Shapes(shapes), becomes or {"a": "area-turf"}, name)


def test_an_outline_becomes_a_lawn_with_an_id_of_its_file():
    (area,) = made(ring(label="Front")).ground["areas"]
    assert (area["id"], area["label"], area["cover"]) == ("plot-7-a-1", "Front", "turf")
    assert area["outline"] == [[0, 0], [20, 0], [20, 10], [0, 10]]


def test_the_same_file_gives_the_same_ids_and_another_one_others():
    first, again = made(ring(), ring()), made(ring(), ring())
    assert first.ground == again.ground
    others = {row["id"] for row in made(ring(), name="Shed.dxf").ground["areas"]}
    assert not others & {row["id"] for row in first.ground["areas"]}


def test_an_outline_that_crosses_itself_gives_its_largest_part():
    bow = ((0, 0), (10, 10), (10, 0), (0, 4))
    found = made(ring(bow))
    outline = shapely.Polygon(found.ground["areas"][0]["outline"])
    assert outline.is_valid
    assert "crossed itself" in found.notes[0]


def test_a_line_becomes_a_fence_and_a_point_a_tree():
    line, point = Shape("a", "line", ((0, 0), (10, 0))), Shape("t", "point", ((5, 5),))
    fence, tree = made(line, point, a="surface-fence", t="surface-tree").ground["surfaces"]
    assert shapely.Polygon(fence["outline"]).area == pytest.approx(1.0)
    assert shapely.Polygon(tree["outline"]).centroid.distance(shapely.Point(5, 5)) < 0.001


def test_an_open_line_is_closed_and_that_is_said():
    found = made(Shape("a", "line", BOX))
    assert len(found.ground["areas"][0]["outline"]) == 4
    assert "closed straight" in found.notes[0]


def test_services_marks_and_heights():
    shapes = (Shape("g", "line", ((0, 0), (9, 0))), Shape("m", "point", ((1, 1),), "Peg"),
              Shape("h", "point", ((2, 2),), z=1.25), Shape("h", "point", ((3, 3),)))  # fmt: skip
    found = made(*shapes, g="service-gas", m="mark", h="level")
    assert found.ground["services"][0]["kind"] == "gas"
    assert "depth_m" not in found.ground["services"][0]
    assert "located" not in found.ground["services"][0]
    assert found.ground["marks"][0]["label"] == "Peg"
    assert [level["z_m"] for level in found.ground["levels"]] == [1.25]
    assert "without a height" in found.notes[0]


def test_a_surveyed_curve_is_thinned_within_the_tolerance():
    circle = [
        (10 + 8 * math.cos(i / 2000 * math.tau), 10 + 8 * math.sin(i / 2000 * math.tau)) for i in range(2000)
    ]
    outline = made(ring(circle)).ground["areas"][0]["outline"]
    assert len(outline) < 120
    # independent of the thinning: Hausdorff distance, by GEOS
    assert shapely.LinearRing(outline).hausdorff_distance(shapely.LinearRing(circle)) <= TOLERANCE_M + 0.001


@pytest.mark.parametrize(("shapes", "words"), [
    ([ring([(0, 0), (9000, 0), (9000, 10)])], "km from the site's zero"),
    ([ring()] * 101, "at most 100"),
    ([Shape("a", "point", ((0, 0),))], "Nothing would be put"),
    ([ring([(0, 0), (1, 1), (2, 2)])], "encloses nothing"),
])  # fmt: skip
def test_more_than_a_plan_takes_is_refused(shapes, words):
    with pytest.raises(FileRefused, match=words):
        made(*shapes)


def test_what_a_file_claims_to_be_ours_is_judged():
    own = {"group": "areas", "plan": {"id": "x", "cover": "concrete"}}
    with pytest.raises(FileRefused, match="no plan has"):
        made(ring(own=own), a="same")


def test_turn_and_place():
    turned = placed(Shapes((ring(),)), Placing("ft", to_zero=True, turn_deg=90))
    xs, ys = zip(*turned.shapes[0].points, strict=True)
    assert (min(xs), min(ys)) == (pytest.approx(0), pytest.approx(0))
    # 20 ft by 10 ft stand upright now; 0.3048 m is the international foot
    assert (max(xs), max(ys)) == (pytest.approx(3.048), pytest.approx(6.096))
    kept = placed(Shapes((ring(((0, 0), (0, 5), (1, 5))),)), Placing("m", turn_deg=90))
    assert kept.shapes[0].points[1] == (pytest.approx(5), pytest.approx(0))  # north turns to east


def test_first_guesses_look_at_kinds_only():
    assert likely(Layer("GAS", rings=3)) == likely(Layer("x", rings=1)) == "area-turf"
    assert likely(Layer("TREES", points=3)) == "mark"
    assert likely(Layer("x", points=3, heights=3)) == "level"
    assert likely(Layer("x", lines=3)) == "leave"
    assert len(BY_CODE) == len(ALL)
    assert "mark" not in [b.code for b in choices_for(Layer("x", rings=1))]


def test_too_many_corners_are_thinned_before_they_are_kept():
    wave = tuple((i / 1000, math.sin(i / 1000)) for i in range(60_000))
    shapes = thin(Shapes((Shape("a", "line", wave),)))
    assert shapes.shapes[0].point_count < 20_000
    assert "thinned" in shapes.notes[0]


COORDINATE = st.floats(-40, 40).map(lambda n: round(n, 2))
POINTS = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=12)


@settings(deadline=None, max_examples=150)
@given(POINTS, st.sampled_from(["line", "ring"]), st.sampled_from([b.code for b in ALL if b.group]))
def test_whatever_was_drawn_the_ground_is_sound(points, kind, code):
    try:
        found = made(Shape("a", kind, tuple(points)), a=code)
    except FileRefused:
        return
    ground = Ground.model_validate(found.ground)
    assert not list_length_problems({"ground": found.ground})
    for outline in [a.outline for a in ground.areas] + [s.outline for s in ground.surfaces]:
        assert _ring_problem(outline) == ""


@pytest.mark.parametrize(
    "names",
    [("Garden plan front.dxf", "Garden plan back.dxf"), ("Сад.dxf", "Двор.dxf"), ("Hof ä.dxf", "Hof ö.dxf")],
)
def test_files_whose_names_begin_alike_do_not_replace_each_other(names):
    first, second = ({row["id"] for row in made(ring(), name=name).ground["areas"]} for name in names)
    assert not first & second


def test_a_file_says_nothing_of_the_soil():
    (area,) = made(ring()).ground["areas"]
    assert "soil" not in area
    assert area["holes"] == []
