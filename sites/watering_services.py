"""Writing a site's climate and its watering restrictions."""

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from hydraulics.watering import Climate
from office.audit import record
from office.models import Person
from office.versions import save_version
from sites.climate_csv import ClimateRow
from sites.figures import typed_text
from sites.models import ClimateMonth, Site, SiteClimate, WateringRules


@transaction.atomic
def save_climate(
    *, site: Site, rows: Sequence[ClimateRow], source: str, began_from: int, by: Person | None
) -> SiteClimate:
    """Keep twelve months in place of those that stood. ``began_from`` is the version, 0 for none yet.

    Raises hydraulics' BadClimate where the rows are no year, or office.versions.Clash.
    """
    ordered = sorted(rows, key=lambda row: row.month)
    Climate.of([row.eto.value_si for row in ordered], [row.rain.value_si for row in ordered])
    stored = _locked(site, SiteClimate)
    if stored is None:
        saved = SiteClimate(site=site, source=source)
        saved.full_clean()
        saved.save()
    else:
        saved = save_version(stored, began_from=began_from, fields={"source": source})
        saved.months.all().delete()
    ClimateMonth.objects.bulk_create(_month(saved, row) for row in ordered)
    record(by=by, verb="climate.saved", subject=saved, detail={"site": site.pk})
    return saved


@transaction.atomic
def save_watering_rules(
    *, site: Site, fields: dict[str, Any], began_from: int, by: Person | None
) -> WateringRules:
    """Keep the restrictions; office.versions.Clash where somebody saved since ``began_from``."""
    stored = _locked(site, WateringRules)
    if stored is None:
        saved = WateringRules(site=site, **fields)
        saved.full_clean()
        saved.save()
    else:
        saved = save_version(stored, began_from=began_from, fields=fields)
    record(by=by, verb="watering_rules.saved", subject=saved, detail={"site": site.pk})
    return saved


def _locked(site: Site, model: type[SiteClimate] | type[WateringRules]) -> Any:
    """The site's row, while nobody else can make one."""
    Site.objects.select_for_update().get(pk=site.pk)
    return model._default_manager.filter(site=site).first()


def _month(climate: SiteClimate, row: ClimateRow) -> ClimateMonth:
    return ClimateMonth(
        climate=climate,
        month=row.month,
        eto_mm=row.eto.value_si,
        eto_text=typed_text(row.eto),
        rain_mm=row.rain.value_si,
        rain_text=typed_text(row.rain),
    )
