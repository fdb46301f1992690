"""What a browser sends to the watering pages."""

from tests.watering.zones import ETO_MM, RAIN_MM


def rows_of(eto=ETO_MM, rain=RAIN_MM, unit="mm"):
    from hydraulics.units import parse_quantity
    from sites.climate_csv import ClimateRow

    def read(value):
        return parse_quantity(f"{value} {unit}", "depth", unit)

    pairs = zip(eto, rain, strict=True)
    return [ClimateRow(month, read(e), read(r)) for month, (e, r) in enumerate(pairs, 1)]


def keep_climate(site, **fields):
    from sites.watering_services import save_climate

    given = {"rows": rows_of(), "source": "invented", "began_from": 0, "by": None, **fields}
    return save_climate(site=site, **given)


def keep_rules(site, began_from=0, **fields):
    from sites.watering_services import save_watering_rules

    return save_watering_rules(site=site, fields=fields, began_from=began_from, by=None)


def climate_post(began_from=0, **changed):
    data = {"began_from": began_from, "source": "station"}
    for month, (eto, rain) in enumerate(zip(ETO_MM, RAIN_MM, strict=True), 1):
        data |= {f"eto_{month}": str(eto), f"rain_{month}": str(rain)}
    return data | changed


def rules_post(began_from=0, days=(1, 3), **changed):
    data = {
        "began_from": began_from, "from_time": "21:00", "to_time": "05:00", "monthly_cap": "30 m3",
        "rain_share_pct": "50", "multiplier": "scheduling",
    }  # fmt: skip
    return data | {f"day_{day}": "on" for day in days} | changed


def csv_text(header="month,eto_mm,rain_mm", rows=None, joint=","):
    rows = rows or [(month, e, r) for month, (e, r) in enumerate(zip(ETO_MM, RAIN_MM, strict=True), 1)]
    return "\n".join([header, *(joint.join(str(cell) for cell in row) for row in rows)]) + "\n"
