"""The display list: what a drawing is made of, before it is SVG or PDF.

Page units, x to the right and y down. A shape names a style of ``palette.STYLES``; both
renderers look the style up there, so that page and paper show the same picture.
"""

from dataclasses import dataclass
from typing import Literal

XY = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Polygon:
    """Closed rings filled by the even-odd rule, so a ring inside another is a hole."""

    rings: tuple[tuple[XY, ...], ...]
    style: str


@dataclass(frozen=True)
class Line:
    points: tuple[XY, ...]
    style: str
    width: float | None = None  # overrides the style's


@dataclass(frozen=True)
class Circle:
    centre: XY
    radius: float
    style: str


@dataclass(frozen=True)
class Text:
    """One line of text; ``at`` is on the baseline, ``angle_deg`` turns it clockwise."""

    at: XY
    text: str
    style: str
    size: float
    anchor: Anchor = "start"
    angle_deg: float = 0


Shape = Polygon | Line | Circle | Text


@dataclass(frozen=True)
class Group:
    """Shapes of one plan entity; ``entity`` is its id in the plan, "" for furniture."""

    layer: str
    shapes: tuple[Shape, ...]
    title: str = ""
    entity: str = ""
    element_id: str = ""
    kind: str = ""
    marked: bool = False


@dataclass(frozen=True)
class Drawing:
    width: float
    height: float
    title: str
    description: str
    groups: tuple[Group, ...]
    interactive: bool = False
    id_prefix: str = "e-"
    map_height: float = 0  # without the scale bar and the legend below
