"""The limits that the rules judge by. A company may move each; the report then says so.

Each field carries its label, unit, source and the range within which it may be moved;
``limit_facts`` reads them off.
"""

import dataclasses
from dataclasses import dataclass
from typing import Any

PRACTICE = "common practice, no source"


def limit(usual: float, label: str, unit: str, within: tuple[float, float], source: str = PRACTICE) -> Any:
    """A limit with its usual value; ``within`` is the range outside which a value is refused."""
    facts = {"label": label, "unit": unit, "source": source, "low": within[0], "high": within[1]}
    return dataclasses.field(default=usual, metadata=facts)


@dataclass(frozen=True)
class Limits:
    """Defaults are the usual values. Shares are of 1, ``_pct`` of 100."""

    supply_margin_kpa: float = limit(
        0.0, "Taken off the static pressure for the worst season", "kPa", (0, 400)
    )
    bucket_share: float = limit(0.75, "Share of the tested flow that may be used", "share", (0.3, 1))
    meter_share: float = limit(
        0.75, "Share of the meter's safe maximum that may be used", "share", (0.3, 1),
        "from memory: three quarters of a meter's safe maximum",
    )  # fmt: skip
    service_velocity_mps: float = limit(
        1.5, "Velocity in the service pipe", "m/s", (0.5, 4), "from memory: 5 ft/s, rounded to 1.5 m/s"
    )
    pipe_velocity_warn_mps: float = limit(
        1.5,
        "Velocity in a pipe, to be judged above",
        "m/s",
        (0.3, 4),
        "from memory: 5 ft/s, rounded to 1.5 m/s",
    )
    pipe_velocity_stop_mps: float = limit(
        2.1, "Velocity in a pipe, never above", "m/s", (0.5, 5), "from memory: 7 ft/s"
    )
    zone_flow_warn_share: float = limit(
        1.0, "Flow of a case over the design flow, to be judged above", "share", (0.5, 1.5)
    )
    zone_flow_stop_share: float = limit(
        1.15, "Flow of a case over the design flow, never above", "share", (0.5, 2)
    )
    head_pressure_warn_share: float = limit(
        1.10, "Pressure at a head over its least, to be judged below", "share", (1, 2)
    )
    zone_pressure_spread_pct: float = limit(20.0, "Spread of pressure in a zone", "%", (1, 60))
    precipitation_ratio_warn: float = limit(
        1.10, "Highest over lowest precipitation rate in a zone, to be judged above", "ratio", (1, 3)
    )
    precipitation_ratio_stop: float = limit(
        1.25, "Highest over lowest precipitation rate in a zone, never above", "ratio", (1, 4)
    )
    static_share_of_rating: float = limit(
        0.72, "Static pressure over a part's rating, to be judged above", "share", (0.3, 1),
        "ASAE S376.1 as quoted in the NRCS Missouri Livestock Watering Systems Handbook, ch. 5",
    )  # fmt: skip
    main_depth_m: float = limit(0.45, "Depth at which a main is laid", "m", (0.05, 3))
    lateral_depth_m: float = limit(0.30, "Depth at which a lateral is laid", "m", (0.05, 3))
    cable_depth_m: float = limit(
        0.30, "Depth at which a cable is laid that has its own trench", "m", (0.05, 3)
    )
    under_paving_depth_m: float = limit(0.60, "Depth under paving", "m", (0.05, 3))
    service_clearance_m: float = limit(0.15, "Vertical gap to a service at a crossing", "m", (0.05, 1))
    hand_dig_margin_m: float = limit(
        0.6, "Dug by hand within this distance of a service", "m", (0.3, 3),
        "common practice, no source; Ohio RC 3781.25(E) has the facility's width plus 18 in",
    )  # fmt: skip
    sleeve_end_m: float = limit(0.3, "Sleeve beyond the hard surface, each side", "m", (0, 2))
    future_works_margin_m: float = limit(1.0, "Distance to future works", "m", (0, 10))
    cable_slack_m: float = limit(
        0.75, "Cable left at each end, beside the rise from trench to device", "m", (0, 5)
    )
    cable_warn_share: float = limit(
        0.95, "Cable length over its limit, to be judged above", "share", (0.5, 1)
    )
    coil_volt_warn: float = limit(21.0, "Voltage at a coil, to be judged below", "V", (5, 60))
    overspray_warn_pct: float = limit(
        10.0, "Part of what a head wets that lies outside the areas", "%", (0, 100)
    )
    coverage_grid_m: float = limit(0.25, "Grid on which coverage is worked out", "m", (0.05, 2))
    low_head_drainage_m: float = limit(
        1.5, "Fall in a zone above which heads need check valves", "m", (0.1, 20)
    )
    trench_protection_m: float = limit(
        1.52, "Depth from which a trench needs protection", "m", (0.5, 1.52),
        "29 CFR 1926.652(a)(1): protection from 5 ft",
    )  # fmt: skip
    main_least_depth_m: float = limit(0.30, "Least depth of a main", "m", (0, 3))
    lateral_least_depth_m: float = limit(0.20, "Least depth of a lateral", "m", (0, 3))
    cable_least_depth_m: float = limit(
        0.15, "Least depth of a control cable", "m", (0, 3),
        "from memory: NEC table 300.5, 6 in for irrigation control of at most 30 V",
    )  # fmt: skip
    throw_stop_share: float = limit(
        1.10, "Farthest point over a head's throw, never above", "share", (1, 1.5)
    )
    spacing_stop_share: float = limit(
        1.10, "Spacing of heads over what is allowed, never above", "share", (1, 1.5)
    )
    wind_allowance_pct: float = limit(
        0.0, "Taken off the spacing of heads for wind; 10 where it is windy", "%", (0, 60)
    )
    area_dry_warn_pct: float = limit(1.0, "Part of an area that no head reaches", "%", (0, 50))
    dry_spot_stop_m2: float = limit(0.5, "A spot that no head reaches, never above", "m²", (0.05, 20))
    area_once_warn_pct: float = limit(
        5.0, "Part of an area that one head alone reaches, where heads overlap by design", "%", (0, 100)
    )
    dulq_least_pct: float = limit(
        65.0, "Distribution uniformity of the low quarter, to be judged below", "%", (0, 100),
        "EPA WaterSense landscape irrigation audit guideline, least DUlq of spray turf",
    )  # fmt: skip
    surface_stop_pct: float = limit(
        2.0, "Part of what a head wets that lands on a building or a neighbour, never above", "%", (0, 50)
    )

    provisional_share: float = limit(
        0.70, "Share of the static taken to be left where no flow was measured", "share", (0.3, 1)
    )
    smallest_service_bore_mm: float = limit(
        16.0, "Bore taken for a service pipe of which nothing is known", "mm", (8, 40)
    )
    gauge_tolerance_kpa: float = limit(5.0, "What a gauge may be wrong by", "kPa", (0.5, 50))
    flow_tolerance_share: float = limit(
        0.05, "What a measured flow may be wrong by, bucket and watch or dial", "share", (0.005, 0.3)
    )
    supply_fit_warn_kpa: float = limit(
        15.0, "Miss of a supply reading from the fitted curve, to be judged above", "kPa", (1, 200)
    )
    supply_static_spread_kpa: float = limit(
        30.0, "Spread of static readings, to be judged above", "kPa", (5, 300)
    )
    surge_share_of_rating: float = limit(
        1.0, "Static pressure and surge together over a pipe's rating, never above", "share", (0.5, 1.5)
    )
    air_high_point_m: float = limit(
        0.5, "Rise of a pipe above both its sides at which air stays, to be judged above", "m", (0.05, 20)
    )
    conductor_temperature_c: float = limit(
        30.0, "Temperature of buried control cable, for its resistance", "°C", (-10, 75)
    )
    transformer_share: float = limit(
        1.0, "Load over the transformer's rating, never above", "share", (0.3, 1)
    )
    drip_flow_variation_pct: float = limit(
        10.0, "Flow of the weakest emitter of a drip row below the strongest, never above", "%", (1, 50),
        "from memory: ASAE EP405.1 asks for 10 to 20 % over a unit",
    )  # fmt: skip


DEFAULT_LIMITS = Limits()


class BadLimit(ValueError):
    """A value that a limit cannot have; the message is a sentence."""


@dataclass(frozen=True)
class LimitFacts:
    """One limit as a page shows it. ``low`` and ``high`` bound what may be typed."""

    name: str
    usual: float
    label: str
    unit: str
    source: str
    low: float
    high: float


@dataclass(frozen=True)
class MovedLimit:
    """A limit that is not at its usual value."""

    name: str
    label: str
    usual: float
    own: float
    unit: str


# the first of each pair must not lie above the second
ORDERED = (
    ("pipe_velocity_warn_mps", "pipe_velocity_stop_mps"),
    ("zone_flow_warn_share", "zone_flow_stop_share"),
    ("precipitation_ratio_warn", "precipitation_ratio_stop"),
)


def limit_facts() -> tuple[LimitFacts, ...]:
    """Every limit, in the order of the class."""
    return tuple(
        LimitFacts(field.name, float(field.default), **field.metadata)  # type: ignore[arg-type]  # as limit() put it
        for field in dataclasses.fields(Limits)
    )


def check_limit(name: str, value: float) -> None:
    """Raises BadLimit where there is no such limit, or where the value cannot be."""
    facts = next((facts for facts in limit_facts() if facts.name == name), None)
    if facts is None:
        raise BadLimit(f"There is no limit “{name[:60]}”.")
    if not facts.low <= value <= facts.high:  # false for a value that is no number
        raise BadLimit(
            f"“{facts.label}” may be {facts.low:g} to {facts.high:g} {facts.unit}; {value:g} cannot be meant."
        )


def limits_with(own: dict[str, float]) -> Limits:
    """The usual limits with those moved. Raises BadLimit for a value, or a pair, that cannot be."""
    for name, value in own.items():
        check_limit(name, value)
    limits = dataclasses.replace(DEFAULT_LIMITS, **own)
    labels = {facts.name: facts.label for facts in limit_facts()}
    for lower, upper in ORDERED:
        if getattr(limits, lower) > getattr(limits, upper):
            raise BadLimit(
                f"“{labels[lower]}” is {getattr(limits, lower):g} and would lie above "
                f"“{labels[upper]}”, which is {getattr(limits, upper):g}; move that one first."
            )
    return limits


def moved_limits(limits: Limits) -> tuple[MovedLimit, ...]:
    """Those that are not at their usual value, in the order of the class."""
    if limits == DEFAULT_LIMITS:
        return ()
    return tuple(
        MovedLimit(facts.name, facts.label, facts.usual, getattr(limits, facts.name), facts.unit)
        for facts in limit_facts()
        if getattr(limits, facts.name) != facts.usual
    )
