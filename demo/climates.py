"""A site's climate and restrictions of the demo's data, read as if somebody had typed them."""

from datetime import time
from typing import Any

from hydraulics.units import parse_quantity
from sites.climate_csv import ClimateRow


def climate_rows(row: dict[str, Any]) -> list[ClimateRow]:
    """``row`` is the ``climate`` of a site in customers.json."""
    pairs = zip(row["eto"], row["rain"], strict=True)
    return [
        ClimateRow(month, parse_quantity(eto, "depth", "mm"), parse_quantity(rain, "depth", "mm"))
        for month, (eto, rain) in enumerate(pairs, 1)
    ]


def rules_fields(row: dict[str, Any]) -> dict[str, Any]:
    """``row`` is the ``watering_rules`` of a site in customers.json."""
    cap = parse_quantity(row["monthly_cap"], "volume", "L") if row["monthly_cap"] else None
    return {
        "weekdays": row["weekdays"],
        "from_time": time.fromisoformat(row["from"]),
        "to_time": time.fromisoformat(row["to"]),
        "monthly_cap_l": cap.value_si if cap else None,
        "monthly_cap_text": row["monthly_cap"],
    }
