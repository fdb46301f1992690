"""What one plan costs more than another, at the prices and rates of today."""

from decimal import Decimal

from office.company import get_company
from office.models import Person
from quoting.drafting import rates_now
from quoting.errors import PlanNotPriceable
from quoting.models import Section
from quoting.money import ZERO
from quoting.money_words import money_words
from quoting.policies import rates_dict
from quoting.priced_quote import PricedQuote
from quoting.pricing import price
from quoting.pricing_inputs import PricingInputs
from quoting.pricing_rates import pricing_settings
from quoting.working_out import Rates, work_out
from sites.comparison_panels import ComparisonTable
from sites.models import PlanRevision


def plan_price(plan: PlanRevision, rates: Rates) -> PricedQuote:
    """The plan priced as a fresh draft would be; nothing is stored. Raises PlanNotPriceable."""
    worked = work_out(plan, rates)
    settings = pricing_settings(rates_dict(rates.policy, rates.production))
    return price(PricingInputs(worked.lines, settings, rates.today))


def price_differences(person: Person, before: PlanRevision, after: PlanRevision) -> ComparisonTable:
    """By section of the quote, without tax; the parts sum to the difference of the net prices."""
    rates = rates_now()
    try:
        old, new = plan_price(before, rates), plan_price(after, rates)
    except PlanNotPriceable as error:
        return ComparisonTable((), None, str(error))
    first, second = _by_section(old), _by_section(new)
    rows = [
        _row(str(Section(key).label), first.get(key, ZERO), second.get(key, ZERO))
        for key in dict.fromkeys((*first, *second))
        if first.get(key) != second.get(key)
    ]
    sentence = "Both at the prices and rates of today, without tax and without what was edited by hand."
    return ComparisonTable(tuple(rows), _row("Price before tax", old.net, new.net), sentence)


def _by_section(priced: PricedQuote) -> dict[str, Decimal]:
    sums = dict[str, Decimal]()
    for line in priced.lines:
        sums[line.section] = sums.get(line.section, ZERO) + line.price
    return sums


def _row(name: str, before: Decimal, after: Decimal) -> tuple[str, str, str, str]:
    company = get_company()
    amounts = (before, after, after - before)
    first, second, gap = (money_words(amount, company.currency, company.locale) for amount in amounts)
    return (name, first, second, f"+{gap}" if after > before else gap)
