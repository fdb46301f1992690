"""The parts of a proposal in the order in which a customer asks."""

from reportlab.platypus import Flowable, NextPageTemplate, PageBreak

from .cover import cover
from .data import ProposalData
from .garden_part import result_part, scope_part
from .plan_part import plan_part
from .price_part import options_part, price_part, stages_part
from .styles import Look
from .terms_part import acceptance_part, cautions_part, limits_part

_PARTS = (
    plan_part,
    scope_part,
    result_part,
    price_part,
    options_part,
    stages_part,
    limits_part,
    cautions_part,
    acceptance_part,
)


def story_of(data: ProposalData, look: Look) -> list[Flowable]:
    story: list[Flowable] = [NextPageTemplate("later"), *cover(data, look), PageBreak()]
    for part in _PARTS:
        story += part(data, look)
    return story
