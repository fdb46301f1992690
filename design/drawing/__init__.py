"""Plan drawings and charts as a display list, written as SVG for pages and drawn on PDF."""

from .options import CUSTOMER_LAYERS, DEFAULT_LAYERS, LAYERS, DrawingOptions
from .plan import plan_drawing
from .shapes import Drawing
from .svg import to_svg

__all__ = [
    "CUSTOMER_LAYERS", "DEFAULT_LAYERS", "LAYERS", "Drawing", "DrawingOptions", "plan_drawing", "to_svg",
]  # fmt: skip
