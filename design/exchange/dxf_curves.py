"""Curves of a DXF file as chains of straight lines."""

import math
from collections.abc import Iterable
from itertools import islice
from typing import Any

from ezdxf import path
from ezdxf.math import Vec3

from design.exchange import limits
from design.exchange.refused import FileRefused

CURVES = ("LWPOLYLINE", "POLYLINE", "CIRCLE", "ARC", "ELLIPSE", "SPLINE")
# How far the middle of a straight piece may lie from the curve, as a share of the curve's own size:
# 5 mm on a bed of 5 m, whatever unit the numbers turn out to be in.
SAG_SHARE = 1e-3


def curve_points(entity: Any) -> list[Vec3]:
    """The vertices, or points along the curve within the sag. Raises FileRefused for endless ones."""
    if entity.dxftype() == "POLYLINE" and not (entity.is_2d_polyline or entity.is_3d_polyline):
        return []  # a mesh
    way = path.make_path(entity)
    if not way.has_curves:
        return _bounded(way.control_vertices())
    size = _size(way.control_vertices())
    if size <= 0 or not math.isfinite(size):
        return []
    return _bounded(way.flattening(size * SAG_SHARE, segments=4))


def _bounded(points: Iterable[Vec3]) -> list[Vec3]:
    found = list(islice(points, limits.MAX_POINTS + 1))
    if len(found) > limits.MAX_POINTS:
        raise FileRefused(f"One curve of the drawing has more than {limits.MAX_POINTS:,} corners.")
    return found


def _size(points: list[Vec3]) -> float:
    xs, ys = [p.x for p in points], [p.y for p in points]
    return max(max(xs) - min(xs), max(ys) - min(ys))
