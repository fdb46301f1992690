"""The watering year of a plan revision, from the site's climate and restrictions as they stand."""

from datetime import time

from design.watering import plan_watering
from hydraulics.watering import Climate, Restrictions, WateringYear
from hydraulics.watering.need import NoRate
from hydraulics.watering.programme import Choices
from sites.check import check_revision, plan_of
from sites.errors import CheckFailed
from sites.models import PlanRevision, Site, SiteClimate, WateringRules


class ClimateMissing(CheckFailed):
    """Nobody has typed the site's climate yet."""


def climate_row(site: Site) -> SiteClimate | None:
    return SiteClimate.objects.prefetch_related("months").filter(site=site).first()


def rules_row(site: Site) -> WateringRules | None:
    return WateringRules.objects.filter(site=site).first()


def climate_of(row: SiteClimate) -> Climate:
    months = list(row.months.all())
    return Climate.of([month.eto_mm for month in months], [month.rain_mm for month in months])


def restrictions_of(row: WateringRules | None) -> Restrictions:
    """What is allowed; everything where nothing is written down."""
    if row is None:
        return Restrictions()
    weekdays = tuple(sorted(set(row.weekdays))) or tuple(range(7))
    return Restrictions(weekdays, _minutes(row.from_time), _minutes(row.to_time), row.monthly_cap_l)


def choices_of(row: WateringRules | None) -> Choices:
    if row is None:
        return Choices()
    share = row.rain_share_pct / 100
    return Choices(share, "low_quarter" if row.multiplier == "low_quarter" else "scheduling")


def year_of(revision: PlanRevision) -> WateringYear:
    """Raises ClimateMissing, or CheckFailed with a sentence."""
    climate = climate_row(revision.site)
    if climate is None:
        raise ClimateMissing(
            "This site has no climate yet. Type reference evapotranspiration and rain first."
        )
    rules = rules_row(revision.site)
    report = check_revision(revision)
    try:
        return plan_watering(
            plan_of(revision), report, climate_of(climate), restrictions_of(rules), choices_of(rules)
        )
    except NoRate as error:
        text = str(error)
        raise CheckFailed(f"{text[:1].upper()}{text[1:]}.") from None


def _minutes(of_day: time | None) -> int | None:
    return of_day.hour * 60 + of_day.minute if of_day else None
