"""Composes the plan drawing: the layers in their order, then the labels, then what lies below."""

from design.document import HeadNode, Plan
from design.report import CheckReport
from hydraulics.catalogue import DripPart

from .devices_layer import block_devices, draw_devices, label_devices
from .findings_layer import draw_findings, draw_notes
from .frame import Frame, fit_frame, plan_points
from .furniture import STRIP, draw_furniture
from .ground_layer import draw_ground, draw_marks, draw_services, label_ground
from .labels import LabelSpace
from .legend import draw_legend
from .options import DrawingOptions
from .scene import Scene
from .shapes import XY, Drawing
from .wetting import wet_radius_m, wet_ring
from .works_layer import draw_cables, draw_pipes, draw_sleeves, draw_trench
from .zones_layer import draw_wetting, draw_zone_numbers

_STEPS = (
    ("ground", draw_ground),
    ("wetting", draw_wetting),
    ("trench", draw_trench),
    ("trench", draw_sleeves),
    ("services", draw_services),
    ("cables", draw_cables),
    ("marks", draw_marks),
    ("pipes", draw_pipes),
    ("devices", draw_devices),
    ("zones", draw_zone_numbers),
    ("notes", draw_notes),
    ("findings", draw_findings),
)


def plan_drawing(
    plan: Plan, report: CheckReport | None = None, options: DrawingOptions | None = None
) -> Drawing:
    """The plan as a display list. Without a report there are no solved throws, trenches or roles."""
    options = options or DrawingOptions()
    frame = fit_frame(_extent(plan, report, options), options.width, options.max_height)
    scene = Scene(plan, report, options, frame, LabelSpace(frame.width, frame.height))
    if options.shows("devices"):
        block_devices(scene)
    for layer, draw in _STEPS:
        if options.shows(layer):
            draw(scene)
    _draw_labels(scene)
    height = _draw_below(scene, frame)
    return Drawing(
        width=options.width,
        height=height,
        title=options.title,
        description=describe(plan),
        groups=tuple(scene.groups),
        interactive=options.interactive,
        id_prefix=options.id_prefix,
        map_height=frame.height,
    )


def _extent(plan: Plan, report: CheckReport | None, options: DrawingOptions) -> list[XY]:
    points = plan_points(plan)
    if options.shows("wetting"):
        for node in plan.layout.nodes:
            part = options.parts.get(node.part) if isinstance(node, HeadNode) else None
            if isinstance(node, HeadNode) and not isinstance(part, DripPart):
                radius = wet_radius_m(node, part, report)
                points += wet_ring(node, part, radius, plan.ground.areas) if radius else ()
    return points


def map_span(plan: Plan, report: CheckReport | None, options: DrawingOptions) -> tuple[float, float]:
    """Metres from west to east and from south to north of all that the drawing has to hold."""
    xs, ys = zip(*_extent(plan, report, options), strict=True)
    return max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)


def _draw_labels(scene: Scene) -> None:
    options = scene.options
    if options.shows("labels"):
        if options.shows("devices"):
            label_devices(scene)
        if options.shows("ground"):
            label_ground(scene)
    scene.add("labels", "labels", "", "", list(scene.labels))


def _draw_below(scene: Scene, frame: Frame) -> float:
    height = frame.height
    if scene.options.shows("scale"):
        draw_furniture(scene, height)
        height += STRIP * scene.unit
    if scene.options.shows("legend"):
        height = draw_legend(scene, height + 6 * scene.unit)
    return height


def describe(plan: Plan) -> str:
    """What the drawing shows, for people who cannot see it."""
    kinds = [node.kind for node in plan.layout.nodes]
    counts = [
        (len(plan.ground.areas), "planted area"), (len(plan.ground.surfaces), "surface"),
        (len(plan.ground.services), "buried service"), (kinds.count("head"), "head"),
        (kinds.count("valve"), "valve"), (len(plan.layout.pipes), "pipe"),
    ]  # fmt: skip
    words = [f"{n} {word}{'' if n == 1 else 's'}" for n, word in counts if n]
    return "Site plan seen from above, north up, with " + (", ".join(words) or "nothing on it yet") + "."
