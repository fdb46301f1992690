"""From longitude and latitude to site metres and back, on the plane that touches the ellipsoid.

East and north are arcs of the parallel and of the meridian through the origin, with the radii of
curvature of WGS 84 there. The sheet stays flat, so lengths far from the origin are a little out:
at 60 degrees of latitude a point 500 m east and 500 m north lies 7 cm from where it should, at 45
degrees 4 cm; on a garden of 100 m it is 3 mm at most.
"""

import math

from design.geometry import XY

# NIMA TR8350.2, third edition (2000), table 3.1: WGS 84 semi-major axis and flattening
SEMI_MAJOR_M = 6_378_137.0
FLATTENING = 1 / 298.257223563
_ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING)
MOST_LATITUDE_DEG = 85.0  # nearer to a pole the parallels curl up within a site


def metres_per_degree(latitude_deg: float) -> tuple[float, float]:
    """Length of a degree of longitude and of one of latitude there [m].

    Radii of curvature in the prime vertical and in the meridian: J. P. Snyder, Map Projections, a
    Working Manual, USGS Professional Paper 1395 (1987), equations 4-20 and 4-18.
    """
    sine = math.sin(math.radians(latitude_deg))
    under = 1 - _ECCENTRICITY_SQUARED * sine * sine
    prime_vertical_m = SEMI_MAJOR_M / math.sqrt(under)
    meridian_m = SEMI_MAJOR_M * (1 - _ECCENTRICITY_SQUARED) / under**1.5
    east_m = prime_vertical_m * math.cos(math.radians(latitude_deg))
    return math.radians(east_m), math.radians(meridian_m)


class TangentPlane:
    """``origin`` is longitude and latitude [degrees] of the point that becomes 0, 0."""

    def __init__(self, origin: XY) -> None:
        self.origin = origin
        self._east_m, self._north_m = metres_per_degree(origin[1])

    def metres(self, place: XY) -> XY:
        """Site metres of a longitude and latitude [degrees]."""
        turn = (place[0] - self.origin[0] + 180) % 360 - 180  # the short way round the date line
        return turn * self._east_m, (place[1] - self.origin[1]) * self._north_m

    def degrees(self, point: XY) -> XY:
        """Longitude and latitude [degrees] of a point in site metres."""
        longitude = self.origin[0] + point[0] / self._east_m
        return (longitude + 180) % 360 - 180, self.origin[1] + point[1] / self._north_m
