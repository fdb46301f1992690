"""Quotes, the policy that prices them, and what is kept of an offer once it is out."""

from quoting.models.counter import NumberCounter
from quoting.models.line import Choice, Kind, LineOrigin, QuoteLine, Section
from quoting.models.link import Acceptance, CustomerLink
from quoting.models.policy import Policy, ProductionRate
from quoting.models.quote import Basis, Quote, QuoteEvent, Status
from quoting.models.sealed import SealedProposal

__all__ = [
    "Acceptance",
    "Basis",
    "Choice",
    "CustomerLink",
    "Kind",
    "LineOrigin",
    "NumberCounter",
    "Policy",
    "ProductionRate",
    "Quote",
    "QuoteEvent",
    "QuoteLine",
    "SealedProposal",
    "Section",
    "Status",
]
