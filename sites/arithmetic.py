"""What the readings of a visit say, worked out in view while they are typed."""

from dataclasses import dataclass

from hydraulics.catalogue import Catalogue, MeterPart
from hydraulics.errors import HydraulicsError
from hydraulics.limits import DEFAULT_LIMITS, Limits
from hydraulics.sentences import in_units_of
from hydraulics.supply import SupplyCurve, Upstream, design_flow, fit_supply
from hydraulics.units import Quantity, bucket_seconds
from sites.figures import in_both, typed_text, written
from sites.readings import Bucket, VisitData
from sites.supply_readings import bucket_lpm, supply_readings

CONFIDENCE = {
    "measured": "Measured: fixed by a residual at a known flow.",
    "cautious": "Cautious: a bucket shows the least that the tap gives. A gauge reading would show more.",
    "provisional": "Provisional: no flowing reading yet, so 70 % of the static is taken to be left.",
}
# shares of the tested flow at which the fitted curve is told
SHARES = (0.5, 0.75, 1.0)


@dataclass(frozen=True)
class Arithmetic:
    """Sentences by bucket row, and those about the supply as a whole."""

    rows: dict[int, str]
    supply: tuple[str, ...]


def work_out(
    data: VisitData,
    rows: dict[int, Bucket],
    system: str,
    compare: Quantity | None = None,
    parts: Catalogue | None = None,
    limits: Limits = DEFAULT_LIMITS,
) -> Arithmetic:
    """``rows`` are the complete bucket rows of the form by their place in it."""
    by_row = {place: bucket_sentence(bucket, compare) for place, bucket in rows.items()}
    return Arithmetic(by_row, tuple(_supply(data, system, parts, limits)))


def bucket_sentence(bucket: Bucket, compare: Quantity | None = None) -> str:
    """5 US gal in 45 s is 6.67 US gal/min (25.2 L/min); at 8 US gal/min it would take 37.5 s."""
    if bucket.volume.value_si <= 0 or bucket.fill.value_si <= 0:
        return ""
    unit = "gpm" if bucket.volume.unit == "gal" else "L/min"
    given = f"{typed_text(bucket.volume)} in {typed_text(bucket.fill)}"
    said = f"{given} is {in_both(bucket_lpm(bucket), 'flow', unit)}."
    if compare is None or compare.value_si <= 0:
        return said
    seconds = bucket_seconds(bucket.volume.value_si, compare.value_si)
    flow = written(compare.value_si, "flow", compare.unit)
    return f"{said} To compare: at {flow} the same bucket would take {written(seconds, 'time', 's')}."


def _supply(data: VisitData, system: str, parts: Catalogue | None, limits: Limits) -> list[str]:
    lines = _runs(data, system)
    if data.static is None or data.static.value_si <= 0:
        return [*lines, "Type the static pressure, and the supply curve is worked out here."] if lines else []
    upstream = _upstream(data, parts)
    try:
        curve = fit_supply(data.static.value_si, supply_readings(data), _rise_m(data), upstream, limits)
        return [*lines, *_curve(curve, system), *_caps(curve, upstream, limits, system)]
    except HydraulicsError as error:
        return [*lines, f"No supply curve yet: {error}."]


def _runs(data: VisitData, system: str) -> list[str]:
    flows = [bucket_lpm(b) for b in data.buckets if b.volume.value_si > 0 and b.fill.value_si > 0]
    unit = "gpm" if system == "us" else "L/min"
    if len(flows) == 1:
        return ["One bucket run only. Three runs show whether the watch was right."]
    if len(flows) > 1:
        mean = sum(flows) / len(flows)
        spread = (max(flows) - min(flows)) / mean
        return [f"Mean of {len(flows)} bucket runs: {in_both(mean, 'flow', unit)}, spread {spread:.1%}."]
    return []


def _upstream(data: VisitData, parts: Catalogue | None) -> Upstream:
    meter = parts.get(data.meter) if parts is not None and data.meter else None
    safe = meter.safe_max_lpm if isinstance(meter, MeterPart) else None
    bore = data.service_bore.value_si if data.service_bore and data.service_bore.value_si > 0 else None
    return Upstream(safe, bore)


def _rise_m(data: VisitData) -> float:
    return data.connection_z.value_si if data.connection_z else 0.0


def _curve(curve: SupplyCurve, system: str) -> list[str]:
    pressure, flow_unit = ("psi", "gpm") if system == "us" else ("bar", "L/min")
    lines = [CONFIDENCE[curve.confidence]]
    base = curve.tested_lpm or curve.flow_lpm(0.5 * curve.static_kpa)
    left = [
        f"{in_both(curve.pressure_kpa(share * base), 'pressure', pressure)} at "
        f"{written(share * base, 'flow', flow_unit)}"
        for share in SHARES
        if curve.pressure_kpa(share * base) >= 0
    ]
    return [*lines, f"The supply leaves {', '.join(left)} at the connection."] if left else lines


def _caps(curve: SupplyCurve, upstream: Upstream, limits: Limits, system: str) -> list[str]:
    """The caps that hold whatever the plan; what the curve allows depends on the pressure needed."""
    found = design_flow(curve, 0.0, upstream, limits)
    caps = sorted((cap for cap in found.caps if cap.name != "curve"), key=lambda cap: cap.flow_lpm)
    if not caps:
        return []
    unit = "gpm" if system == "us" else "L/min"
    said = f"Whatever the plan, design for no more than {in_both(round(caps[0].flow_lpm, 1), 'flow', unit)}."
    return [said, *(in_units_of(system, cap.sentence) for cap in caps)]
