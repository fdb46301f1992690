"""The plan on a page of its own, as large as the page."""

from reportlab.platypus import Flowable, PageBreak

from .blocks import gap, heading, words
from .data import ProposalData
from .pictures import PLAN_LAYERS, PlanPicture
from .styles import Look
from .wording import PLAN_NOTE

_NOTE_ROOM = 46.0  # points for the note below the drawing


def plan_part(data: ProposalData, look: Look) -> list[Flowable]:
    if data.plan is None:
        return []
    picture = PlanPicture(data, PLAN_LAYERS, _NOTE_ROOM)
    return [*heading("Your plan", look), picture, gap(8), words(PLAN_NOTE, look["small"]), PageBreak()]
