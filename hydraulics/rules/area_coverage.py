"""What of an area is watered, how evenly, and what lands beside it."""

from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

# common practice, no source
DRY_WARN_PCT, DRY_STOP_M2, ONCE_WARN_PCT = 1.0, 0.5, 5.0
# EPA WaterSense landscape audit guideline: least DUlq for spray turf
DULQ_LEAST_PCT = 65.0

DRY = Rule(
    "area.dry",
    "part of an area that no head reaches",
    "warn above 1 % of the area, stop where a dry spot is larger than 0.5 m²",
    (Severity.WARN, Severity.STOP),
    "m2",
    PRACTICE,
)
ONCE = Rule(
    "area.once",
    "part of an area that one head alone reaches, where heads overlap by design",
    "warn above 5 % of the area",
    (Severity.WARN,),
    "%",
    PRACTICE,
)
UNEVEN = Rule(
    "area.uniformity.low",
    "distribution uniformity of the low quarter over an area",
    "warn below 65 %",
    (Severity.WARN,),
    "%",
    "EPA WaterSense landscape irrigation audit guideline, least DUlq of spray turf",
)
OVERSPRAY = Rule(
    "head.overspray",
    "water of a head that lands outside the areas, in percent of what it wets",
    "warn above 10 %",
    (Severity.WARN,),
    "%",
    PRACTICE,
)
OVERSPRAY_SURFACE = Rule(
    "head.overspray.surface",
    "water of a head that lands on a building or across the boundary, in percent of what it wets",
    "stop above 2 %, the width of a drawn line; warn below",
    (Severity.WARN, Severity.STOP),
    "%",
    PRACTICE,
)
# below this share a drawn edge may be to blame
SURFACE_STOP_PCT = 2.0


@dataclass(frozen=True)
class AreaWetting:
    """``dry_spot_m2`` is the largest spot without water; ``once_pct`` none where one head may do."""

    id: str
    area_m2: float
    dry_m2: float
    dry_spot_m2: float
    once_pct: float | None
    dulq_pct: float | None
    at: tuple[float, float] | None = None


def area_wetting(area: AreaWetting) -> list[Finding]:
    found = []
    dry_pct = 100 * area.dry_m2 / area.area_m2
    place = Place((area.id,), at=area.at)
    if area.dry_spot_m2 > DRY_STOP_M2 or dry_pct > DRY_WARN_PCT:
        stop = area.dry_spot_m2 > DRY_STOP_M2
        measured = area.dry_spot_m2 if stop else area.dry_m2
        limit = DRY_STOP_M2 if stop else DRY_WARN_PCT / 100 * area.area_m2
        sentence = (
            f"No head reaches {area.dry_m2:.1f} m² of {area.id} (largest spot {area.dry_spot_m2:.1f} m²); "
            "move a head or add one."
        )
        severity = Severity.STOP if stop else Severity.WARN
        found.append(finding(DRY, severity, place, (measured, limit), sentence))
    if area.once_pct is not None and area.once_pct > ONCE_WARN_PCT:
        sentence = (
            f"One head alone reaches {area.once_pct:.0f} % of {area.id}; "
            "set the heads so that each throws to the next."
        )
        found.append(finding(ONCE, Severity.WARN, place, (area.once_pct, ONCE_WARN_PCT), sentence))
    if area.dulq_pct is not None and area.dulq_pct < DULQ_LEAST_PCT:
        sentence = (
            f"The driest quarter of {area.id} gets {area.dulq_pct:.0f} % of the mean; "
            f"even out spacing or throw to reach {DULQ_LEAST_PCT:.0f} %."
        )
        found.append(finding(UNEVEN, Severity.WARN, place, (area.dulq_pct, DULQ_LEAST_PCT), sentence))
    return found


def overspray(head: str, outside_pct: float, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """``outside_pct`` of what the head wets lies in none of the areas."""
    if outside_pct <= limits.overspray_warn_pct:
        return []
    sentence = (
        f"{outside_pct:.0f} % of what head {head} wets lies outside the areas; "
        "turn its arc or shorten its throw."
    )
    figures = (outside_pct, limits.overspray_warn_pct)
    return [finding(OVERSPRAY, Severity.WARN, Place((head,)), figures, sentence)]


def overspray_surface(head: str, surface: str, kind: str, pct: float) -> list[Finding]:
    """Water on a building, a neighbour's ground or paving, of that surface kind."""
    if pct <= 0:
        return []
    stop = pct > SURFACE_STOP_PCT and kind in ("building", "neighbour")
    sentence = (
        f"{pct:.1f} % of what head {head} wets lands on {surface} ({kind}); "
        "turn its arc, shorten its throw or move it."
    )
    severity = Severity.STOP if stop else Severity.WARN
    place = Place((head, surface))
    return [finding(OVERSPRAY_SURFACE, severity, place, (pct, SURFACE_STOP_PCT), sentence)]
