"""From the stored rates of a quote to the settings of the pure pricing."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, cast

from quoting.costing import HourlyCost
from quoting.priced_quote import Kind, Target
from quoting.pricing_inputs import PricingSettings, StageShare

KINDS: tuple[Kind, ...] = ("material", "labour", "hire", "subcontract", "permit")


def pricing_settings(rates: Mapping[str, Any]) -> PricingSettings:
    """``rates`` is what ``policies.rates_dict`` wrote."""
    return PricingSettings(
        overhead_per_hour=Decimal(rates["overhead_per_hour"]),
        contingency_percent=Decimal(rates["contingency_percent"]),
        targets={kind: target_of(rates, kind) for kind in KINDS},
        minimum_job=Decimal(rates["minimum_job"]),
        round_up_step=Decimal(rates["round_up_step"]),
        tax_percent={kind: Decimal(rates[f"tax_{kind}"]) for kind in KINDS},
        tax_by=rates["tax_by"],
        stages=_stages(rates),
        deposit_cap_percent=_optional(rates["deposit_cap_percent"]),
        deposit_cap_amount=_optional(rates["deposit_cap_amount"]),
        price_age_warn_days=int(rates["price_age_warn_days"]),
        price_age_stop_days=int(rates["price_age_stop_days"]),
        gross_margin_warn=Decimal(rates["gross_margin_warn_percent"]) / 100,
        gross_margin_stop=Decimal(rates["gross_margin_stop_percent"]) / 100,
    )


def target_of(rates: Mapping[str, Any], kind: Kind) -> Target:
    share = Decimal(rates[f"{kind}_percent"]) / 100
    return Target(cast(Any, rates[f"{kind}_method"]), share)


def hourly_cost(rates: Mapping[str, Any]) -> HourlyCost:
    return HourlyCost(Decimal(rates["wage_per_hour"]), Decimal(rates["burden"]))


def _stages(rates: Mapping[str, Any]) -> tuple[StageShare, ...]:
    later = [StageShare(row["label"], Decimal(row["percent"])) for row in rates["stages"]]
    return (StageShare("when you accept", Decimal(rates["deposit_percent"])), *later)


def _optional(value: str | None) -> Decimal | None:
    return None if value is None else Decimal(value)
