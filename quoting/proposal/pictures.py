"""Plan and supply curve as flowables that take the room they are given."""

from typing import Any

from reportlab.platypus import Flowable

from design.drawing import CUSTOMER_LAYERS, Drawing, DrawingOptions, plan_drawing, supply_chart
from design.drawing.pdf import draw_on_canvas

from .data import ProposalData
from .words import runs

_UNIT = 0.63  # points of a page unit: at this the plan's text is as large as small print
_LEAST_MAP = 125.0
_LEAST_HEIGHT = 130.0
# The cover shows the garden at a glance; the plan page shows all that a customer should see.
COVER_LAYERS = CUSTOMER_LAYERS - {"services", "trench", "marks", "legend"}
PLAN_LAYERS = CUSTOMER_LAYERS


class PlanPicture(Flowable):
    """The plan, as wide as the text and as high as the page allows, less ``reserve`` below it."""

    def __init__(self, data: ProposalData, layers: frozenset[str], reserve: float) -> None:
        super().__init__()
        self._data, self._layers, self._reserve = data, layers, reserve
        self._drawing: Drawing | None = None

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        room = max(available_height - self._reserve, _LEAST_HEIGHT) / _UNIT
        units = available_width / _UNIT
        drawing = self._drawn(units, None)
        lower = drawing.map_height - (drawing.height - room)
        if lower < drawing.map_height:
            drawing = self._drawn(units, max(lower, _LEAST_MAP))
        self._drawing, self.width, self.height = drawing, available_width, drawing.height * _UNIT
        return self.width, self.height

    def _drawn(self, units: float, map_height: float | None) -> Drawing:
        data = self._data
        assert data.plan is not None  # noqa: S101 - the story leaves the picture out without one
        options = DrawingOptions(
            layers=self._layers,
            units=data.units,
            parts=data.parts,
            plain=True,
            width=units,
            max_height=map_height,
        )
        return plan_drawing(data.plan, data.report, options)

    def draw(self) -> None:
        if self._drawing is not None:
            draw_on_canvas(self.canv, self._drawing, (0, 0), self.width, runs)


class SupplyPicture(Flowable):
    """The supply curve at a set width."""

    def __init__(self, data: ProposalData, width: float) -> None:
        super().__init__()
        self.width = width
        units = width / _UNIT
        options = DrawingOptions(
            units=data.units, plain=True, width=units, text_size=11, title="Water supply"
        )
        self._drawing: Any = (
            supply_chart(data.plan, data.report, options) if data.plan and data.report else None
        )
        self.height = _UNIT * self._drawing.height if self._drawing else 0

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        if self._drawing:
            draw_on_canvas(self.canv, self._drawing, (0, 0), self.width, runs)
