"""Protection of the drinking water: the device, its height, what stands behind it."""

from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.rules.rule import Place, Rule, finding

LOCAL = "Local code and a licensed plumber decide."
HEIGHT = Rule(
    code="backflow.height.low",
    judges="height of the device above the highest outlet (vacuum breakers) or above the ground",
    limit="stop below the part's least height, usually 0.30 m (pressure), 0.15 m (atmospheric)",
    severities=(Severity.STOP,),
    unit="m",
    source="City ordinance of Paris TX (834557, p. 9); Gilbert AZ, Residential Applications",
)
MISSING = Rule(
    code="backflow.missing",
    judges="number of backflow devices at the connection",
    limit="stop below 1",
    severities=(Severity.STOP,),
    unit="devices",
    source="City ordinance of Paris TX (834557, p. 9)",
)
VALVE_BEHIND = Rule(
    code="backflow.atmospheric.valve_behind",
    judges="valves downstream of an atmospheric vacuum breaker",
    limit="stop above 0",
    severities=(Severity.STOP,),
    unit="valves",
    source="City ordinance of Paris TX (834557, p. 9)",
)
HEIGHT_UNKNOWN = Rule(
    code="backflow.height.unknown",
    judges="whether the height of the device was written down",
    limit="warn where it was not",
    severities=(Severity.WARN,),
    unit="m",
    source=HEIGHT.source,
)


@dataclass(frozen=True)
class BackflowSite:
    """Levels in site metres. Outlets count retracted; ``height_m`` above the ground at the device."""

    device: str  # as BackflowPart.device; empty for none
    part: str
    min_height_m: float
    height_m: float | None
    ground_level_m: float
    highest_outlet_m: float
    valves_behind: int = 0


def backflow(site: BackflowSite) -> list[Finding]:
    """None, one or two findings."""
    place = Place(("supply",))
    if not site.device:
        sentence = f"No backflow device is named; choose one to protect the drinking water. {LOCAL}"
        return [finding(MISSING, Severity.STOP, place, (0.0, 1.0), sentence)]
    return [*_valve_behind(site, place), *_height(site, place)]


def _valve_behind(site: BackflowSite, place: Place) -> list[Finding]:
    if site.device != "atmospheric_vacuum_breaker" or site.valves_behind == 0:
        return []
    sentence = (
        f"{site.valves_behind} valve(s) stand behind the atmospheric vacuum breaker {site.part}, which must "
        f"not be kept under pressure; take another kind of device. {LOCAL}"
    )
    return [finding(VALVE_BEHIND, Severity.STOP, place, (float(site.valves_behind), 0.0), sentence)]


def _height(site: BackflowSite, place: Place) -> list[Finding]:
    if site.device == "double_check":
        return []
    breaker = site.device.endswith("vacuum_breaker")
    base_m = max(site.highest_outlet_m - site.ground_level_m, 0.0) if breaker else 0.0
    needed = base_m + site.min_height_m
    what = "the highest outlet" if breaker else "the ground"
    if site.height_m is None:
        sentence = (
            f"The height of {site.part} is not given; it needs {needed:.2f} m above the ground. {LOCAL}"
        )
        return [finding(HEIGHT_UNKNOWN, Severity.WARN, place, (0.0, needed), sentence)]
    if site.height_m >= needed - 1e-9:
        return []
    sentence = (
        f"{site.part} sits {site.height_m:.2f} m above the ground and needs {needed:.2f} m, "
        f"{site.min_height_m:.2f} m above {what}; raise it, or take a kind that may sit lower. {LOCAL}"
    )
    return [finding(HEIGHT, Severity.STOP, place, (site.height_m, needed), sentence)]
