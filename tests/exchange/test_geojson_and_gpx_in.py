"""GeoJSON and GPX as other programs write them."""

import json

import pytest

from design.exchange.geojson_in import read_geojson
from design.exchange.gpx_in import read_gpx
from design.exchange.placing import Placing, placed
from design.exchange.refused import FileRefused
from design.exchange.shapes import extent
from design.exchange.unit_guess import guess_unit
from tests.exchange.makers import feature, geojson_bytes, gpx_bytes

# 0.0003 degrees of latitude are 33 m: a garden
BOX = [[11.5, 48.1], [11.5004, 48.1], [11.5004, 48.1003], [11.5, 48.1003], [11.5, 48.1]]


def test_degrees_are_what_the_standard_says():
    shapes = read_geojson(geojson_bytes(feature("Polygon", [BOX], layer="plot", name="Number 7")))
    guess = guess_unit(shapes)
    assert (guess.unit, guess.sure) == ("deg", True)
    assert [(s.layer, s.kind, s.label, len(s.points)) for s in shapes.shapes] == [
        ("plot", "ring", "Number 7", 4)
    ]
    # NIMA TR8350.2 ellipsoid; a degree at 48.1 N is 111.19 km by 74.5 km (tables of such lengths)
    west, south, east, north = extent(placed(shapes, Placing("deg", to_zero=True)).shapes)
    assert (west, south) == (0, 0)
    assert (east, north) == (
        pytest.approx(0.0004 * 74_500, rel=0.002),
        pytest.approx(0.0003 * 111_190, rel=0.001),
    )


def test_metres_in_place_of_degrees_are_asked_about():
    box = [[0, 0], [30, 0], [30, 20], [0, 20], [0, 0]]
    guess = guess_unit(read_geojson(geojson_bytes(feature("Polygon", [box]))))
    assert not guess.sure
    assert "degrees" in guess.sentence
    assert "metres (30.0 m across)" in guess.sentence


def test_a_map_grid_is_no_longitude():
    box = [[445_000, 5_330_000], [445_030, 5_330_000], [445_030, 5_330_020], [445_000, 5_330_000]]
    guess = guess_unit(read_geojson(geojson_bytes(feature("Polygon", [box]))))
    assert not guess.sure
    assert "m" in guess.fitting


def test_every_geometry_and_collections():
    line, point = [[0, 0], [1, 1]], [2, 3, 4.5]
    collection = {"type": "GeometryCollection", "geometries": [{"type": "Point", "coordinates": point}]}
    data = geojson_bytes(
        feature("MultiPoint", [point, point]), feature("MultiLineString", [line, line]),
        feature("MultiPolygon", [[BOX], [BOX]]),
        {"type": "Feature", "properties": None, "geometry": collection},
        {"type": "Feature", "properties": {}, "geometry": None},
    )  # fmt: skip
    kinds = [shape.kind for shape in read_geojson(data).shapes]
    assert kinds == ["point"] * 2 + ["line"] * 2 + ["ring"] * 2 + ["point"]
    assert read_geojson(data).shapes[0].z == 4.5


@pytest.mark.parametrize(("data", "words"), [
    (b"", "no JSON"), (b"[]", "no GeoJSON"), (b'"x"', "no GeoJSON"), (b"{}", "no “type”"),
    (b"null", "no GeoJSON"),
    (b'{"type": "FeatureCollection"}', "not a list"),
    (b'{"type": "FeatureCollection", "features": [null]}', "no “type”"),
    (b'{"type": "Topology"}', "knows no geometry"),
    (b'{"type": "Point", "coordinates": [1]}', "two or three numbers"),
    (b'{"type": "Point", "coordinates": ["1", 2]}', "two or three numbers"),
    (b'{"type": "Point", "coordinates": [true, 2]}', "two or three numbers"),
    (b'{"type": "Point", "coordinates": [NaN, 2]}', "NaN"),
    (b'{"type": "Point", "coordinates": [1e999, 2]}', "two or three numbers"),
    (b'{"type": "Point", "coordinates": [1e12, 2]}', "that far out"),
    (b'{"type": "Point", "coordinates": [' + b"9" * 5000 + b", 2]}", "too long"),
    (b'{"type": "Polygon", "coordinates": [[[0,0],[1,1]]]}', "three corners"),
    (b'{"type": "Polygon", "coordinates": []}', "no corners"),
    (b'{"type": "Polygon", "coordinates": {"a": 1}}', "not a list"),
    (b'{"type": "Point", "coordinates": [1, 2', "ends too early"),
    (b'{"type": "Point"}\xff', "UTF-8"),
    (b"[" * 100_000, "nested too deeply"),
])  # fmt: skip
def test_what_is_no_sound_geojson_gets_a_sentence(data, words):
    with pytest.raises(FileRefused, match=words):
        read_geojson(data)


def test_collections_in_collections_end():
    geometry = {"type": "Point", "coordinates": [1, 2]}
    for _ in range(20):
        geometry = {"type": "GeometryCollection", "geometries": [geometry]}
    with pytest.raises(FileRefused, match="deep"):
        read_geojson(json.dumps(geometry).encode())


def test_a_track_that_comes_back_is_an_outline():
    walk = [(48.1, 11.5), (48.1003, 11.5), (48.1003, 11.5004), (48.1, 11.5)]
    points = "".join(f'<trkpt lat="{lat}" lon="{lon}"/>' for lat, lon in walk)
    body = (
        '<wpt lat="48.1" lon="11.5"><name>Tap</name></wpt>'
        + f"<trk><name>Edge</name><trkseg>{points}</trkseg></trk>"
    )
    body += '<rte><rtept lat="48.1" lon="11.5"/><rtept lat="48.2" lon="11.5"/></rte>'
    shapes = read_gpx(gpx_bytes(body))
    assert [(s.layer, s.kind, s.label) for s in shapes.shapes] == [
        ("Waypoints", "point", "Tap"), ("Track Edge", "ring", ""), ("Route 1", "line", "")
    ]  # fmt: skip
    assert shapes.unit == "deg"
    assert any("out by some metres" in note for note in shapes.notes)


def test_latin_1_in_a_declared_file():
    data = gpx_bytes('<wpt lat="1" lon="2"><name>Gärtner</name></wpt>').decode()
    declared = data.replace("UTF-8", "ISO-8859-1").encode("latin-1")
    assert read_gpx(declared).shapes[0].label == "Gärtner"
    with pytest.raises(FileRefused, match="UTF-8"):
        read_gpx(data.encode("latin-1"))


@pytest.mark.parametrize(("data", "words"), [
    (gpx_bytes(""), "no point"),
    (gpx_bytes('<wpt lat="1" lon="2">')[:-20], "no sound GPX"),
    (gpx_bytes('<wpt lat="x" lon="2"/>'), "no sound GPX|no latitude"),
    (gpx_bytes('<wpt lat="NaN" lon="2"/>'), "not a number|no sound GPX|lies at"),
    (gpx_bytes('<wpt lat="95" lon="2"/>'), "latitude 95"),
    (b"<html></html>", "no sound GPX|no point"),
    (gpx_bytes("&a;", '<!DOCTYPE gpx [<!ENTITY a "b">]>'), "document type"),
    (gpx_bytes("&a;", '<!DOCTYPE gpx [<!ENTITY a SYSTEM "file:///etc/passwd">]>'), "document type"),
    (gpx_bytes("", '<!DOCTYPE gpx SYSTEM "http://127.0.0.1/x.dtd">'), "document type"),
])  # fmt: skip
def test_what_is_no_sound_gpx_gets_a_sentence(data, words):
    with pytest.raises(FileRefused, match=words):
        read_gpx(data)
