"""Cables, coils, controller."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

VOLTAGE = Rule(
    code="valve.voltage.low",
    judges="voltage at a valve's coil while its case runs, over copper at the temperature of the limits",
    limit="warn below 21 V, stop below what the coil needs",
    severities=(Severity.WARN, Severity.STOP),
    unit="V",
    source="IEC 60028 for copper and its temperature; least voltage: common practice, no source",
)
LENGTH = Rule(
    code="cable.length.over",
    judges="cable along the trench from device to device, rises and slack included, against its limit",
    limit="warn above 95 % of the limit, stop above it",
    severities=(Severity.WARN, Severity.STOP),
    unit="m",
    source=PRACTICE,
)
STATIONS = Rule(
    code="controller.stations.few",
    judges="zones wired to a controller against its stations",
    limit="stop where there are more zones than stations",
    severities=(Severity.STOP,),
    unit="stations",
    source=PRACTICE,
)
TRANSFORMER = Rule(
    code="controller.transformer.overload",
    judges="power of the valves that open together, one of them starting, against the transformer",
    limit="stop above its rating, or the share of it that the company allows",
    severities=(Severity.STOP,),
    unit="VA",
    source=PRACTICE,
)


@dataclass(frozen=True)
class CoilVolt:
    valve: str
    case: str
    volt: float
    min_volt: float


@dataclass(frozen=True)
class CableRun:
    id: str
    part: str
    length_m: float
    limit_m: float | None


def coil_voltage(coils: Iterable[CoilVolt], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    found = []
    for coil in coils:
        stop = coil.volt < coil.min_volt
        if not stop and coil.volt >= limits.coil_volt_warn:
            continue
        limit = coil.min_volt if stop else limits.coil_volt_warn
        sentence = (
            f"Valve {coil.valve} gets {coil.volt:.1f} V of the {limit:.1f} V that are wanted; "
            "use a thicker conductor or a shorter run."
        )
        severity = Severity.STOP if stop else Severity.WARN
        found.append(
            finding(VOLTAGE, severity, Place((coil.valve,), coil.case), (coil.volt, limit), sentence)
        )
    return found


def cable_length(runs: Iterable[CableRun], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    found = []
    for run in runs:
        if run.limit_m is None or run.length_m <= limits.cable_warn_share * run.limit_m:
            continue
        stop = run.length_m > run.limit_m
        advice = "move a device or take another cable" if stop else "measure the trench again before cutting"
        sentence = (
            f"Cable {run.id} is {run.length_m:.1f} m long, rises and slack included, and {run.part} may be "
            f"{run.limit_m:.1f} m; {advice}."
        )
        severity = Severity.STOP if stop else Severity.WARN
        limit = run.limit_m if stop else limits.cable_warn_share * run.limit_m
        found.append(finding(LENGTH, severity, Place((run.id,)), (run.length_m, limit), sentence))
    return found


def stations(controller: str, zones: int, station_count: int) -> list[Finding]:
    """``zones`` are the valves wired to that controller."""
    if zones <= station_count:
        return []
    sentence = (
        f"Controller {controller} has {station_count} stations for {zones} zones; "
        "take a larger one or run zones together."
    )
    return [
        finding(STATIONS, Severity.STOP, Place((controller,)), (float(zones), float(station_count)), sentence)
    ]


def transformer(
    controller: str, case: str, load_va: float, rating_va: float, limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    """``load_va`` from electrics.transformer_load_va."""
    most = limits.transformer_share * rating_va
    if load_va <= most:
        return []
    sentence = (
        f"The valves of case “{case}” draw {load_va:.1f} VA when the last one opens and controller "
        f"{controller} gives {most:.1f} VA; run fewer valves together."
    )
    place = Place((controller,), case)
    return [finding(TRANSFORMER, Severity.STOP, place, (load_va, most), sentence)]
