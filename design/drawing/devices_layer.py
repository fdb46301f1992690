"""Supply, controller, valves and heads: where their signs stand, and their names."""

from math import dist

from design.document import ControllerNode, HeadNode, JunctionNode, Node, SupplyNode, ValveNode
from design.report import CheckReport, HeadResult
from hydraulics.catalogue import DripPart, HeadPart

from .device_symbols import controller_shapes, drip_inlet_shapes, head_shapes, supply_shapes, valve_shapes
from .labels import around
from .measures import flow_words, length_words, pressure_words
from .scene import Scene
from .shapes import XY, Circle, Line, Shape
from .wetting import point_at

_TOO_NEAR = 15.0  # between the middles of two signs, at text size 12
_ASIDE = 21.0
_ROOMY = 60.0  # more room than this is no better


def block_devices(scene: Scene) -> None:
    """Symbols take their place before any label does."""
    for node in scene.plan.layout.nodes:
        if not isinstance(node, JunctionNode):
            scene.space.block(place_of(scene, node), 6 * scene.unit)


def place_of(scene: Scene, node: Node) -> XY:
    """Where its sign stands. A controller steps aside rather than cover another sign."""
    at, unit = scene.frame.page(node.at), scene.unit
    if not isinstance(node, ControllerNode):
        return at
    layout, ground = scene.plan.layout, scene.plan.ground
    signs = [n.at for n in layout.nodes if n is not node and n.kind != "junction"]
    others = scene.frame.path([*signs, scene.plan.supply.at])
    if not any(dist(at, other) < _TOO_NEAR * unit for other in others):
        return at
    others += scene.frame.path(mark.at for mark in ground.marks if scene.options.shows("marks"))
    spots = [point_at((0, 0), bearing, _ASIDE * unit) for bearing in (90, 270, 0, 180, 45, 315, 135, 225)]
    free = [(at[0] + x, at[1] - y) for x, y in spots]
    return max(free, key=lambda spot: min(_ROOMY * unit, *(dist(spot, other) for other in others)))


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
        place = place_of(scene, node)
        lead: list[Shape] = [Line((at, place), "leader")] if place != at else []
        return "controller", lead + controller_shapes(place, unit)
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
    if scene.options.plain:
        order = {"supply": 0, "controller": 1}
    nodes = [n for n in scene.plan.layout.nodes if n.kind in order]
    for node in sorted(nodes, key=lambda n: order[n.kind]):
        at, unit = place_of(scene, node), scene.unit
        strong = node.kind == "valve"
        words = {"supply": "Supply", "controller": "Controller"}.get(node.kind, node.id)
        size = scene.size * (0.9 if node.kind != "head" else 0.75)
        style = "label-strong" if strong else "label"
        scene.label(scene.space.put(around(at, words, style, size, 9 * unit)))
