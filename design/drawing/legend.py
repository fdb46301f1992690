"""The key to the drawing: only what is on it."""

from collections.abc import Callable, Iterable
from functools import partial

from hydraulics.catalogue import PipePart

from .device_symbols import (
    controller_shapes,
    drip_inlet_shapes,
    head_shapes,
    supply_shapes,
    valve_shapes,
)
from .ground_layer import HATCHES, KIND_WORDS, SERVICE_WORDS, cross_shapes, hatch
from .labels import text_width
from .palette import AREA_FILLS, SERVICE_INKS, SURFACE_FILLS, zone_number
from .scene import Scene
from .shapes import XY, Circle, Line, Polygon, Shape, Text
from .works_layer import pipe_widths, trench_shapes
from .zones_layer import badge_shapes, zone_legend

Sample = Callable[[float, float], list[Shape]]  # middle of the swatch on the page
Entry = tuple[str, Sample]
_SWATCH = 24.0


def draw_legend(scene: Scene, top: float) -> float:
    """Puts the entries in rows from ``top`` down; returns where they end."""
    entries = list(_entries(scene))
    if not entries:
        return top
    unit, size = scene.unit, scene.size * 0.9
    widest = max(text_width(words, size) for words, _ in entries)
    column = min(widest + (_SWATCH + 22) * unit, scene.options.width - 26)
    columns = max(1, int((scene.options.width - 26) / column))
    rows = -(-len(entries) // columns)
    column = (scene.options.width - 26) / columns
    row_height = 19 * unit
    shapes: list[Shape] = []
    for index, (words, sample) in enumerate(entries):
        x = 13 + (index // rows) * column
        y = top + (index % rows + 0.5) * row_height
        shapes += sample(x + _SWATCH * unit / 2, y)
        fitted = _fitted(words, size, column - (_SWATCH + 12) * unit)
        shapes.append(Text((x + (_SWATCH + 8) * unit, y + size * 0.35), fitted, "furniture-text", size))
    scene.add("legend", "legend", "", "Key", shapes)
    return top + rows * row_height + 10 * unit


def _fitted(words: str, size: float, room: float) -> str:
    if text_width(words, size) <= room:
        return words
    keep = max(3, int(room / (size * 0.56)) - 1)
    return words[:keep].rstrip() + "…"


def _entries(scene: Scene) -> Iterable[Entry]:
    yield from _device_entries(scene)
    yield from _zone_entries(scene)
    yield from _pipe_entries(scene)
    yield from _trench_entries(scene)
    yield from _ground_entries(scene)


def _device_entries(scene: Scene) -> Iterable[Entry]:
    unit = scene.unit * 0.9
    samples: list[tuple[str, str, Sample]] = [
        ("supply", "Water supply", lambda x, y: supply_shapes((x, y), unit)),
        ("controller", "Controller", lambda x, y: controller_shapes((x, y), unit)),
        ("valve", "Valve", lambda x, y: valve_shapes((x, y), unit)),
        ("head", "Sprinkler head", lambda x, y: head_shapes((x, y), unit, 1)),
        ("own-valve", "Head with its own valve", lambda x, y: head_shapes((x, y), unit, 1, own_valve=True)),
        ("drip-inlet", "Start of drip line", lambda x, y: drip_inlet_shapes((x, y), unit, 1)),
    ]
    for key, words, sample in samples:
        if key in scene.used:
            yield words, sample
    if "mark" in scene.used:
        yield "Mark to measure from", lambda x, y: cross_shapes((x, y), unit)


def _zone_entries(scene: Scene) -> Iterable[Entry]:
    if not scene.used & {"zone", "drip"}:
        return
    for position, name in zone_legend(scene):
        yield f"Zone {name}", partial(_zone_sample, scene, position)


def _pipe_entries(scene: Scene) -> Iterable[Entry]:
    if scene.options.plain:
        for role, words in (("main", "Main pipe"), ("lateral", "Pipe to the heads")):
            if f"pipe-{role}" in scene.used:
                yield words, partial(_line_sample, scene.unit, f"pipe-{role}", 2.4 * scene.unit)
    for code, width in sorted(pipe_widths(scene).items(), key=lambda item: item[1]):
        if f"size-{code}" in scene.used and not scene.options.plain:
            part = scene.part(code)
            words = (
                f"Pipe {part.size} ({part.material.upper()})"
                if isinstance(part, PipePart)
                else f"Pipe {code}"
            )
            yield words, partial(_line_sample, scene.unit, "pipe-main", width)
    if "cable" in scene.used:
        yield "Control cable", partial(_line_sample, scene.unit, "cable", None)


def _trench_entries(scene: Scene) -> Iterable[Entry]:
    methods = {"machine": "Trench by machine", "hand": "Trench dug by hand", "bore": "Bored under a surface"}
    for method, words in methods.items():
        if f"trench-{method}" in scene.used:
            yield words, partial(_trench_sample, scene.unit, method)


def _ground_entries(scene: Scene) -> Iterable[Entry]:
    kinds = [(f"area-{k}", KIND_WORDS[k]) for k in AREA_FILLS]
    kinds += [(f"surface-{k}", KIND_WORDS[k]) for k in SURFACE_FILLS]
    for style, words in kinds:
        if style in scene.used:
            yield words, partial(_box_sample, scene.unit, style)
    for kind, (_, letter) in SERVICE_INKS.items():
        if f"service-{kind}" in scene.used:
            words = f"{letter}: buried {SERVICE_WORDS[kind].lower()}"
            yield words, partial(_line_sample, scene.unit, f"service-{kind}", None)


def _zone_sample(scene: Scene, position: int, x: float, y: float) -> list[Shape]:
    box = Polygon((_box(x, y, scene.unit),), f"zone-{zone_number(position)}")
    if scene.options.shows("zones"):
        return [box, *badge_shapes((x, y), scene.unit * 0.75, position)]
    return [box, Circle((x, y), 2.6 * scene.unit, f"head-{zone_number(position)}")]


def _line_sample(unit: float, style: str, width: float | None, x: float, y: float) -> list[Shape]:
    half = _SWATCH / 2 * unit
    return [Line(((x - half, y), (x + half, y)), style, width)]


def _trench_sample(unit: float, method: str, x: float, y: float) -> list[Shape]:
    half = _SWATCH / 2 * unit
    return trench_shapes(((x - half, y), (x + half, y)), method, unit)


def _box_sample(unit: float, style: str, x: float, y: float) -> list[Shape]:
    ring = _box(x, y, unit)
    hatched = HATCHES.get(style.removeprefix("surface-")) if style.startswith("surface-") else None
    shapes: list[Shape] = [Polygon((ring,), style)]
    if hatched:
        shapes += hatch(ring, hatched[0] * unit, hatched[1], style.replace("surface-", "hatch-"))
    return shapes


def _box(x: float, y: float, unit: float) -> tuple[XY, ...]:
    wide, tall = _SWATCH / 2 * unit, 6 * unit
    return ((x - wide, y - tall), (x + wide, y - tall), (x + wide, y + tall), (x - wide, y + tall))
