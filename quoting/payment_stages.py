"""Deposit and stages: their sum is the total to the cent, and the last one absorbs the rest."""

from decimal import Decimal

from quoting.money import ZERO, round_money
from quoting.priced_quote import Stage
from quoting.pricing_inputs import PricingSettings


def payment_stages(total: Decimal, settings: PricingSettings) -> tuple[Stage, ...]:
    """The first stage is the deposit. A legal cap lowers it; the last stage takes what it leaves."""
    shares = settings.stages
    if not shares:
        return ()
    if sum((share.percent for share in shares), ZERO) != 100:
        raise ValueError("The stages of payment add up to 100 %; change one of them.")
    amounts = [round_money(total * share.percent / 100) for share in shares]
    amounts[0] = min(amounts[0], deposit_cap(total, settings, amounts[0]))
    amounts[-1] = total - sum(amounts[:-1], ZERO)
    return tuple(
        Stage(share.label, share.percent, amount) for share, amount in zip(shares, amounts, strict=True)
    )


def deposit_cap(total: Decimal, settings: PricingSettings, asked: Decimal) -> Decimal:
    """The most that may be asked for: the smaller of the caps that are set, else what is asked."""
    caps = [asked]
    if settings.deposit_cap_percent is not None:
        caps.append(round_money(total * settings.deposit_cap_percent / 100))
    if settings.deposit_cap_amount is not None:
        caps.append(round_money(settings.deposit_cap_amount))
    return min(caps)
