"""What every layer of one drawing shares: the plan, the frame, the taken space, the ids given out."""

from dataclasses import dataclass, field

from shapely import Polygon

from design.document import Plan
from design.report import CheckReport, PipeMeasure
from hydraulics.catalogue import Part

from .frame import Frame
from .labels import LabelSpace
from .options import DrawingOptions
from .palette import zone_number
from .shapes import Group, Shape, Text


@dataclass
class Scene:
    plan: Plan
    report: CheckReport | None
    options: DrawingOptions
    frame: Frame
    space: LabelSpace
    groups: list[Group] = field(default_factory=list)
    labels: list[Text] = field(default_factory=list)
    used: set[str] = field(default_factory=set)  # legend keys of what has been drawn
    patches: dict[int, list[Polygon]] = field(default_factory=dict)  # ground of each zone, in site metres
    _ids: set[str] = field(default_factory=set)

    def add(self, layer: str, kind: str, entity: str, title: str, shapes: list[Shape]) -> None:
        """A group of its own; the first of an entity takes the id ``e-<entity>``."""
        marked = entity in self.options.highlight
        group = Group(layer, tuple(shapes), title, entity, self._give_id(entity, kind), kind, marked)
        self.groups.append(group)

    def _give_id(self, entity: str, kind: str) -> str:
        if not entity:
            return ""
        wanted = f"{self.options.id_prefix}{entity}"
        if kind == "wetting" or wanted in self._ids:
            wanted = f"{self.options.id_prefix}{kind}-{entity}"
        while wanted in self._ids:
            wanted += "-again"
        self._ids.add(wanted)
        return wanted

    def label(self, text: Text | None) -> None:
        if text is not None:
            self.labels.append(text)

    @property
    def size(self) -> float:
        return self.options.text_size

    @property
    def unit(self) -> float:
        """Symbol size that follows the text, 1 at text size 12."""
        return self.options.text_size / 12

    def part(self, code: str) -> Part | None:
        return self.options.parts.get(code)

    def measure(self, pipe_id: str) -> PipeMeasure | None:
        pipes = self.report.pipes if self.report else ()
        return next((p for p in pipes if p.id == pipe_id), None)

    def zone_positions(self) -> dict[str, int]:
        """Position of the zone of each head, counted from 0."""
        zones = self.report.zones if self.report else ()
        return {head: position for position, zone in reversed(list(enumerate(zones))) for head in zone.heads}

    def head_zone_number(self, head_id: str) -> int:
        return zone_number(self.zone_positions().get(head_id, 0))
