"""A small picture of what a file holds, so that a layer is known by its look."""

from dataclasses import dataclass

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from design.exchange.shapes import Layer, Shape, Shapes, across, extent
from design.exchange.simplify import simplified
from design.geometry import XY

WIDE, MOST_TALL, PAD = 640.0, 480.0, 14.0
# The plan's own zone colours: told apart by colour-blind eyes too; each layer also has its number.
COLOURS = ("#707ab3", "#ac7015", "#37a39a", "#5c1e78", "#952650", "#3e4909")
_FINER = 1 / 800  # of the picture's width


@dataclass(frozen=True)
class _View:
    west: float
    north: float
    scale: float

    def page(self, at: XY) -> XY:
        return PAD + (at[0] - self.west) * self.scale, PAD + (self.north - at[1]) * self.scale

    def path(self, points: tuple[XY, ...]) -> str:
        pairs = (f"{x:.1f} {y:.1f}" for x, y in map(self.page, points))
        return "M" + "L".join(pairs)


def picture(shapes: Shapes, *, squeeze: float = 1.0) -> SafeString:
    """All layers as SVG, each in its colour with its number. ``squeeze`` narrows degrees of longitude."""
    flat = Shapes(tuple(_squeezed(shape, squeeze) for shape in shapes.shapes))
    west, south, east, north = extent(flat.shapes) or (0.0, 0.0, 1.0, 1.0)
    span = max(east - west, north - south) or 1.0
    scale = min(
        (WIDE - 2 * PAD) / max(east - west, span / 100),
        (MOST_TALL - 2 * PAD) / max(north - south, span / 100),
    )
    view, fine = _View(west, north, scale), across(flat.shapes) * _FINER
    groups = [_group(number, layer, flat, view, fine) for number, layer in enumerate(flat.layers)]
    return format_html(
        '<svg class="file-picture" viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>',
        f"{(east - west) * scale + 2 * PAD:.0f}",
        f"{(north - south) * scale + 2 * PAD:.0f}",
        f"Everything in the file, on {len(groups)} layers, north up",
        format_html_join("", "{}", ((group,) for group in groups)),
    )


def swatch(number: int) -> SafeString:
    """The layer's number in its colour, as in the picture."""
    return format_html(
        '<svg class="file-swatch" viewBox="0 0 24 24" aria-hidden="true">'
        '<circle cx="12" cy="12" r="10.5" fill="#ffffff" '
        'stroke="{}" stroke-width="3"/>'
        '<text x="12" y="16" text-anchor="middle" font-size="11">{}</text></svg>',
        COLOURS[number % len(COLOURS)],
        number + 1,
    )


def _squeezed(shape: Shape, squeeze: float) -> Shape:
    if squeeze == 1.0:
        return shape
    points = tuple((x * squeeze, y) for x, y in shape.points)
    return Shape(shape.layer, shape.kind, points, shape.label)


def _group(number: int, layer: Layer, shapes: Shapes, view: _View, fine: float) -> SafeString:
    own = [shape for shape in shapes.shapes if shape.layer == layer.name]
    dots = "".join(_dot(view.page(shape.points[0])) for shape in own if shape.kind == "point")
    drawn = [simplified(shape, fine) for shape in own if shape.kind != "point"]
    lines = "".join(view.path(shape.points) + ("Z" if shape.closed else "") for shape in drawn)
    x, y = view.page(own[0].points[0])
    return format_html(
        '<g><title>{}</title><path d="{}" fill="none" stroke="{}" stroke-width="2"/>'
        '<text x="{}" y="{}" font-size="14" font-weight="bold" fill="#22303a" stroke="#ffffff" '
        'stroke-width="3" paint-order="stroke">{}</text></g>',
        f"{number + 1}: {layer.name}", lines + dots, COLOURS[number % len(COLOURS)], f"{x + 3:.1f}",
        f"{y - 3:.1f}", number + 1,
    )  # fmt: skip


def _dot(at: XY) -> str:
    return f"M{at[0] - 2:.1f} {at[1]:.1f}h4m-2 -2v4"
