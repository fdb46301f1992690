"""The plan as a DXF drawing in metres, each kind of thing on a layer with a plain name."""

import io
import logging
from collections.abc import Sequence
from typing import Any

import ezdxf

from design.document import HeadNode, Plan
from design.drawing.ground_layer import SERVICE_WORDS
from design.drawing.palette import (
    ALERT,
    AREA_FILLS,
    CABLE,
    EARTH_DARK,
    INK,
    MAIN,
    SERVICE_INKS,
    SURFACE_FILLS,
)
from design.exchange import plain_layers as names
from design.exchange.shapes import one_line
from design.geometry import XY

METRES = 6  # DXF reference, $INSUNITS
TEXT_M = 0.25
HEAD_M, DEVICE_M = 0.15, 0.2
THROW = "Throw"

logging.getLogger("ezdxf").setLevel(logging.ERROR)


def dxf_text_of(plan: Plan) -> str:
    """The file as text, for UTF-8."""
    document: Any = ezdxf.new("R2010")  # type: ignore[attr-defined]  # exported without __all__
    document.header["$INSUNITS"] = METRES
    document.header["$MEASUREMENT"] = 1
    drawing = _Drawing(document)
    _draw_ground(drawing, plan)
    _draw_layout(drawing, plan)
    out = io.StringIO()
    document.write(out)
    return out.getvalue()


class _Drawing:
    def __init__(self, document: Any) -> None:
        self._document, self._space = document, document.modelspace()

    def _layer(self, name: str, colour: str) -> dict[str, str]:
        if name not in self._document.layers:
            layer = self._document.layers.add(name)
            layer.rgb = tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))
        return {"layer": name}

    def ring(self, layer: str, colour: str, points: Sequence[XY]) -> None:
        self._space.add_lwpolyline(points, close=True, dxfattribs=self._layer(layer, colour))

    def path(self, layer: str, colour: str, points: Sequence[XY]) -> None:
        self._space.add_lwpolyline(points, dxfattribs=self._layer(layer, colour))

    def circle(self, layer: str, colour: str, at: XY, radius_m: float) -> None:
        self._space.add_circle(at, radius_m, dxfattribs=self._layer(layer, colour))

    def point(self, layer: str, colour: str, at: XY, z_m: float = 0.0) -> None:
        self._space.add_point((*at, z_m), dxfattribs=self._layer(layer, colour))

    def sector(self, layer: str, colour: str, head: HeadNode) -> None:
        """Bearings run clockwise from north, angles of a drawing against the clock from east."""
        if head.reach_m is None:
            return
        attributes = self._layer(layer, colour)
        if head.sweep_deg >= 360:
            self._space.add_circle(head.at, head.reach_m, dxfattribs=attributes)
            return
        end = 90 - head.from_deg
        self._space.add_arc(head.at, head.reach_m, end - head.sweep_deg, end, dxfattribs=attributes)

    def text(self, layer: str, colour: str, at: XY, words: str) -> None:
        plain = one_line(words, 200).replace("^", "^ ").replace("%%", "% %")
        if plain:
            attributes = {**self._layer(layer, colour), "insert": at, "height": TEXT_M}
            self._space.add_text(plain, dxfattribs=attributes)


def _draw_ground(drawing: _Drawing, plan: Plan) -> None:
    ground = plan.ground
    for area in ground.areas:
        layer, colour = names.area_layer(area), _darker(AREA_FILLS[area.cover])
        for ring in (area.outline, *area.holes):
            drawing.ring(layer, colour, ring)
        drawing.text(f"{layer} names", colour, area.outline[0], names.caption(area))
    for surface in ground.surfaces:
        layer, colour = names.surface_layer(surface), _darker(SURFACE_FILLS[surface.kind])
        drawing.ring(layer, colour, surface.outline)
        drawing.text(f"{layer} names", colour, surface.outline[0], names.caption(surface))
    for service in ground.services:
        layer, colour = names.service_layer(service), SERVICE_INKS[service.kind][0]
        drawing.path(layer, colour, service.path)
        drawing.text(f"{layer} names", colour, service.path[0], _service_words(plan, service.id))
    for mark in ground.marks:
        drawing.point(names.MARKS, INK, mark.at)
        drawing.text(f"{names.MARKS} names", INK, mark.at, mark.id)
    for level in ground.levels:
        drawing.point(names.LEVELS, INK, level.at, level.z_m)
        drawing.text(f"{names.LEVELS} names", INK, level.at, f"{level.z_m:.2f}")


def _service_words(plan: Plan, service_id: str) -> str:
    service = next(s for s in plan.ground.services if s.id == service_id)
    depth = "depth unknown" if service.depth_m is None else f"{service.depth_m:.2f} m deep"
    return f"{SERVICE_WORDS[service.kind]}, {depth}{'' if service.located else ', not located'}"


def _draw_layout(drawing: _Drawing, plan: Plan) -> None:
    ends = names.pipe_ends(plan)
    for pipe in plan.layout.pipes:
        path = [ends[pipe.from_], *pipe.via, ends[pipe.to]]
        drawing.path(names.pipe_layer(pipe), MAIN, path)
    for cable in plan.layout.cables:
        drawing.path(names.CABLES, CABLE, [ends[cable.from_], *cable.via, ends[cable.to]])
    for sleeve in plan.layout.sleeves:
        drawing.path(names.SLEEVES, EARTH_DARK, sleeve.path)
    for node in plan.layout.nodes:
        layer = names.NODE_LAYERS[node.kind]
        if node.kind == "junction":
            drawing.point(layer, MAIN, node.at)
            continue
        drawing.circle(layer, MAIN, node.at, HEAD_M if isinstance(node, HeadNode) else DEVICE_M)
        drawing.text(
            f"{layer} names", MAIN, (node.at[0] + DEVICE_M, node.at[1] + DEVICE_M), node.label or node.id
        )
        if isinstance(node, HeadNode):
            drawing.sector(THROW, MAIN, node)
    for note in plan.layout.notes:
        if note.at is not None:
            drawing.text(names.NOTES, ALERT, note.at, note.text)


def _darker(fill: str) -> str:
    """The plan's pale fill as a line that is seen on white and on black."""
    return "#" + "".join(f"{int(fill[i : i + 2], 16) * 6 // 10:02x}" for i in (1, 3, 5))
