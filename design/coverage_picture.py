"""A picture of how much water falls where: patches of like depth, dry spots, a legend.

One hue from pale to dark, so that every eye sees the order; dry ground is hatched as well.
"""

import textwrap
from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from design.coverage_areas import wetting_of
from design.coverage_classes import DRY, class_words, patches
from design.document import Area
from design.drawing import Drawing, DrawingOptions
from design.drawing.frame import Frame, fit_frame, plan_points
from design.drawing.palette import ALERT, INK, PAPER, STYLES, Style
from design.drawing.shapes import XY, Circle, Group, Line, Polygon, Shape, Text
from design.report import AreaResult, CheckReport
from design.site import Site
from hydraulics.coverage import Wetting

# lightness falls by equal steps; blue-green, since that is how water is thought of
RAMP = ("#f0faf9", "#bcdfde", "#8bc4c6", "#5ba6ad", "#2f7f8b", "#12545f")
MM_PER_INCH = 25.4
HATCH_M = 0.5
LEAST_LABELLED_M2 = 0.5
NO_HEAD = "no head reaches it"
LEGEND_TITLE = "What falls, as a share of each area's mean"

# the renderers look every style up in the one table of the drawing package
STYLES.update({f"depth-{place}": Style(colour) for place, colour in enumerate(RAMP)})
STYLES.update(
    {
        "depth-dry": Style(PAPER),
        "depth-hatch": Style(None, ALERT, 0.9, round_ends=False),
        "depth-edge": Style(None, INK, 1.0),
        "depth-head": Style(PAPER, INK, 1.4),
        "depth-label": Style(ALERT, bold=True, halo=True),
    }
)


def coverage_drawing(site: Site, report: CheckReport, options: DrawingOptions) -> Drawing | None:
    """The picture; none where no sprinkler runs."""
    wet = wetting_of(site, report)
    if not wet:
        return None
    frame = fit_frame(plan_points(site.plan), options.width, options.max_height)
    results = {area.id: area for area in report.areas}
    groups = [*_around(site, frame)]
    for area, wetting in wet:
        groups += _area(area, wetting, frame, options)
    groups += _heads(site, frame)
    legend, height = _legend([results[area.id] for area, _ in wet if area.id in results], frame, options)
    return Drawing(
        width=options.width,
        height=height,
        title=options.title,
        description=describe(report, options),
        groups=(*groups, legend),
        id_prefix=options.id_prefix,
        map_height=frame.height,
    )


def describe(report: CheckReport, options: DrawingOptions) -> str:
    """The picture in words."""
    said = [_in_words(area, options) for area in report.areas if area.cu_pct is not None]
    return "How much water falls where. " + " ".join(said)


def _in_words(area: AreaResult, options: DrawingOptions) -> str:
    mean, driest = rate(area.mean_mm_per_hour, options), rate(area.driest_mm_per_hour or 0.0, options)
    dry_m2 = area.area_m2 - area.watered_m2
    dry = "no dry ground" if dry_m2 < 0.05 else f"{_ground(dry_m2, options)} dry"
    du = f", DU {area.dulq_pct:.0f}\u00a0%" if area.dulq_pct is not None else ""
    return f"{area.label or area.id}: mean {mean}, driest {driest}{du}, {dry}."


def rate(mm_per_hour: float, options: DrawingOptions) -> str:
    if options.units == "us":
        return f"{mm_per_hour / MM_PER_INCH:.2f} in/h"
    return f"{mm_per_hour:.1f} mm/h"


def _ground(square_metres: float, options: DrawingOptions) -> str:
    return f"{square_metres * 10.7639:.0f} ft²" if options.units == "us" else f"{square_metres:.1f} m²"


def _around(site: Site, frame: Frame) -> Iterator[Group]:
    for surface in site.plan.ground.surfaces:
        shape = Polygon((frame.path(surface.outline),), f"surface-{surface.kind}")
        yield Group("ground", (shape,), surface.label or surface.id, kind="surface")


def _area(area: Area, wet: Wetting, frame: Frame, options: DrawingOptions) -> Iterator[Group]:
    outline = shapely.Polygon(area.outline, area.holes)
    for place, ground in sorted(patches(wet, outline).items()):
        style = "depth-dry" if place == DRY else f"depth-{place}"
        shapes: list[Shape] = [*_polygons(ground, frame, style)]
        if place == DRY:
            shapes += _hatch(ground, frame)
        title = NO_HEAD if place == DRY else f"{class_words()[place]} of the mean"
        yield Group("depth", tuple(shapes), title, kind="depth")
    rings = tuple(frame.path(ring) for ring in (area.outline, *area.holes))
    yield Group("ground", (Polygon(rings, "depth-edge"),), area.label or area.id, kind="area")
    words = [
        Text(
            frame.page(spot.at),
            f"dry {_ground(spot.area_m2, options)}",
            "depth-label",
            options.text_size,
            "middle",
        )
        for spot in wet.dry_spots[:8]
        if spot.area_m2 > LEAST_LABELLED_M2
    ]
    yield Group("labels", tuple(words), kind="labels")


def _polygons(ground: shapely.Geometry, frame: Frame, style: str) -> Iterator[Polygon]:
    for part in shapely.get_parts(ground):
        if part.geom_type == "Polygon" and not part.is_empty:
            rings = (part.exterior, *part.interiors)
            yield Polygon(tuple(frame.path(list(ring.coords)[:-1]) for ring in rings), style)


def _hatch(ground: shapely.Geometry, frame: Frame) -> Iterator[Line]:
    """Slanting lines across dry ground."""
    west, south, east, north = ground.bounds
    high, step = north - south, max(HATCH_M, 6 / frame.scale)
    starts = np.arange(west - high, east, step)
    lines = shapely.linestrings([[(x, south), (x + high, north)] for x in starts])
    for piece in shapely.get_parts(shapely.intersection(ground, lines)):
        for part in shapely.get_parts(piece):
            if part.geom_type == "LineString" and part.length > 0:
                yield Line(frame.path(list(part.coords)), "depth-hatch")


def _heads(site: Site, frame: Frame) -> Iterator[Group]:
    for head in site.heads.values():
        if head.id in site.drips:
            continue
        yield Group("devices", (Circle(frame.page(head.at), 2.6, "depth-head"),), head.id, kind="head")


def _legend(areas: Sequence[AreaResult], frame: Frame, options: DrawingOptions) -> tuple[Group, float]:
    """Swatches in two columns, then what is to be said of each area; and where it ends."""
    size = options.text_size
    line, box = size * 1.7, size * 1.2
    y = frame.height + line
    shapes: list[Shape] = [Text((size, y), LEGEND_TITLE, "furniture-text", size)]
    rows = [(f"depth-{place}", words) for place, words in enumerate(class_words())]
    if any(area.area_m2 - area.watered_m2 >= 0.05 for area in areas):
        rows.append(("depth-dry", NO_HEAD))
    half = (len(rows) + 1) // 2
    for place, (style, words) in enumerate(rows):
        at = (size + (place // half) * options.width / 2, y + line * (place % half + 0.4))
        shapes += _swatch(style, at, box)
        shapes.append(Text((at[0] + box * 2.2, at[1] + box * 0.85), words, "furniture-text", size))
    y += line * (half + 0.4)
    for area in areas:
        for words in textwrap.wrap(_in_words(area, options), int(options.width / size / 0.58)):
            y += size * 1.4
            shapes.append(Text((size, y), words, "furniture-text", size))
        y += size * 0.5
    return Group("legend", tuple(shapes), kind="legend"), y + line


def _swatch(style: str, at: XY, box: float) -> Iterator[Shape]:
    x, y = at
    yield Polygon((_square(at, box * 1.6, box),), style)
    yield Polygon((_square(at, box * 1.6, box),), "depth-edge")
    if style == "depth-dry":
        for share in (0.2, 0.6, 1.0):
            yield Line(
                ((x + box * share - box * 0.2, y + box), (x + box * share + box * 0.6, y)), "depth-hatch"
            )


def _square(at: XY, width: float, height: float) -> tuple[XY, ...]:
    x, y = at
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
