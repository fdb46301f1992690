"""The ground as it lies: surfaces, areas, buried services and the marks that tapes start from."""

from collections.abc import Iterable
from math import hypot

import shapely
from shapely import LineString, MultiLineString, Polygon, make_valid
from shapely.geometry.base import BaseGeometry

from design.document import Area, Service, Surface

from .labels import along, around, text_width
from .measures import depth_words
from .palette import SERVICE_INKS
from .scene import Scene
from .shapes import XY, Circle, Line, Shape, Text
from .shapes import Polygon as Area2D

KIND_WORDS = {
    "building": "Building", "paving": "Paving", "water": "Open water", "tree": "Tree",
    "future_work": "Future work", "keep_out": "Keep out", "neighbour": "Neighbour", "fence": "Fence",
    "turf": "Lawn", "bed": "Planting bed", "hedge": "Hedge", "vegetables": "Vegetables", "pots": "Pots",
    "gas": "Gas", "electric": "Electricity", "telecom": "Phone and data", "sewer": "Sewer",
    "drain": "Drain", "future_drain": "Drain to come",
}  # fmt: skip
SERVICE_WORDS = {**KIND_WORDS, "water": "Water pipe"}
_CELLS = 9  # of the grid on which a name looks for room
HATCHES = {"building": (9.0, 45), "future_work": (10.0, -45), "keep_out": (7.0, 45), "water": (8.0, 0)}


def draw_ground(scene: Scene) -> None:
    for area in scene.plan.ground.areas:
        _draw_area(scene, area)
    for surface in scene.plan.ground.surfaces:
        _draw_surface(scene, surface)


def _draw_area(scene: Scene, area: Area) -> None:
    rings = tuple(scene.frame.path(ring) for ring in (area.outline, *area.holes))
    title = f"{area.label or area.id}: {KIND_WORDS[area.cover].lower()}"
    scene.add("ground", "area", area.id, title, [Area2D(rings, f"area-{area.cover}")])
    scene.used.add(f"area-{area.cover}")


def _draw_surface(scene: Scene, surface: Surface) -> None:
    ring = scene.frame.path(surface.outline)
    shapes: list[Shape] = [Area2D((ring,), f"surface-{surface.kind}")]
    if surface.kind in HATCHES:
        spacing, angle = HATCHES[surface.kind]
        shapes += hatch(ring, spacing * scene.unit, angle, f"hatch-{surface.kind}")
    title = f"{surface.label or surface.id}: {KIND_WORDS[surface.kind].lower()}"
    scene.add("ground", "surface", surface.id, title, shapes)
    scene.used.add(f"surface-{surface.kind}")


def hatch(ring: tuple[XY, ...], spacing: float, angle_deg: float, style: str) -> list[Shape]:
    """Parallel lines inside a ring, as plain lines, so that page and paper draw the same."""
    shape = make_valid(Polygon(ring))
    if shape.is_empty:
        return []
    west, north, east, south = shape.bounds
    slant = {0: 0.0, 45: 1.0, -45: -1.0}[int(angle_deg)]
    tall, wide = south - north, east - west
    low = -tall if slant else 0.0
    count = min(int((wide + 2 * tall if slant else tall) / spacing) + 2, 600)
    lines = []
    for i in range(count):
        step = low + i * spacing
        if slant:
            start = (west + step, south if slant > 0 else north)
            end = (west + step + tall, north if slant > 0 else south)
        else:
            start, end = (west, north + step), (east, north + step)
        lines.append(LineString([start, end]))
    cut = MultiLineString(lines).intersection(shape)
    pieces = [p for p in getattr(cut, "geoms", [cut]) if isinstance(p, LineString) and p.length > 0.5]
    return [Line(tuple((x, y) for x, y in piece.coords), style) for piece in pieces]


def draw_services(scene: Scene) -> None:
    for service in scene.plan.ground.services:
        _draw_service(scene, service)


def _draw_service(scene: Scene, service: Service) -> None:
    path = scene.frame.path(service.path)
    letter = SERVICE_INKS[service.kind][1]
    depth = (
        "depth unknown"
        if service.depth_m is None
        else f"{depth_words(service.depth_m, scene.options.units)} deep"
    )
    state = "located" if service.located else "not yet located"
    words = SERVICE_WORDS[service.kind]
    title = f"{service.label or service.id}: buried {words.lower()}, {depth}, {state}"
    shapes: list[Shape] = [Line(path, f"service-{service.kind}", 2.2 if service.located else None)]
    shapes += [
        Text((x, y + scene.size * 0.3), letter, f"service-text-{service.kind}", scene.size * 0.85, "middle")
        for x, y in _spaced(path, scene.size * 9)
    ]
    for text in shapes[1:]:
        if isinstance(text, Text):
            scene.space.block((text.at[0], text.at[1] - scene.size * 0.3), scene.size * 0.5)
    scene.add("services", "service", service.id, title, shapes)
    scene.used.add(f"service-{service.kind}")
    if scene.options.shows("labels"):
        full = f"{words}, {depth}" + ("" if service.located else ", not located")
        wordings = (words,) if scene.options.plain else (full, f"{words}, {depth}", depth)
        _label_service(scene, service, path, wordings)


def _label_service(scene: Scene, service: Service, path: tuple[XY, ...], wordings: tuple[str, ...]) -> None:
    """The longest wording that fits beside the line."""
    style, size, gap = f"service-text-{service.kind}", scene.size * 0.75, 9 * scene.unit
    candidates = [text for words in wordings for text in along(path, words, style, size, gap)]
    scene.label(scene.space.put(candidates))


def _spaced(path: tuple[XY, ...], spacing: float) -> list[XY]:
    """Points along a path about every ``spacing``, at least one."""
    line = LineString(path)
    count = max(1, int(line.length / spacing))
    places = (line.interpolate((i + 0.5) / count, normalized=True) for i in range(count))
    return [(p.x, p.y) for p in places]


def draw_marks(scene: Scene) -> None:
    for mark in scene.plan.ground.marks:
        at, gap = scene.frame.page(mark.at), 8 * scene.unit
        title = f"Mark {mark.id}: {mark.label}" if mark.label else f"Mark {mark.id}"
        scene.add("marks", "mark", mark.id, title, cross_shapes(at, scene.unit))
        scene.space.block(at, 5 * scene.unit)
        if scene.options.shows("labels"):
            scene.label(scene.space.put_anyway(around(at, mark.id, "label-strong", scene.size, gap)))
        scene.used.add("mark")


def cross_shapes(at: XY, unit: float) -> list[Shape]:
    x, y, arm = at[0], at[1], 5 * unit
    return [
        Circle(at, arm * 0.62, "furniture-open"),
        Line(((x - arm, y), (x + arm, y)), "mark"),
        Line(((x, y - arm), (x, y + arm)), "mark"),
    ]


def label_ground(scene: Scene) -> None:
    """Names of areas and surfaces, last, where the plan leaves room."""
    ground = scene.plan.ground
    for area in ground.areas:
        _label_ring(scene, area.label or area.id, Polygon(area.outline, area.holes), scene.size)
    for surface in ground.surfaces:
        if surface.kind != "fence":
            words = surface.label or KIND_WORDS[surface.kind]
            _label_ring(scene, words, Polygon(surface.outline), scene.size * 0.85)


def _label_ring(scene: Scene, words: str, site_shape: Polygon, size: float) -> None:
    rings = [scene.frame.path(ring.coords) for ring in (site_shape.exterior, *site_shape.interiors)]
    shape = make_valid(Polygon(rings[0], rings[1:]))
    if not shape.is_empty:
        wanted = words if len(words) <= 40 else words[:39] + "…"
        for text in scene.space.put_together(_inside(shape, wanted, size)):
            scene.label(text)


def _inside(shape: BaseGeometry, words: str, size: float) -> Iterable[list[Text]]:
    """Candidates on a coarse grid of the shape: wholly inside it first, then two lines, then half inside."""
    shapely.prepare(shape)
    spots = _spots(shape)
    west, north, east, south = shape.bounds
    wide = text_width(words, size)
    upright = east - west < wide < south - north  # a narrow strip: upwards along it
    for share in (1.0, 0.5):
        half = wide / 2 * share
        run = (0.0, half) if upright else (half, 0.0)
        for x, y in spots:
            if shape.covers(LineString([(x - run[0], y - run[1]), (x + run[0], y + run[1])])):
                yield [_turned((x, y), words, size) if upright else _level((x, y), words, size)]
        if share == 1.0 and " " in words and not upright:
            yield from (_stacked(spot, words, size) for spot in spots)
    yield [_level(spots[0], words, size)]


def _level(at: XY, words: str, size: float) -> Text:
    return Text((at[0], at[1] + size * 0.35), words, "label", size, "middle")


def _turned(at: XY, words: str, size: float) -> Text:
    return Text((at[0] + size * 0.35, at[1]), words, "label", size, "middle", -90)


def _spots(shape: BaseGeometry) -> list[XY]:
    centre = shape.representative_point()
    west, north, east, south = shape.bounds
    steps = [(i + 0.5) / _CELLS for i in range(_CELLS)]
    grid = [(west + (east - west) * u, north + (south - north) * v) for u in steps for v in steps]
    return [(centre.x, centre.y), *sorted(grid, key=lambda p: hypot(p[0] - centre.x, p[1] - centre.y))]


def _stacked(at: XY, words: str, size: float) -> list[Text]:
    """Two lines where one is too long, parted at the blank that is nearest to the middle."""
    blanks = [i for i, letter in enumerate(words) if letter == " "]
    cut = min(blanks, key=lambda i: abs(i - len(words) / 2))
    lines = ((words[:cut], -0.27), (words[cut + 1 :], 0.97))
    return [Text((at[0], at[1] + size * down), line, "label", size, "middle") for line, down in lines]
