"""Supply, controller, valves and heads, and the ground that the heads wet."""

from design.document import ControllerNode, HeadNode, JunctionNode, Node, SupplyNode, ValveNode
from design.report import CheckReport, HeadResult
from hydraulics.catalogue import DripPart, HeadPart

from .labels import around
from .measures import flow_words, length_words, pressure_words
from .palette import zone_number
from .scene import Scene
from .shapes import XY, Circle, Line, Polygon, Shape
from .wetting import area_of, area_polygon, drip_rows, point_at, wet_radius_m, wet_ring


def draw_wetting(scene: Scene) -> None:
    for node in scene.plan.layout.nodes:
        if isinstance(node, HeadNode):
            shapes = wetting_shapes(scene, node)
            if shapes:
                title = f"Wetted by {node.label or node.id}"
                scene.add("wetting", "wetting", node.id, title, shapes)


def wetting_shapes(scene: Scene, head: HeadNode) -> list[Shape]:
    part, number = scene.part(head.part), scene.head_zone_number(head.id)
    areas = scene.plan.ground.areas
    if isinstance(part, DripPart):
        area = area_of(head, areas)
        rows = drip_rows(area_polygon(area), part) if area else ()
        scene.used.add("drip")
        return [Line(scene.frame.path(row), f"drip-{number}") for row in rows]
    radius = wet_radius_m(head, part, scene.report)
    if not radius:
        return []
    scene.used.add("wet")
    return [Polygon((scene.frame.path(wet_ring(head, part, radius, areas)),), f"wet-{number}")]


def block_devices(scene: Scene) -> None:
    """Symbols take their place before any label does."""
    for node in scene.plan.layout.nodes:
        if not isinstance(node, JunctionNode):
            scene.space.block(scene.frame.page(node.at), 6 * scene.unit)


def draw_devices(scene: Scene) -> None:
    for node in scene.plan.layout.nodes:
        kind, shapes = _symbol(scene, node)
        scene.add("devices", kind, node.id, _title(scene, node), shapes)
        scene.used.add(kind if kind != "head" else _head_key(scene, node))
    if not any(isinstance(n, SupplyNode) for n in scene.plan.layout.nodes):
        at = scene.frame.page(scene.plan.supply.at)
        scene.add("devices", "supply", "supply", "Water supply", supply_shapes(at, scene.unit))
        scene.used.add("supply")


def _symbol(scene: Scene, node: Node) -> tuple[str, list[Shape]]:
    at, unit = scene.frame.page(node.at), scene.unit
    if isinstance(node, SupplyNode):
        return "supply", supply_shapes(at, unit)
    if isinstance(node, ValveNode):
        return "valve", valve_shapes(at, unit)
    if isinstance(node, ControllerNode):
        return "controller", controller_shapes(at, unit)
    if isinstance(node, HeadNode):
        return "head", _head_shapes(scene, node, at)
    return "junction", [Circle(at, 1.6 * unit, "junction")]


def _head_key(scene: Scene, node: Node) -> str:
    part = scene.part(node.part) if isinstance(node, HeadNode) else None
    if isinstance(part, DripPart):
        return "drip-inlet"
    return "own-valve" if isinstance(part, HeadPart) and part.own_valve else "head"


def _head_shapes(scene: Scene, head: HeadNode, at: XY) -> list[Shape]:
    unit, number = scene.unit, scene.head_zone_number(head.id)
    key = _head_key(scene, head)
    if key == "drip-inlet":
        return drip_inlet_shapes(at, unit, number)
    shapes: list[Shape] = []
    if head.sweep_deg < 360:
        for bearing in (head.from_deg, head.from_deg + head.sweep_deg):
            x, y = point_at((0, 0), bearing, 9 * unit)
            shapes.append(Line((at, (at[0] + x, at[1] - y)), f"arc-{number}"))
    return shapes + head_shapes(at, unit, number, own_valve=key == "own-valve")


def head_shapes(at: XY, unit: float, number: int, *, own_valve: bool = False) -> list[Shape]:
    """A disc; one that carries its own valve sits in a diamond, the sign of a valve here."""
    disc: list[Shape] = [Circle(at, 4 * unit, f"head-{number}")]
    return [Polygon((_diamond(at, 7.5 * unit),), "valve"), *disc] if own_valve else disc


def drip_inlet_shapes(at: XY, unit: float, number: int) -> list[Shape]:
    x, y, half = at[0], at[1], 3.6 * unit
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return [Polygon((ring,), f"head-{number}")]


def supply_shapes(at: XY, unit: float) -> list[Shape]:
    x, y, size = at[0], at[1], 8 * unit
    house = (
        (x - size, y + size * 0.8),
        (x - size, y - size * 0.1),
        (x, y - size),
        (x + size, y - size * 0.1),
    )
    return [Polygon(((*house, (x + size, y + size * 0.8)),), "supply")]


def valve_shapes(at: XY, unit: float) -> list[Shape]:
    return [Polygon((_diamond(at, 6.5 * unit),), "valve"), Circle(at, 1.6 * unit, "junction")]


def _diamond(at: XY, half: float) -> tuple[XY, ...]:
    x, y = at
    return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


def controller_shapes(at: XY, unit: float) -> list[Shape]:
    x, y, half = at[0], at[1], 7 * unit
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    bars = (-0.45, 0.0, 0.45)
    lines = [
        Line(((x - half * 0.55, y + half * b), (x + half * 0.55, y + half * b)), "controller-bar")
        for b in bars
    ]
    return [Polygon((ring,), "controller"), *lines]


def _title(scene: Scene, node: Node) -> str:
    name = f"{node.id}, {node.label}" if node.label else node.id
    if isinstance(node, HeadNode):
        return f"Head {name}{_head_figures(scene, node)}"
    words = {"supply": "Water supply", "valve": "Valve", "controller": "Controller", "junction": "Junction"}
    return f"{words[node.kind]} {name}"


def _head_figures(scene: Scene, head: HeadNode) -> str:
    results = head_results(scene.report, head.id)
    if not results:
        return ""
    worst = min(results, key=lambda r: r.pressure_kpa)
    units = scene.options.units
    figures = [pressure_words(worst.pressure_kpa, units), flow_words(worst.flow_lpm, units)]
    if worst.throw_m > 0:
        figures.append(f"throw {length_words(min(worst.throw_m, worst.reach_m), units)}")
    return ": " + ", ".join(figures)


def head_results(report: CheckReport | None, head_id: str) -> list[HeadResult]:
    return [h for case in report.cases for h in case.heads if h.id == head_id] if report else []


def label_devices(scene: Scene) -> None:
    order = {"supply": 0, "controller": 1, "valve": 2, "head": 3}
    nodes = [n for n in scene.plan.layout.nodes if n.kind in order]
    for node in sorted(nodes, key=lambda n: order[n.kind]):
        at, unit = scene.frame.page(node.at), scene.unit
        strong = node.kind == "valve"
        words = {"supply": "Supply", "controller": "Controller"}.get(node.kind, node.id)
        size = scene.size * (0.9 if node.kind != "head" else 0.75)
        style = "label-strong" if strong else "label"
        scene.label(scene.space.put(around(at, words, style, size, 9 * unit)))


def zone_legend(scene: Scene) -> list[tuple[int, str]]:
    """Style number and name of each zone that the report found."""
    zones = scene.report.zones if scene.report else ()
    return [(zone_number(i), zone.label or zone.id) for i, zone in enumerate(zones)]
