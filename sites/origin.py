"""Where a site's zero lies on the globe, as somebody typed it."""

import re

from design.exchange.projecting import MOST_LATITUDE_DEG
from design.geometry import XY

_PAIR = re.compile(r"\s*([+-]?\d{1,3}(?:\.\d{1,12})?)\s*[, ]\s*([+-]?\d{1,3}(?:\.\d{1,12})?)\s*", re.ASCII)
ASK = "Give the site's zero as latitude,longitude in degrees, such as 48.137,11.575."


class BadOrigin(ValueError):
    """What was typed is no place; the message says what to type."""


def read_origin(text: str) -> XY | None:
    """Longitude and latitude [degrees] of ``latitude,longitude``; None for nothing. Raises BadOrigin."""
    if not text.strip():
        return None
    found = _PAIR.fullmatch(text[:80])
    if not found:
        raise BadOrigin(ASK)
    latitude, longitude = float(found[1]), float(found[2])
    if abs(latitude) > MOST_LATITUDE_DEG or abs(longitude) > 180:
        raise BadOrigin(f"{ASK} Latitudes go to {MOST_LATITUDE_DEG:.0f}, longitudes to 180.")
    return longitude, latitude
