"""The names that this project gives to layers in the files that it writes."""

import re

from design.document import Area, Mark, Pipe, Plan, Service, Surface
from design.drawing.ground_layer import KIND_WORDS, SERVICE_WORDS

_FORBIDDEN = re.compile(r"[<>/\\\":;?*|='`,\x00-\x1f\x7f-\x9f\u2028\u2029]")
SUPPLY, VALVES, HEADS, JUNCTIONS, CONTROLLERS = "Supply", "Valves", "Heads", "Junctions", "Controllers"
MARKS, LEVELS, PIPES, CABLES, SLEEVES, NOTES = "Marks", "Levels", "Pipes", "Cables", "Sleeves", "Notes"
NODE_LAYERS = {
    "supply": SUPPLY, "valve": VALVES, "head": HEADS, "junction": JUNCTIONS, "controller": CONTROLLERS,
}  # fmt: skip


def area_layer(area: Area) -> str:
    return KIND_WORDS[area.cover]


def surface_layer(surface: Surface) -> str:
    return KIND_WORDS[surface.kind]


def service_layer(service: Service) -> str:
    """Marked as buried, since a water pipe and open water would share a word."""
    return f"Buried {SERVICE_WORDS[service.kind].lower()}"


def pipe_layer(pipe: Pipe) -> str:
    """A layer for each part, without the letters that the name of a layer in a DXF may not have."""
    return f"{PIPES} {_FORBIDDEN.sub('-', pipe.part)}".strip()


def caption(entity: Area | Surface | Service | Mark) -> str:
    return entity.label or entity.id


def pipe_ends(plan: Plan) -> dict[str, tuple[float, float]]:
    return {node.id: node.at for node in plan.layout.nodes}
