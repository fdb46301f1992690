"""What a caller may ask of a drawing."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from hydraulics.catalogue import Part

Units = Literal["metric", "us"]

LAYERS: tuple[str, ...] = (
    "ground",
    "wetting",
    "services",
    "trench",
    "pipes",
    "sizes",  # size and length beside each pipe
    "cables",
    "marks",
    "devices",
    "zones",  # the number of each zone on its ground
    "labels",
    "notes",
    "findings",
    "scale",
    "legend",
)
DEFAULT_LAYERS = frozenset(LAYERS)
CUSTOMER_LAYERS = DEFAULT_LAYERS - {"findings", "notes", "cables", "sizes"}


@dataclass(frozen=True)
class DrawingOptions:
    """``width`` and ``text_size`` are in page units: CSS pixels on a page, points on paper.

    ``parts`` is a ``Catalogue`` or any mapping of part by code; without it a pipe is labelled
    with its part code, and a head without a report or a reach shows no wetting.
    ``plain`` is for readers who do not build: no ids and no depths beside things, zones by number.
    ``highlight`` holds ids of plan entities to mark. ``max_height`` bounds the map, without the
    scale bar and the legend below it.
    """

    layers: frozenset[str] = DEFAULT_LAYERS
    units: Units = "metric"
    parts: Mapping[str, Part] = field(default_factory=dict)
    highlight: frozenset[str] = frozenset()
    interactive: bool = False
    plain: bool = False
    width: float = 800
    max_height: float | None = None
    text_size: float = 12
    title: str = "Plan"
    id_prefix: str = "e-"

    def shows(self, layer: str) -> bool:
        return layer in self.layers
