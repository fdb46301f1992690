"""The names that this project gives to layers in the files that it writes."""

from design.document import Area, Mark, Plan, Service, Surface
from design.drawing.ground_layer import KIND_WORDS, SERVICE_WORDS

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


def caption(entity: Area | Surface | Service | Mark) -> str:
    return entity.label or entity.id


def pipe_ends(plan: Plan) -> dict[str, tuple[float, float]]:
    return {node.id: node.at for node in plan.layout.nodes}
