"""The plan as GeoJSON (RFC 7946), in site metres, or in longitude and latitude where an origin is given.

RFC 7946 knows only WGS 84. A site has no place on the globe unless somebody gives one, so a file
without an origin is in site metres and says so in its member ``site_plane``; other programs will
take it for degrees near 0, 0 unless they are told. With an origin the file follows the standard.
"""

import json
from collections.abc import Iterator, Sequence
from typing import Any

from design.canonical import dump_plan
from design.document import Plan
from design.drawing.ground_layer import KIND_WORDS
from design.exchange import plain_layers as names
from design.exchange.projecting import TangentPlane
from design.geometry import XY

Json = dict[str, Any]
DECIMALS_M, DECIMALS_DEG = 4, 9  # a tenth of a millimetre either way
LOCAL_NOTE = (
    "Coordinates are metres on the site: x east, y north, from the site's own zero. "
    "They are not longitude and latitude."
)
GLOBE_NOTE = "Longitude and latitude (WGS 84), worked out from site metres on a flat plane at the origin."


def geojson_text(plan: Plan, origin: XY | None = None) -> str:
    """The file. ``origin`` is longitude and latitude [degrees] of the site's zero."""
    place = _Placing(origin)
    features = [*_ground_features(plan, place), *_layout_features(plan, place)]
    plane: Json = {"unit": "m", "x": "east", "y": "north", "note": GLOBE_NOTE if origin else LOCAL_NOTE}
    if origin:
        plane["origin"] = list(origin)
    whole = {"type": "FeatureCollection", "site_plane": plane, "features": features}
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


class _Placing:
    def __init__(self, origin: XY | None) -> None:
        self._plane = TangentPlane(origin) if origin else None

    def point(self, at: Sequence[float]) -> list[float]:
        if self._plane is None:
            return [round(at[0], DECIMALS_M), round(at[1], DECIMALS_M)]
        longitude, latitude = self._plane.degrees((at[0], at[1]))
        return [round(longitude, DECIMALS_DEG), round(latitude, DECIMALS_DEG)]

    def path(self, path: Sequence[Sequence[float]]) -> list[list[float]]:
        return [self.point(at) for at in path]


def _ground_features(plan: Plan, place: _Placing) -> Iterator[Json]:
    ground = dump_plan(plan)["ground"]
    for row in ground["areas"]:
        yield _rings_feature("areas", row, [row["outline"], *row["holes"]], KIND_WORDS[row["cover"]], place)
    for row in ground["surfaces"]:
        yield _rings_feature("surfaces", row, [row["outline"]], KIND_WORDS[row["kind"]], place)
    for row, service in zip(ground["services"], plan.ground.services, strict=True):
        geometry = {"type": "LineString", "coordinates": place.path(row["path"])}
        yield _feature("services", row, geometry, names.service_layer(service))
    for row in ground["marks"]:
        yield _feature("marks", row, {"type": "Point", "coordinates": place.point(row["at"])}, names.MARKS)
    for row in ground["levels"]:
        where = [*place.point(row["at"]), row["z_m"]]
        yield _feature("levels", row, {"type": "Point", "coordinates": where}, names.LEVELS)


def _rings_feature(group: str, row: Json, rings: list[list[XY]], layer: str, place: _Placing) -> Json:
    """Outlines run against the clock and holes with it, as RFC 7946 section 3.1.6 asks.

    ``turned`` lists the rings whose direction was changed for that, so that they come back as they were.
    """
    turned = [number for number, ring in enumerate(rings) if (_area(ring) > 0) != (number == 0)]
    right = [_reversed(ring) if number in turned else ring for number, ring in enumerate(rings)]
    geometry = {"type": "Polygon", "coordinates": [place.path([*ring, ring[0]]) for ring in right]}
    return _feature(group, row, geometry, layer, turned=turned)


def _reversed(ring: list[XY]) -> list[XY]:
    """The other way round from the same first corner."""
    return [ring[0], *ring[:0:-1]]


def _area(ring: list[XY]) -> float:
    """Twice the area, positive against the clock."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))


def _layout_features(plan: Plan, place: _Placing) -> Iterator[Json]:
    layout, ends = dump_plan(plan)["layout"], names.pipe_ends(plan)
    for row in layout["nodes"]:
        geometry = {"type": "Point", "coordinates": place.point(row["at"])}
        yield _feature("layout", row, geometry, names.NODE_LAYERS[row["kind"]])
    for group, layer in (("pipes", names.PIPES), ("cables", names.CABLES)):
        for row in layout[group]:
            path = [ends[row["from"]], *row.get("via", []), ends[row["to"]]]
            geometry = {"type": "LineString", "coordinates": place.path(path)}
            yield _feature("layout", row, geometry, layer)
    for row in layout["sleeves"]:
        geometry = {"type": "LineString", "coordinates": place.path(row["path"])}
        yield _feature("layout", row, geometry, names.SLEEVES)
    for row in layout["notes"]:
        spot = {"type": "Point", "coordinates": place.point(row["at"])} if "at" in row else None
        yield _feature("layout", row, spot, names.NOTES)


_GEOMETRY = {"outline", "holes", "path", "at", "via"}


def _feature(group: str, row: Json, geometry: Json | None, layer: str, **more: Any) -> Json:
    plain = {key: value for key, value in row.items() if key not in _GEOMETRY}
    label = row.get("label") or row.get("id") or ""
    properties: Json = {"layer": layer, "label": label, "group": group, "plan": plain, **more}
    found: Json = {"type": "Feature", "properties": properties, "geometry": geometry}
    return {**found, "id": row["id"]} if row.get("id") else found
