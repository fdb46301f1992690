"""The parts of a proposal in the order in which a customer asks."""

from reportlab.platypus import Flowable, KeepTogether, NextPageTemplate, PageBreak

from .cover import cover
from .data import ProposalData
from .garden_part import result_part, scope_part
from .plan_part import plan_part
from .price_part import options_part, price_part, stages_part
from .styles import Look
from .terms_part import acceptance_part, cautions_part, conditions_part, limits_part

_PARTS = (
    scope_part,
    result_part,
    limits_part,
    cautions_part,
    conditions_part,
    price_part,
    options_part,
)
_FEW_STAGES = 8


def story_of(data: ProposalData, look: Look) -> list[Flowable]:
    """A cover, the plan on a page of its own, what is done and under which terms, last what to decide."""
    story: list[Flowable] = [
        *cover(data, look),
        *plan_part(data, look),
        NextPageTemplate("later"),
        PageBreak(),
    ]
    for part in _PARTS:
        story += part(data, look)
    return story + _ending(data, look)


def _ending(data: ProposalData, look: Look) -> list[Flowable]:
    """Where to sign never stands alone: payment comes onto its page as well."""
    stages, signing = stages_part(data, look), acceptance_part(data, look)
    if len(data.stages) > _FEW_STAGES:
        return [*stages, KeepTogether(signing)]
    return [KeepTogether([*stages, *signing])]
