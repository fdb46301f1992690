"""Plain factories for the watering tests."""

from hydraulics.watering import Climate, Restrictions, ZoneWater

# invented, plausible for a mild coast, mm a month
ETO_MM = [12, 18, 35, 58, 82, 95, 96, 80, 52, 29, 14, 9]
RAIN_MM = [75, 55, 55, 50, 52, 48, 45, 58, 62, 82, 80, 85]


def make_zone(name="V1", **fields):
    given = {
        "id": name, "label": "", "flow_lpm": 20.0, "mm_per_hour": 12.0, "du": 0.7, "cover": "turf",
        "soil": "loam", "slope_pct": 1.0, "area_m2": 100.0,
    }  # fmt: skip
    return ZoneWater(**{**given, **fields})


def make_climate(eto_mm=ETO_MM, rain_mm=RAIN_MM):
    return Climate.of(eto_mm, rain_mm)


def evenings(**fields):
    return Restrictions(**{"weekdays": (1, 3, 5), "from_min": 20 * 60, "to_min": 23 * 60, **fields})
