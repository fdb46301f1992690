"""DXF as other programs write it: units, curves, blocks, single lines, text."""

import math

import pytest
import shapely

from design.exchange.dxf_curves import SAG_SHARE
from design.exchange.dxf_in import read_dxf
from design.exchange.refused import FileRefused
from design.exchange.unit_guess import guess_unit
from tests.exchange.makers import dxf_bytes


def only(shapes, kind):
    return [shape for shape in shapes.shapes if shape.kind == kind]


def box_of(size):
    return lambda space, _: space.add_lwpolyline(
        [(0, 0), (size, 0), (size, size / 2), (0, size / 2)], close=True
    )


# DXF reference, group code 70 of $INSUNITS
@pytest.mark.parametrize(("code", "unit", "size"), [
    (1, "in", 1200), (2, "ft", 100), (4, "mm", 30_000), (5, "cm", 3000), (6, "m", 30), (10, "yd", 33),
])  # fmt: skip
def test_the_declared_unit_is_taken_where_it_makes_a_garden(code, unit, size):
    guess = guess_unit(read_dxf(dxf_bytes(box_of(size), units=code)))
    assert (guess.unit, guess.sure) == (unit, True)


def test_without_a_unit_somebody_is_asked():
    guess = guess_unit(read_dxf(dxf_bytes(box_of(30_000), units=0)))
    assert not guess.sure
    assert "does not say" in guess.sentence
    assert "millimetres (30.0 m across)" in guess.sentence


@pytest.mark.parametrize(("size", "code", "words"), [
    (30_000, 6, "30.0 km across. Were these millimetres (30.0 m across)"),  # a ratio of 1000
    (30, 4, "0.03 m across. Were these metres (30.0 m across), feet (9.1 m across)"),  # 3.28 between them
    (1200, 4, "1.2 m across. Were these centimetres (12.0 m across), metres (1.2 km across), inches (30.5 m"),
])  # fmt: skip
def test_a_declared_unit_that_makes_no_garden_is_doubted(size, code, words):
    guess = guess_unit(read_dxf(dxf_bytes(box_of(size), units=code)))
    assert not guess.sure
    assert words in guess.sentence


def test_a_circle_is_flat_within_the_stated_sag():
    shapes = read_dxf(dxf_bytes(lambda space, _: space.add_circle((5, 5), 2)))
    (ring,) = only(shapes, "ring")
    inside = min(
        math.dist(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), (5, 5))
        for a, b in zip(ring.points, (*ring.points[1:], ring.points[0]), strict=True)
    )
    assert 2 - inside <= 4 * SAG_SHARE
    assert len(ring.points) < 200


def test_a_bulge_is_the_arc_that_it_stands_for():
    """DXF reference: bulge is the tangent of a quarter of the included angle; 1 is a half circle."""
    shapes = read_dxf(dxf_bytes(
        lambda space, _: space.add_lwpolyline([(0, 0, 1), (4, 0, 0)], format="xyb", close=True)
    ))  # fmt: skip
    (ring,) = only(shapes, "ring")
    assert shapely.Polygon(ring.points).area == pytest.approx(math.pi * 4 / 2, rel=0.01)
    assert min(y for _, y in ring.points) == pytest.approx(-2, abs=0.01)


def test_ellipse_and_spline_become_lines():
    def draw(space, _):
        space.add_ellipse((0, 0), major_axis=(4, 0), ratio=0.5, dxfattribs={"layer": "e"})
        space.add_spline([(0, 0), (3, 4), (8, 1)], dxfattribs={"layer": "s"})

    shapes = read_dxf(dxf_bytes(draw))
    (ellipse,), (spline,) = only(shapes, "ring"), only(shapes, "line")
    assert shapely.Polygon(ellipse.points).area == pytest.approx(math.pi * 4 * 2, rel=0.01)
    assert shapely.LineString(spline.points).distance(shapely.Point(3, 4)) < 0.01


def test_lines_that_meet_become_one_outline():
    corners = [(0, 0), (8, 0), (8, 5), (0, 5)]

    def draw(space, _):
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
            space.add_line(b, a) if a == (8, 0) else space.add_line(a, b)
        space.add_line((20, 20), (25, 20))

    shapes = read_dxf(dxf_bytes(draw))
    (ring,), (line,) = only(shapes, "ring"), only(shapes, "line")
    assert shapely.Polygon(ring.points).area == pytest.approx(40)
    assert shapely.LineString(line.points).length == pytest.approx(5)


def test_blocks_are_taken_apart_where_they_were_put():
    def draw(space, document):
        block = document.blocks.new("shed")
        block.add_lwpolyline([(0, 0), (2, 0), (2, 1), (0, 1)], close=True)
        space.add_blockref("shed", (10, 10), dxfattribs={"rotation": 90, "xscale": 2, "yscale": 2})

    (ring,) = only(read_dxf(dxf_bytes(draw)), "ring")
    assert shapely.Polygon(ring.points).bounds == pytest.approx((8, 10, 10, 14))


def test_heights_are_seen_from_above_and_said():
    shapes = read_dxf(dxf_bytes(lambda space, _: space.add_polyline3d([(0, 0, 3), (9, 0, 4)])))
    assert only(shapes, "line")[0].points == ((0, 0), (9, 0))
    assert any("seen from above" in note for note in shapes.notes)


def test_points_keep_their_height_and_texts_their_words():
    def draw(space, _):
        space.add_point((1, 2, 3.5))
        space.add_text("Old  well\t", dxfattribs={"insert": (4, 5)})
        space.add_mtext("Two\\Plines").set_location((6, 7))
        space.add_hatch()

    shapes = read_dxf(dxf_bytes(draw))
    assert [(s.points[0], s.z, s.label) for s in shapes.shapes] == [
        ((1, 2), 3.5, ""), ((4, 5), None, "Old well"), ((6, 7), None, "Two lines")
    ]  # fmt: skip
    assert any("1 × HATCH" in note for note in shapes.notes)


def test_latin_1_and_code_pages():
    data = dxf_bytes(
        lambda space, _: space.add_text("Gärtner", dxfattribs={"insert": (0, 0)}), version="R2000"
    )
    text = data.decode()
    assert read_dxf(text.encode("cp1252")).shapes[0].label == "Gärtner"
    other = text.replace("ANSI_1252", "ANSI_1251").replace("Gärtner", "Сад")
    assert read_dxf(other.encode("cp1251")).shapes[0].label == "Сад"


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999])
def test_a_truncated_drawing_is_refused(share):
    data = dxf_bytes(box_of(30))
    with pytest.raises(FileRefused, match="ends too early"):
        read_dxf(data[: int(len(data) * share)])
