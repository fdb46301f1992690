"""How far the supply readings can be trusted, and whether the pressure at rest is sound."""

from collections.abc import Sequence

from hydraulics.findings import Finding, Severity
from hydraulics.friction import velocity_mps
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding
from hydraulics.supply import BucketReading, SupplyCurve

# common practice, no source
STATIC_HIGH_KPA = 550.0
STATIC_LOW_KPA = 200.0
LEAST_FILL_S = 10.0
BUCKET_SPREAD_WARN_PCT, BUCKET_SPREAD_STOP_PCT = 5.0, 10.0
SERVICE_WARN_MPS, SERVICE_STOP_MPS = 2.3, 3.0
PLACE = Place(("supply",))

UNMEASURED = Rule(
    "supply.unmeasured",
    "flow readings at the supply",
    "warn without any",
    (Severity.WARN,),
    "readings",
    PRACTICE,
)
BUCKET_ONLY = Rule(
    "supply.bucket_only",
    "gauge readings at the supply",
    "note without any: the curve then ends at the bucket's flow, its cautious end",
    (Severity.NOTE,),
    "readings",
    PRACTICE,
)
BEYOND_TEST = Rule(
    "supply.beyond_test", "flow of a case against the greatest flow tested", "note above it",
    (Severity.NOTE,), "L/min", PRACTICE,
)  # fmt: skip
STATIC_HIGH = Rule(
    "supply.static.high",
    "static pressure at the connection",
    "warn above 550 kPa",
    (Severity.WARN,),
    "kPa",
    PRACTICE,
)
STATIC_LOW = Rule(
    "supply.static.low",
    "static pressure at the connection",
    "warn below 200 kPa",
    (Severity.WARN,),
    "kPa",
    PRACTICE,
)
BUCKET_SPREAD = Rule(
    "supply.bucket.spread",
    "spread of bucket runs at one tap",
    "warn above 5 %, stop above 10 %",
    (Severity.WARN, Severity.STOP),
    "%",
    PRACTICE,
)
BUCKET_SHORT = Rule(
    "supply.bucket.short",
    "time that a bucket took to fill",
    "warn below 10 s",
    (Severity.WARN,),
    "s",
    PRACTICE,
)
SERVICE_SPEED = Rule(
    "supply.service.velocity",
    "velocity in the service pipe at the tested flow",
    "warn above 2.3 m/s, stop above 3 m/s: the bore is then likely wrong",
    (Severity.WARN, Severity.STOP),
    "m/s",
    PRACTICE,
)
FIT = Rule(
    "supply.fit.wide",
    "greatest miss of a flowing reading from the fitted supply curve",
    "warn above 15 kPa",
    (Severity.WARN,),
    "kPa",
    PRACTICE,
)
STATIC_SPREAD = Rule(
    "supply.static.spread",
    "spread of the static readings, brought to one level",
    "warn above 30 kPa",
    (Severity.WARN,),
    "kPa",
    PRACTICE,
)


def supply_confidence(curve: SupplyCurve, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    if curve.confidence == "provisional":
        sentence = (
            f"No flow was measured at the supply, so {limits.provisional_share:.0%} of the static is taken "
            "to be left at an assumed flow; measure the residual at a known flow before the price is final."
        )
        return [finding(UNMEASURED, Severity.WARN, PLACE, (0.0, 1.0), sentence)]
    if curve.confidence == "cautious":
        sentence = (
            f"Only the open tap was measured ({curve.tested_lpm:.1f} L/min with no pressure left); "
            "a gauge reading at a known flow may allow larger zones."
        )
        return [finding(BUCKET_ONLY, Severity.NOTE, PLACE, (0.0, 1.0), sentence)]
    return []


def supply_scatter(curve: SupplyCurve, limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """Readings that contradict nothing, and yet do not fit one curve well."""
    found = []
    flowing = [r for r in curve.readings if r.kind != "static" and r.miss_kpa is not None]
    worst = max(flowing, key=lambda r: abs(r.miss_kpa or 0.0), default=None)
    if worst is not None and abs(worst.miss_kpa or 0.0) > limits.supply_fit_warn_kpa:
        miss = worst.miss_kpa or 0.0
        sentence = (
            f"The {worst.kind} reading of {worst.flow_lpm:.1f} L/min lies {abs(miss):.0f} kPa "
            f"{'above' if miss > 0 else 'below'} the fitted supply curve; repeat the readings in turn."
        )
        figures = (abs(miss), limits.supply_fit_warn_kpa)
        found.append(finding(FIT, Severity.WARN, PLACE, figures, sentence))
    statics = [r.kpa for r in curve.readings if r.kind == "static"]
    spread = max(statics, default=0.0) - min(statics, default=0.0)
    if spread > limits.supply_static_spread_kpa:
        sentence = (
            f"The static readings lie {spread:.0f} kPa apart and their mean is used; take a margin off for "
            "the hours at which the garden is watered."
        )
        figures = (spread, limits.supply_static_spread_kpa)
        found.append(finding(STATIC_SPREAD, Severity.WARN, PLACE, figures, sentence))
    return found


def beyond_test(curve: SupplyCurve, case: str, flow_lpm: float) -> list[Finding]:
    """A case that asks for more than was ever tested."""
    if curve.confidence == "provisional" or flow_lpm <= curve.tested_lpm:
        return []
    sentence = (
        f"Case “{case}” takes {flow_lpm:.1f} L/min and no more than {curve.tested_lpm:.1f} L/min was tested; "
        "test the supply at that flow."
    )
    place = Place(("supply",), case)
    return [finding(BEYOND_TEST, Severity.NOTE, place, (flow_lpm, curve.tested_lpm), sentence)]


def static_pressure(static_kpa: float) -> list[Finding]:
    if static_kpa > STATIC_HIGH_KPA:
        sentence = (
            f"The supply stands at {static_kpa:.0f} kPa; fit a pressure regulator to stay below 550 kPa."
        )
        return [finding(STATIC_HIGH, Severity.WARN, PLACE, (static_kpa, STATIC_HIGH_KPA), sentence)]
    if static_kpa < STATIC_LOW_KPA:
        sentence = (
            f"The supply stands at {static_kpa:.0f} kPa only; talk about a booster pump, or use drip alone."
        )
        return [finding(STATIC_LOW, Severity.WARN, PLACE, (static_kpa, STATIC_LOW_KPA), sentence)]
    return []


def bucket_runs(runs: Sequence[BucketReading]) -> list[Finding]:
    """Runs at one tap: do they agree, and did they last long enough."""
    found = []
    quickest = min((run.seconds for run in runs), default=LEAST_FILL_S)
    if quickest < LEAST_FILL_S:
        sentence = f"The bucket was full in {quickest:.1f} s; use a larger one that takes at least 10 s."
        found.append(finding(BUCKET_SHORT, Severity.WARN, PLACE, (quickest, LEAST_FILL_S), sentence))
    flows = [run.flow_lpm for run in runs]
    if len(flows) > 1:
        spread = 100 * (max(flows) - min(flows)) / (sum(flows) / len(flows))
        if spread > BUCKET_SPREAD_WARN_PCT:
            stop = spread > BUCKET_SPREAD_STOP_PCT
            limit = BUCKET_SPREAD_STOP_PCT if stop else BUCKET_SPREAD_WARN_PCT
            sentence = (
                f"The bucket runs give {min(flows):.1f} to {max(flows):.1f} L/min, {spread:.0f} % apart; "
                "repeat them with no other water running."
            )
            severity = Severity.STOP if stop else Severity.WARN
            found.append(finding(BUCKET_SPREAD, severity, PLACE, (spread, limit), sentence))
    return found


def service_velocity(tested_lpm: float, bore_mm: float) -> list[Finding]:
    """A tested flow that the stated service pipe could hardly carry."""
    speed = velocity_mps(tested_lpm, bore_mm)
    if speed <= SERVICE_WARN_MPS:
        return []
    stop = speed > SERVICE_STOP_MPS
    limit = SERVICE_STOP_MPS if stop else SERVICE_WARN_MPS
    sentence = (
        f"{tested_lpm:.1f} L/min would run at {speed:.1f} m/s in a service pipe of {bore_mm:.1f} mm bore; "
        "measure its bore and the flow again."
    )
    severity = Severity.STOP if stop else Severity.WARN
    return [finding(SERVICE_SPEED, severity, PLACE, (speed, limit), sentence)]
