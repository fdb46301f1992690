"""What the heads wet: a patch and a number for each zone, and the throw of each head."""

from shapely import LineString, contains_xy, union_all
from shapely import Polygon as SitePolygon
from shapely.geometry.base import BaseGeometry

from design.document import HeadNode
from hydraulics.catalogue import DripPart

from .labels import text_width
from .palette import zone_number
from .scene import Scene
from .shapes import XY, Circle, Line, Polygon, Shape, Text
from .wetting import area_of, area_polygon, drip_rows, wet_radius_m, wet_ring
from .works_layer import pipe_path
from .zone_patches import Throw, zone_patches

Ring = tuple[XY, ...]
_CELLS = 9  # of the grid on which a badge looks for room


def draw_wetting(scene: Scene) -> None:
    """The patches first, so that every throw stays visible on its neighbour's ground."""
    heads = [node for node in scene.plan.layout.nodes if isinstance(node, HeadNode)]
    rings = {head.id: ring for head in heads if (ring := _ring(scene, head))}
    scene.patches = _patches(scene, heads, rings)
    for position, pieces in scene.patches.items():
        shapes: list[Shape] = [_on_page(scene, piece, f"zone-{zone_number(position)}") for piece in pieces]
        scene.add("wetting", "zone", "", _zone_title(scene, position), shapes)
        scene.used.add("zone")
    for head in heads:
        thrown = _throw(scene, head, rings.get(head.id, ()))
        if thrown:
            scene.add("wetting", "wetting", head.id, f"Wetted by {head.label or head.id}", thrown)


def _ring(scene: Scene, head: HeadNode) -> Ring:
    """Outline of what a sprinkler wets, in site metres; none for drip."""
    part = scene.part(head.part)
    radius = None if isinstance(part, DripPart) else wet_radius_m(head, part, scene.report)
    return wet_ring(head, part, radius, scene.plan.ground.areas) if radius else ()


def _patches(scene: Scene, heads: list[HeadNode], rings: dict[str, Ring]) -> dict[int, list[SitePolygon]]:
    zones = scene.zone_positions()
    thrown = [Throw(zones.get(h.id, 0), h.at, rings[h.id]) for h in heads if h.id in rings]
    owned: dict[int, list[Ring]] = {}
    for head in heads:
        area = area_of(head, scene.plan.ground.areas) if _is_drip(scene, head) else None
        if area:
            owned.setdefault(zones.get(head.id, 0), []).append(tuple(area.outline))
    return zone_patches(thrown, owned)


def _is_drip(scene: Scene, head: HeadNode) -> bool:
    return isinstance(scene.part(head.part), DripPart)


def _throw(scene: Scene, head: HeadNode, ring: Ring) -> list[Shape]:
    part, number = scene.part(head.part), scene.head_zone_number(head.id)
    if isinstance(part, DripPart):
        area = area_of(head, scene.plan.ground.areas)
        rows = drip_rows(area_polygon(area), part) if area else ()
        scene.used.add("drip")
        return [Line(scene.frame.path(row), f"drip-{number}") for row in rows]
    return [Polygon((scene.frame.path(ring),), f"wet-{number}")] if ring else []


def _on_page(scene: Scene, piece: SitePolygon, style: str) -> Polygon:
    rings = (piece.exterior, *piece.interiors)
    return Polygon(tuple(scene.frame.path(ring.coords) for ring in rings), style)


def _zone_title(scene: Scene, position: int) -> str:
    zones = scene.report.zones if scene.report else ()
    return (
        f"Zone {position + 1}: {zones[position].label or zones[position].id}" if position < len(zones) else ""
    )


def draw_zone_numbers(scene: Scene) -> None:
    """A badge in the largest piece of each zone: the number tells zones apart, not the colour alone."""
    room = 11 * scene.unit / scene.frame.scale
    paths = [LineString(path) for pipe in scene.plan.layout.pipes if (path := pipe_path(scene, pipe))]
    # each widened by itself: hundreds that cross would take gigabytes to widen at once
    pipes = union_all([path.buffer(room, quad_segs=2) for path in paths])
    for position, pieces in scene.patches.items():
        if pieces and zone_legend(scene):
            at = _free_spot(scene, max(pieces, key=lambda piece: piece.area), pipes, room)
            scene.space.block(at, 9 * scene.unit)
            badge = badge_shapes(at, scene.unit, position)
            scene.add("zones", "zone-badge", "", _zone_title(scene, position), badge)


def _free_spot(scene: Scene, piece: SitePolygon, pipes: BaseGeometry, room: float) -> XY:
    """Nearest to the middle of the piece, clear of symbols and, where there is room, of pipes."""
    west, south, east, north = piece.bounds
    steps = [(i + 0.5) / _CELLS for i in range(_CELLS)]
    grid = [(west + (east - west) * u, south + (north - south) * v) for u in steps for v in steps]
    grid.sort(key=lambda at: abs(at[0] - piece.centroid.x) + abs(at[1] - piece.centroid.y))
    inner = piece.buffer(-room, quad_segs=2)
    spots = [(piece.centroid.x, piece.centroid.y), *grid]
    for ground in (inner.difference(pipes), inner):
        for at, is_in in zip(spots, contains_xy(ground, spots), strict=True):
            page = scene.frame.page(at)
            if is_in and scene.space.is_clear(page, 11 * scene.unit):
                return page
    middle = piece.representative_point()
    return scene.frame.page((middle.x, middle.y))


def badge_shapes(at: XY, unit: float, position: int) -> list[Shape]:
    words, size = str(position + 1), 10.5 * unit
    radius = max(8 * unit, text_width(words, size) / 2 + 3 * unit)
    disc: Shape = Circle(at, radius, f"badge-{zone_number(position)}")
    return [disc, Text((at[0], at[1] + size * 0.36), words, "badge-text", size, "middle")]


def zone_legend(scene: Scene) -> list[tuple[int, str]]:
    """Position and name of each zone that the report found."""
    zones = scene.report.zones if scene.report else ()
    return [(position, zone.label or zone.id) for position, zone in enumerate(zones)]
