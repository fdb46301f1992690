"""The pricing policy and the production rates of this company."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.forms.models import model_to_dict

from office import audit
from office.models import Person
from office.versions import save_version
from quoting.labour import LabourSettings
from quoting.models import Policy, ProductionRate
from quoting.production_rates import DEFAULT_RATES


def get_policy() -> Policy:
    """The one row, made with the usual values at first use."""
    return Policy.objects.order_by("pk").first() or Policy.objects.create()


def production_rates() -> dict[str, ProductionRate]:
    """Rates by work code; work that nobody has a rate for yet gets the usual one."""
    known = set(ProductionRate.objects.values_list("work", flat=True))
    missing = [work for work in DEFAULT_RATES if work not in known]
    if missing:
        order = list(DEFAULT_RATES).index
        rows = [_row(work, order(work)) for work in missing]
        ProductionRate.objects.bulk_create(rows, ignore_conflicts=True)
    return {rate.work: rate for rate in ProductionRate.objects.all()}


def _row(work: str, order: int) -> ProductionRate:
    usual = DEFAULT_RATES[work]
    return ProductionRate(
        work=work,
        label=usual.label,
        measure=usual.measure,
        good=usual.good,
        typical=usual.typical,
        bad=usual.bad,
        value=usual.value,
        order=order,
    )


def labour_settings(policy: Policy, *, machine_access: bool = True) -> LabourSettings:
    return LabourSettings(
        crew_size=policy.crew_size,
        hours_per_day=policy.hours_per_day,
        setup_hours=policy.setup_hours,
        travel_hours=policy.travel_hours,
        carrying_share=policy.carrying_percent / 100,
        smallest_job_days=policy.smallest_job_days,
        machine_access=machine_access,
    )


def rates_dict(policy: Policy, rates: Mapping[str, ProductionRate]) -> dict[str, Any]:
    """Policy and production rates as plain JSON values, to be kept with a quote."""
    values = {name: _plain(value) for name, value in model_to_dict(policy).items() if name != "id"}
    return {**values, "production": {work: str(rate.value) for work, rate in rates.items()}}


def _plain(value: object) -> object:
    return str(value) if isinstance(value, Decimal) else value


@transaction.atomic
def save_policy(*, policy: Policy, began_from: int, fields: dict[str, object], by: Person) -> Policy:
    """Raises Clash when somebody else saved in between, ValidationError with a sentence by field."""
    before = rates_dict(policy, {})
    saved = save_version(policy, began_from=began_from, fields=fields)
    after = rates_dict(saved, {})
    changed = {name: [before[name], after[name]] for name in after if before[name] != after[name]}
    audit.record(by=by, verb="policy.changed", subject=saved, detail=changed)
    return saved


@transaction.atomic
def save_rate(*, rate: ProductionRate, began_from: int, value: Decimal, by: Person) -> ProductionRate:
    """A production rate of our own. Raises Clash or ValidationError."""
    saved = save_version(rate, began_from=began_from, fields={"value": value})
    detail = {"work": rate.work, "from": str(rate.value), "to": str(value)}
    audit.record(by=by, verb="rate.changed", subject=saved, detail=detail)
    return saved
