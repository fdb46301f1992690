"""What a proposal shows, and nothing else.

Every amount, date and measure is a string that the caller has already formatted for the quote's
language, currency and units: nothing is computed here. There is no field for a cost, a rate, an
hour, a margin, a markup, a supplier or a unit price, and there must never be one: what is not in
these classes cannot reach the customer.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from design.document import Plan
from design.drawing.options import Units
from design.report import CheckReport
from hydraulics.catalogue import Part

DEFAULT_ACCENT = "#1f5a4a"


@dataclass(frozen=True)
class Company:
    """``accent`` is ``#rrggbb``; ``logo`` the bytes of a PNG or JPEG. Lines are shown as given."""

    name: str
    address: tuple[str, ...] = ()
    phone: str = ""
    email: str = ""
    licence: str = ""  # such as "Contractor licence 12345"
    insurance: str = ""
    accent: str = DEFAULT_ACCENT
    logo: bytes | None = None


@dataclass(frozen=True)
class Figure:
    """A number that the customer may look at first: value large, label small below it."""

    value: str
    label: str


@dataclass(frozen=True)
class AreaLine:
    label: str
    size: str  # "162 m²"
    how: str = ""  # "gear rotors", "drip line"


@dataclass(frozen=True)
class PriceLine:
    """A section's total, a discount or a tax; ``detail`` says in words what is in it."""

    label: str
    amount: str
    detail: str = ""


@dataclass(frozen=True)
class OptionLine:
    label: str
    amount: str
    detail: str = ""
    suggested: bool = False


@dataclass(frozen=True)
class Stage:
    label: str  # "Deposit"
    when: str  # "on acceptance"
    amount: str


@dataclass(frozen=True)
class Condition:
    """A titled paragraph: start of work, reinstatement, warranty, right to cancel."""

    title: str
    text: str


@dataclass(frozen=True)
class ProposalData:
    """One proposal. Empty strings and empty tuples leave their part out.

    The safety cautions of ``wording.CAUTIONS`` are always printed; ``cautions`` adds to them.
    ``accept_link`` is printed, and is a link, when the quote can be accepted there.
    ``parts`` is the catalogue, which the drawing needs for pipe sizes and wetting patterns.
    """

    company: Company
    quote_number: str
    revision: int
    issued_on: str
    valid_until: str
    customer_name: str
    promise: str  # one sentence: what the customer gets
    total: str
    subtotal: str = ""
    total_note: str = ""  # "tax included"
    customer_address: tuple[str, ...] = ()
    site_name: str = ""
    site_address: tuple[str, ...] = ()
    scope: tuple[str, ...] = ()  # paragraphs
    figures: tuple[Figure, ...] = ()  # areas covered, heads, valves, zones
    water_available: str = ""  # "30 L/min"
    water_used: str = ""  # "24 L/min"
    water_note: str = ""  # how it was measured, and that the design relies on it
    areas: tuple[AreaLine, ...] = ()
    not_watered: tuple[str, ...] = ()
    sections: tuple[PriceLine, ...] = ()
    discount: PriceLine | None = None
    taxes: tuple[PriceLine, ...] = ()
    options: tuple[OptionLine, ...] = ()
    stages: tuple[Stage, ...] = ()
    not_included: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    conditions: tuple[Condition, ...] = ()
    cautions: tuple[str, ...] = ()
    acceptance_text: str = ""
    accept_link: str = ""
    plan: Plan | None = None
    report: CheckReport | None = None
    parts: Mapping[str, Part] = field(default_factory=dict)
    units: Units = "metric"
    language: str = "en"
    page_size: Literal["A4", "Letter"] = "A4"
