"""Shapes from GeoJSON text (RFC 7946)."""

import json
import math
from collections.abc import Iterator
from typing import Any, NoReturn

from design.exchange import limits
from design.exchange.refused import FileRefused
from design.exchange.shapes import (
    Collector,
    Path,
    Shape,
    Shapes,
    checked_point,
    layer_name,
    one_line,
    open_or_ring,
)
from design.geometry import XY

Json = dict[str, Any]
PARTS = {"MultiPoint": "Point", "MultiLineString": "LineString", "MultiPolygon": "Polygon"}
KIND_LAYERS = {"Point": "Points", "LineString": "Lines", "Polygon": "Outlines"}
_OWN_GROUPS = ("areas", "surfaces", "services", "marks", "levels", "layout")
_MOST_OWN_FIELDS = 12


def read_geojson(data: bytes) -> Shapes:
    """All points, lines and outlines, by layer. Raises FileRefused.

    The unit is what the standard says, degrees, unless the file says that it is in site metres.
    """
    whole = _parse(data)
    if not isinstance(whole, dict):
        raise FileRefused("This is JSON, but no GeoJSON: it is not one object in braces.")
    plane = whole.get("site_plane")
    is_own = isinstance(plane, dict)
    origin = _origin(plane.get("origin")) if isinstance(plane, dict) else None
    reader = _Reader(is_own)
    reader.read(whole, depth=0)
    if "crs" in whole:
        reader.found.notes.append(
            "The file names a coordinate system of its own (“crs”), which the standard has dropped: "
            "look twice at the unit."
        )
    return reader.found.done("m" if is_own and origin is None else "deg", origin)


class _Reader:
    def __init__(self, is_own: bool) -> None:
        self.found = Collector()
        self._is_own = is_own

    def read(self, entry: Any, depth: int) -> None:
        if depth > limits.MAX_DEPTH:
            raise FileRefused(f"The file has collections in collections, more than {limits.MAX_DEPTH} deep.")
        kind = entry.get("type") if isinstance(entry, dict) else None
        if kind == "FeatureCollection":
            for feature in _list(entry.get("features"), "features"):
                self.read(feature, depth + 1)
        elif kind == "Feature":
            self._feature(entry)
        elif isinstance(kind, str):
            self._geometry(entry, _Words("", "", {}, ()), depth)
        else:
            raise FileRefused("This is JSON, but no GeoJSON: something in it has no “type”.")

    def _feature(self, feature: Json) -> None:
        given = feature.get("properties")
        properties: Json = given if isinstance(given, dict) else {}
        label = properties.get("label") or properties.get("name") or ""
        own, turned = _own(properties) if self._is_own else ({}, ())
        words = _Words(
            layer_name(properties.get("layer"), ""), one_line(label, limits.MAX_LABEL), own, turned
        )
        if feature.get("geometry") is not None:
            self._geometry(feature["geometry"], words, depth=0)

    def _geometry(self, geometry: Any, words: "_Words", depth: int) -> None:
        if depth > limits.MAX_DEPTH:
            raise FileRefused(f"The file has collections in collections, more than {limits.MAX_DEPTH} deep.")
        kind = geometry.get("type") if isinstance(geometry, dict) else None
        if kind == "GeometryCollection":
            for part in _list(geometry.get("geometries"), "geometries"):
                self._geometry(part, words, depth + 1)
        elif kind in PARTS:
            for part in _list(geometry.get("coordinates"), "coordinates"):
                self._one(PARTS[kind], part, words)
        elif kind in KIND_LAYERS:
            self._one(kind, geometry.get("coordinates"), words)
        else:
            raise FileRefused(f"GeoJSON knows no geometry “{one_line(kind, 40) or 'without a type'}”.")

    def _one(self, kind: str, coordinates: Any, words: "_Words") -> None:
        layer = words.layer or KIND_LAYERS[kind]
        if kind == "Point":
            at, z = _place(coordinates)
            self.found.add(Shape(layer, "point", (at,), words.label, (), z, words.own))
        elif kind == "LineString":
            path = tuple(_path(coordinates))
            shape = open_or_ring(layer, path, closed=False, label=words.label)
            # what was a path in a plan stays one, also where it comes back to its start
            is_path = words.own and len(path) >= 2
            self.found.add(Shape(layer, "line", path, words.label, (), None, words.own) if is_path else shape)
        else:
            self.found.add(_polygon(layer, coordinates, words))


class _Words:
    """What a feature says of its geometry."""

    def __init__(self, layer: str, label: str, own: Json, turned: tuple[int, ...]) -> None:
        self.layer, self.label, self.own, self.turned = layer, label, own, turned


def _polygon(layer: str, coordinates: Any, words: _Words) -> Shape:
    rings: list[Path] = []
    for number, ring in enumerate(_list(coordinates, "coordinates")):
        points = list(_path(ring))
        if len(points) > 1 and points[0] == points[-1]:
            points.pop()
        if len(points) < 3:
            raise FileRefused(f"An outline in the layer “{layer}” has fewer than three corners.")
        if number in words.turned:
            points = [points[0], *points[:0:-1]]
        rings.append(tuple(points))
    if not rings:
        raise FileRefused(f"An outline in the layer “{layer}” has no corners.")
    return Shape(layer, "ring", rings[0], words.label, tuple(rings[1:]), None, words.own)


def _path(coordinates: Any) -> Iterator[XY]:
    for position in _list(coordinates, "coordinates"):
        yield _place(position)[0]


def _place(position: Any) -> tuple[XY, float | None]:
    if not isinstance(position, list) or len(position) < 2 or not all(_is_number(n) for n in position[:3]):
        raise FileRefused("A coordinate in the file is not a list of two or three numbers.")
    height = float(position[2]) if len(position) > 2 else None
    return checked_point(position[0], position[1]), height


def _is_number(value: Any) -> bool:
    """Whole numbers of hundreds of digits are no floats."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return abs(value) < 1e300 if isinstance(value, int) else math.isfinite(value)


def _list(value: Any, name: str) -> list[Any]:
    if not isinstance(value, list):
        raise FileRefused(f"This is no sound GeoJSON: “{name}” is not a list.")
    return value


def _origin(value: Any) -> XY | None:
    if isinstance(value, list) and len(value) == 2 and all(_is_number(n) for n in value):
        longitude, latitude = float(value[0]), float(value[1])
        return (longitude, latitude) if abs(longitude) <= 180 and abs(latitude) <= 85 else None
    return None


def _own(properties: Json) -> tuple[Json, tuple[int, ...]]:
    """What a file written here says of the entity, bounded; it is judged when it becomes ground."""
    group, plan, turned = (properties.get(name) for name in ("group", "plan", "turned"))
    if group not in _OWN_GROUPS or not isinstance(plan, dict):
        return {}, ()
    fields = {
        str(key)[:40]: value[:200] if isinstance(value, str) else value
        for key, value in list(plan.items())[:_MOST_OWN_FIELDS]
        if isinstance(value, str | float | bool) or _is_number(value)
    }
    listed = turned if isinstance(turned, list) else []
    return {"group": group, "plan": fields}, tuple(n for n in listed[:1000] if isinstance(n, int))


def _parse(data: bytes) -> Any:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileRefused("GeoJSON has to be UTF-8 text, and this is not; save it as UTF-8.") from None
    try:
        return json.loads(text, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        cut = " It ends too early: was it copied to the end?" if error.pos >= len(text.rstrip()) else ""
        raise FileRefused(f"This is no JSON: line {error.lineno}, column {error.colno}.{cut}") from None
    except RecursionError:
        raise FileRefused("The file is nested too deeply to be a garden.") from None
    except ValueError:
        raise FileRefused("The file holds a number too long to read.") from None


def _no_constant(name: str) -> NoReturn:
    raise FileRefused(f"The file holds {name} where a number should be. Write the file again.")
