"""From an offer to the data of its PDF: every figure becomes a string in the customer's language."""

from collections.abc import Callable
from typing import Any

from quoting.money_words import date_words, money_words, percent_words
from quoting.proposal import (
    AreaLine,
    Company,
    Condition,
    Figure,
    OptionLine,
    PriceLine,
    ProposalData,
    Stage,
    render_proposal,
)
from quoting.scope_words import Subject

Money = Callable[[str], str]


def render_offer(offer: dict[str, Any], subject: Subject) -> bytes:
    """The PDF of an offer."""
    return render_proposal(proposal_data(offer, subject))


def proposal_data(offer: dict[str, Any], subject: Subject) -> ProposalData:
    locale = offer["locale"]

    def money(amount: str) -> str:
        return money_words(amount, offer["currency"], locale)

    return ProposalData(
        company=_company(offer["company"]),
        quote_number=offer["reference"].partition("/")[0],
        revision=offer["revision"],
        issued_on=date_words(offer["issued_on"], locale),
        valid_until=date_words(offer["valid_until"], locale),
        customer_name=offer["customer"]["name"],
        customer_address=tuple(offer["customer"]["address"]),
        site_name=offer["site"]["name"],
        site_address=tuple(offer["site"]["address"]),
        promise=offer["promise"],
        scope=tuple(filter(None, [offer["message"], *offer["scope"]])),
        **_prices(offer, money),
        **_garden(offer),
        conditions=tuple(Condition(row["title"], row["text"]) for row in offer["conditions"]),
        not_included=tuple(offer["exclusions"]),
        acceptance_text=offer["acceptance_text"],
        plan=subject.plan,
        report=subject.report,
        parts=subject.parts,
        units=subject.units,
        language=locale[:2],
        page_size="Letter" if offer["company"]["paper"] == "letter" else "A4",
    )


def _prices(offer: dict[str, Any], money: Money) -> dict[str, Any]:
    locale = offer["locale"]
    return {
        "total": money(offer["total"]),
        "subtotal": money(offer["net"]) if offer["tax"] != "0.00" else "",
        "total_note": "tax included" if offer["tax"] != "0.00" else "",
        "sections": tuple(
            PriceLine(row["title"], money(row["price"]), "\u00a0· ".join(row["lines"]))
            for row in offer["sections"]
        ),
        "taxes": tuple(
            PriceLine(f"Tax {percent_words(row['rate'], locale)}", money(row["tax"]))
            for row in offer["taxes"]
            if row["tax"] != "0.00"
        ),
        "options": tuple(
            OptionLine(row["text"], _more_or_less(row["total"], money), _instead(row))
            for row in offer["options"]
        ),
        "stages": tuple(Stage(row["name"], row["when"], money(row["amount"])) for row in offer["stages"]),
    }


def _more_or_less(amount: str, money: Money) -> str:
    return money(amount) if amount.startswith("-") else f"+{money(amount)}"


def _instead(row: dict[str, Any]) -> str:
    return f"instead of: {row['instead_of']}" if row["instead_of"] else ""


def _garden(offer: dict[str, Any]) -> dict[str, Any]:
    return {
        "figures": tuple(Figure(**row) for row in offer["figures"]),
        "water_available": offer["water"]["available"],
        "water_used": offer["water"]["used"],
        "water_note": offer["water"]["note"],
        "areas": tuple(AreaLine(**row) for row in offer["areas"]),
        "not_watered": tuple(offer["not_watered"]),
    }


def _company(row: dict[str, Any]) -> Company:
    return Company(
        name=row["name"],
        address=tuple(row["address"]),
        phone=row["phone"],
        email=row["email"],
        licence=row["licence"],
        accent=row["accent"],
    )
