"""The proposal that a customer gets, as PDF: plain data in, bytes out, no database below here."""

from .data import (
    AreaLine,
    Company,
    Condition,
    Figure,
    OptionLine,
    PriceLine,
    ProposalData,
    Stage,
)
from .render import render_proposal

__all__ = [
    "AreaLine",
    "Company",
    "Condition",
    "Figure",
    "OptionLine",
    "PriceLine",
    "ProposalData",
    "Stage",
    "render_proposal",
]
