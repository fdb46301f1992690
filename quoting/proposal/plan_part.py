"""The plan on a page of its own, as large as the page, lying down when the site is wide."""

from reportlab.platypus import Flowable, Indenter, NextPageTemplate, PageBreak

from design.drawing import DrawingOptions, map_span

from .blocks import gap, heading, words
from .data import ProposalData
from .pictures import PLAN_LAYERS, PlanPicture
from .styles import FOOT_MARGIN, PLAN_MARGIN, SIDE_MARGIN, TOP_MARGIN, Look
from .wording import PLAN_NOTE

_NOTE_ROOM = 36.0  # points for the note below the drawing
_AROUND_UPRIGHT, _AROUND_WIDE = 190.0, 150.0  # points for heading, scale, legend and note
_WORTH_TURNING = 1.15


def plan_part(data: ProposalData, look: Look) -> list[Flowable]:
    if data.plan is None:
        return []
    picture = PlanPicture(data, PLAN_LAYERS, _NOTE_ROOM)
    inset = SIDE_MARGIN - PLAN_MARGIN  # words keep the margins of the other pages
    inward, outward = Indenter(inset, inset), Indenter(-inset, -inset)
    page: list[Flowable] = [inward, *heading("Your plan", look), outward, picture, gap(6)]
    page += [inward, words(PLAN_NOTE, look["small"]), outward]
    return [NextPageTemplate("plan-wide" if lies_down(data, look) else "plan"), PageBreak(), *page]


def lies_down(data: ProposalData, look: Look) -> bool:
    """Whether a page lying down draws the site clearly larger."""
    assert data.plan is not None  # noqa: S101 - asked only when there is one
    wide, tall = map_span(data.plan, data.report, DrawingOptions(layers=PLAN_LAYERS, parts=data.parts))
    width, height = look.page_size
    margins = TOP_MARGIN + FOOT_MARGIN
    upright = min((width - 2 * PLAN_MARGIN) / wide, (height - margins - _AROUND_UPRIGHT) / tall)
    lying = min((height - 2 * PLAN_MARGIN) / wide, (width - margins - _AROUND_WIDE) / tall)
    return lying > upright * _WORTH_TURNING
