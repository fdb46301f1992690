"""Shapes from a DXF file: everything in model space, seen from above."""

import math
from collections.abc import Iterator
from io import StringIO
from typing import Any

import ezdxf
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.lldxf.const import DXFError
from ezdxf.math import Vec3

from design.exchange import limits
from design.exchange.dxf_blocks import exploded
from design.exchange.dxf_curves import CURVES, curve_points
from design.exchange.dxf_text import dxf_text
from design.exchange.joining import joined
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

# DXF reference, header variable $INSUNITS: drawing units of inserted blocks
INSUNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 7: "km", 10: "yd", 21: "ft"}
_FLAT_M = 1e-9


def read_dxf(data: bytes) -> Shapes:
    """All points, lines and outlines, by layer, in the file's own unit. Raises FileRefused."""
    document = _document(dxf_text(data))
    found, pieces = Collector(), Collector()
    reader = _Reader(found, pieces)
    try:
        for entity in exploded(document.modelspace(), found.leave_out):
            reader.read(entity)
    except RecursionError:
        raise FileRefused("Its blocks hold one another without an end.") from None
    except (DXFError, ArithmeticError, ValueError, TypeError, AttributeError, IndexError, KeyError) as error:
        raise FileRefused(
            f"Something in the drawing is not sound DXF ({one_line(str(error), 80)})."
        ) from None
    for shape in joined(pieces.shapes):
        found.add(shape)
    if reader.has_heights:
        found.notes.append("Lines and outlines have heights in the file; they are taken as seen from above.")
    code = document.header.get("$INSUNITS", 0)
    return found.done(INSUNITS.get(code, "") if isinstance(code, int) else "")


class _Reader:
    """``pieces`` takes single lines and arcs, of which outlines are often put together."""

    def __init__(self, found: Collector, pieces: Collector) -> None:
        self._found, self._pieces = found, pieces
        self.has_heights = False

    def read(self, entity: DXFEntity) -> None:
        kind, layer = entity.dxftype(), layer_name(entity.dxf.get("layer", "0"), "0")
        if kind == "POINT":
            place = Vec3(entity.dxf.location)
            z = place.z if math.isfinite(place.z) and place.z else None
            self._found.add(Shape(layer, "point", (checked_point(place.x, place.y),), z=z))
        elif kind in ("TEXT", "MTEXT"):
            self._text(entity, layer)
        elif kind == "LINE":
            path = self._flat([entity.dxf.start, entity.dxf.end])
            self._pieces.add(open_or_ring(layer, path, closed=False))
        elif kind in CURVES:
            path = self._flat(curve_points(entity))
            into = self._pieces if kind == "ARC" else self._found
            into.add(open_or_ring(layer, path, closed=_is_closed(entity)))
        elif kind in ("SOLID", "TRACE", "3DFACE"):
            # a face of three or four corners; the library types every entity by their common base
            corners = entity.wcs_vertices()  # type: ignore[attr-defined]  # as all three kinds have it
            self._found.add(open_or_ring(layer, self._flat(corners), closed=True))
        else:
            self._found.leave_out(kind)

    def _text(self, entity: Any, layer: str) -> None:
        words = entity.plain_text()
        label = one_line(words, limits.MAX_LABEL)
        if label:
            place = Vec3(entity.dxf.insert)
            self._found.add(Shape(layer, "point", (checked_point(place.x, place.y),), label))

    def _flat(self, points: Any) -> Path:
        return tuple(self._seen_from_above(points))

    def _seen_from_above(self, points: Any) -> Iterator[tuple[float, float]]:
        for place in points:
            at = Vec3(place)
            self.has_heights = self.has_heights or abs(at.z) > _FLAT_M
            yield checked_point(at.x, at.y)


def _is_closed(entity: Any) -> bool:
    kind = entity.dxftype()
    if kind == "LWPOLYLINE":
        return bool(entity.closed)
    if kind == "POLYLINE":
        return bool(entity.is_closed)
    return kind == "CIRCLE" or (kind == "SPLINE" and bool(entity.closed))


def _document(text: str) -> Any:
    try:
        return ezdxf.read(StringIO(text))  # type: ignore[attr-defined]  # exported without __all__
    except RecursionError:
        raise FileRefused("The file is nested too deeply to be a drawing.") from None
    except (DXFError, OSError, ArithmeticError, ValueError, TypeError, AttributeError, LookupError) as error:
        words = one_line(str(error), 80)
        raise FileRefused(
            f"This is no sound DXF ({words}). Open it in the program that wrote it and save it again."
        ) from None
