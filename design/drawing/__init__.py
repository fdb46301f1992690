"""Plan drawings and charts as a display list, written as SVG for pages and drawn on PDF.

``pdf.draw_on_canvas`` is not imported here, so that pages do not load reportlab.
"""

from .charts import pressure_path_chart, supply_chart
from .options import CUSTOMER_LAYERS, DEFAULT_LAYERS, LAYERS, DrawingOptions
from .plan import map_span, plan_drawing
from .shapes import Drawing
from .svg import to_svg

__all__ = [
    "CUSTOMER_LAYERS",
    "DEFAULT_LAYERS",
    "LAYERS",
    "Drawing",
    "DrawingOptions",
    "map_span",
    "plan_drawing",
    "pressure_path_chart",
    "supply_chart",
    "to_svg",
]
