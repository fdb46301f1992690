"""Shapes from a GPX track file, in degrees."""

import re
from collections.abc import Iterable
from typing import Any
from xml.etree.ElementTree import ParseError

import gpxpy
from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring
from gpxpy.gpx import GPXException

from design.exchange import limits
from design.exchange.refused import FileRefused
from design.exchange.shapes import Collector, Shape, Shapes, checked_point, layer_name, one_line, open_or_ring
from design.geometry import XY

WAYPOINTS = "Waypoints"
ROUGH = (
    "A hand-held receiver is out by some metres. Good for where things are on the site; "
    "tape what a head or a trench depends on."
)
_DECLARATION = re.compile(r"^\s*<\?xml[^>]*?(?:encoding\s*=\s*[\"']([A-Za-z0-9._\-]{1,40})[\"'][^>]*)?\?>")


def read_gpx(data: bytes) -> Shapes:
    """Waypoints as points, tracks and routes as lines or, where they come back, outlines.

    Raises FileRefused.
    """
    text = _text(data)
    found = Collector()
    try:
        fromstring(text, forbid_dtd=True)  # nothing is expanded before this has looked
        track_file: Any = gpxpy.parse(text)
    except DefusedXmlException:
        raise FileRefused(
            "The file declares a document type or entities, which no track needs. It is not read."
        ) from None
    except (ParseError, GPXException, ValueError) as error:
        raise FileRefused(f"This is no sound GPX: {one_line(str(error), 120)}.") from None
    except RecursionError:
        raise FileRefused("The file is nested too deeply to be a track.") from None
    for waypoint in track_file.waypoints:
        label = one_line(waypoint.name or "", limits.MAX_LABEL)
        found.add(Shape(WAYPOINTS, "point", (_at(waypoint),), label))
    for number, track in enumerate(track_file.tracks, 1):
        for segment in track.segments:
            _add_path(found, f"Track {_name(track, number)}", segment.points)
    for number, route in enumerate(track_file.routes, 1):
        _add_path(found, f"Route {_name(route, number)}", route.points)
    if found.shapes:
        found.notes.append(ROUGH)
    return found.done("deg")


def _name(path: Any, number: int) -> str:
    return layer_name(path.name, str(number))[:60]


def _add_path(found: Collector, layer: str, points: Iterable[Any]) -> None:
    found.add(open_or_ring(layer, tuple(_at(point) for point in points), closed=False))


def _at(point: Any) -> XY:
    if point.latitude is None or point.longitude is None:
        raise FileRefused("A point in the file has no latitude or longitude.")
    if abs(point.latitude) > 90 or abs(point.longitude) > 360:
        raise FileRefused(
            f"A point in the file lies at latitude {point.latitude:g}, longitude {point.longitude:g}."
        )
    return checked_point(point.longitude, point.latitude)


def _text(data: bytes) -> str:
    """Decoded as the file declares, without the declaration: nobody decodes it a second time."""
    head = _DECLARATION.match(data[:300].decode("latin-1").removeprefix("ï»¿"))
    encoding = head[1] if head and head[1] else "utf-8"
    try:
        text = data.decode(encoding).removeprefix("\ufeff")
    except (LookupError, UnicodeError):
        raise FileRefused(
            f"The file is not the {encoding} text that an XML file has to be; save it as UTF-8."
        ) from None
    return _DECLARATION.sub("", text, count=1)
