"""What of an area is watered, how evenly, and what lands beside it."""

from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

# an area with more spots than this has its heads in the wrong place altogether
MOST_SPOTS = 8

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
    "part of what a head wets that lies on a building, a neighbour's ground, a fence or paving, in percent",
    "stop above 2 % on a building or a neighbour's ground, the width of a drawn line; else warn",
    (Severity.WARN, Severity.STOP),
    "%",
    PRACTICE,
)
STOPPING_SURFACES = ("building", "neighbour")


@dataclass(frozen=True)
class Spot:
    """A patch without water and a point in it, nearest to its middle."""

    area_m2: float
    at: tuple[float, float]


@dataclass(frozen=True)
class AreaWetting:
    """``dry_spot_m2`` is the largest spot without water; ``once_pct`` none where one head may do.

    ``spots`` are the places of the spots, the largest first.
    """

    id: str
    area_m2: float
    dry_m2: float
    dry_spot_m2: float
    once_pct: float | None
    dulq_pct: float | None
    at: tuple[float, float] | None = None
    spots: tuple[Spot, ...] = ()


def area_wetting(area: AreaWetting, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """All that is to be said of how an area is watered."""
    return [*area_dry(area, limits), *area_once(area, limits), *area_uneven(area, limits)]


def area_dry(area: AreaWetting, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """Each spot that is too large by itself; else all of them together, where they are too much."""
    if area.dry_spot_m2 > limits.dry_spot_stop_m2:
        large = [spot for spot in area.spots if spot.area_m2 > limits.dry_spot_stop_m2]
        if large:
            return [_dry_spot(area, spot, len(large), limits) for spot in large[:MOST_SPOTS]]
        return [_dry(area, Severity.STOP, (area.dry_spot_m2, limits.dry_spot_stop_m2))]
    allowed_m2 = limits.area_dry_warn_pct / 100 * area.area_m2
    if area.dry_m2 > allowed_m2:
        return [_dry(area, Severity.WARN, (area.dry_m2, allowed_m2))]
    return []


def _dry(area: AreaWetting, severity: Severity, figures: tuple[float, float]) -> Finding:
    sentence = (
        f"No head reaches {area.dry_m2:.1f} m² of {area.id} (largest spot {area.dry_spot_m2:.1f} m²); "
        "move a head or add one."
    )
    return finding(DRY, severity, Place((area.id,), at=area.at), figures, sentence)


def _dry_spot(area: AreaWetting, spot: Spot, of: int, limits: Limits) -> Finding:
    rest = f", one of {of} such spots and {area.dry_m2:.1f} m² in all" if of > 1 else ""
    sentence = (
        f"No head reaches {spot.area_m2:.1f} m² of {area.id} around x {spot.at[0]:.1f}, y {spot.at[1]:.1f}"
        f"{rest}; move a head or add one."
    )
    figures = (spot.area_m2, limits.dry_spot_stop_m2)
    return finding(DRY, Severity.STOP, Place((area.id,), at=spot.at), figures, sentence)


def area_once(area: AreaWetting, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    most = limits.area_once_warn_pct
    if area.once_pct is None or area.once_pct <= most:
        return []
    sentence = (
        f"One head alone reaches {area.once_pct:.0f} % of {area.id}; "
        "set the heads so that each throws to the next."
    )
    return [finding(ONCE, Severity.WARN, Place((area.id,), at=area.at), (area.once_pct, most), sentence)]


def area_uneven(area: AreaWetting, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    least = limits.dulq_least_pct
    if area.dulq_pct is None or area.dulq_pct >= least:
        return []
    sentence = (
        f"The driest quarter of {area.id} gets {area.dulq_pct:.0f} % of the mean; "
        f"even out spacing or throw to reach {least:.0f} %."
    )
    return [finding(UNEVEN, Severity.WARN, Place((area.id,), at=area.at), (area.dulq_pct, least), sentence)]


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


def overspray_surface(
    head: str, surface: str, kind: str, pct: float, limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    """Water on a building, a neighbour's ground, a fence or paving, of that surface kind."""
    if pct <= 0:
        return []
    stop = pct > limits.surface_stop_pct and kind in STOPPING_SURFACES
    sentence = (
        f"{pct:.1f} % of what head {head} wets lands on {surface} ({kind}); "
        "turn its arc, shorten its throw or move it."
    )
    severity = Severity.STOP if stop else Severity.WARN
    place = Place((head, surface))
    return [finding(OVERSPRAY_SURFACE, severity, place, (pct, limits.surface_stop_pct), sentence)]
