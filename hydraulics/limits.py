"""The limits that the rules judge by. A company may move each; the report then says so."""

from dataclasses import dataclass

PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Limits:
    """Defaults are the usual values; the comment above each names its source."""

    # common practice, no source
    supply_margin_kpa: float = 0.0  # taken off the static for the worst season
    # common practice, no source
    bucket_share: float = 0.75  # of the tested flow that may be used
    # from memory: three quarters of a meter's safe maximum
    meter_share: float = 0.75
    # from memory: 5 ft/s, rounded to 1.5 m/s
    service_velocity_mps: float = 1.5
    # from memory: 5 ft/s, rounded to 1.5 m/s
    pipe_velocity_warn_mps: float = 1.5
    # from memory: 7 ft/s
    pipe_velocity_stop_mps: float = 2.1
    # common practice, no source
    zone_flow_warn_share: float = 1.0  # of the design flow
    zone_flow_stop_share: float = 1.15
    # common practice, no source
    head_pressure_warn_share: float = 1.10  # of the part's least pressure
    zone_pressure_spread_pct: float = 20.0
    # common practice, no source
    precipitation_ratio_warn: float = 1.10
    precipitation_ratio_stop: float = 1.25
    # ASAE S376.1 as quoted in the NRCS Missouri Livestock Watering Systems Handbook, ch. 5
    static_share_of_rating: float = 0.72
    # common practice, no source
    main_depth_m: float = 0.45
    lateral_depth_m: float = 0.30
    cable_depth_m: float = 0.30
    under_paving_depth_m: float = 0.60
    service_clearance_m: float = 0.15  # vertical gap at a crossing
    # common practice, no source; Ohio RC 3781.25(E) has the facility's width plus 18 in
    hand_dig_margin_m: float = 0.6
    # common practice, no source
    sleeve_end_m: float = 0.3  # beyond the hard surface, each side
    future_works_margin_m: float = 1.0
    cable_slack_m: float = 0.75  # left at each end, beside the rise from trench to device
    cable_warn_share: float = 0.95
    coil_volt_warn: float = 21.0
    # common practice, no source
    overspray_warn_pct: float = 10.0
    coverage_grid_m: float = 0.25
    low_head_drainage_m: float = 1.5
    # 29 CFR 1926.652(a)(1): protection from 5 ft
    trench_protection_m: float = 1.52


DEFAULT_LIMITS = Limits()
