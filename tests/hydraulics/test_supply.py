import dataclasses

import pytest

from hydraulics.errors import SupplyContradiction
from hydraulics.limits import DEFAULT_LIMITS
from hydraulics.supply import BucketReading, GaugeReading, Upstream, best_bucket_lpm, design_flow, fit_supply

THREE_QUARTERS = dataclasses.replace(DEFAULT_LIMITS, bucket_share=0.75)


def s1_curve():
    """A plain rectangle of lawn: static 4.5 bar, 3.4 bar at 40 L/min, three buckets of 20 L in 30 s."""
    return fit_supply(450, (GaugeReading(40, 340), *[BucketReading(20, 30)] * 3))


def test_site_s1_has_a_design_flow_of_30_lpm_by_the_bucket():
    # worked test site of the trade, common practice, no source
    flow = design_flow(s1_curve(), 350, Upstream(service_bore_mm=26.0), THREE_QUARTERS)
    caps = {cap.name: cap.flow_lpm for cap in flow.caps}
    assert flow.flow_lpm == pytest.approx(30.0)
    assert flow.binding == "bucket_share"
    assert caps["service_velocity"] == pytest.approx(47.8, abs=0.05)


def test_site_s1_keeps_4_07_bar_at_24_lpm():
    assert s1_curve().pressure_kpa(24) == pytest.approx(407, abs=0.5)


def test_site_s3_keeps_3_52_bar_at_16_lpm_and_3_64_at_12():
    # worked test site of the trade, common practice, no source: 3.8 bar, 2.9 bar at 30 L/min
    curve = fit_supply(380, (GaugeReading(30, 290),))
    assert curve.pressure_kpa(16) == pytest.approx(352, abs=0.5)
    assert curve.pressure_kpa(12) == pytest.approx(364, abs=0.5)


def test_nfpa_291_available_flow():
    # NFPA 291 example as at sprinkler.wiki/docs/water-supply: static 85, residual 72 psi at 1100 gpm
    # gives 2,618 gpm at 20 psi with 5**0.54 rounded; 2,623.2 unrounded
    psi, gpm = 6.894757, 3.785411784
    curve = fit_supply(85 * psi, (GaugeReading(1100 * gpm, 72 * psi),))
    assert curve.flow_lpm(20 * psi) / gpm == pytest.approx(2618, rel=0.003)
    assert curve.flow_lpm(20 * psi) / gpm == pytest.approx(2623.2, rel=0.0002)


def test_one_gauge_reading_lies_on_the_curve_and_is_measured():
    curve = s1_curve()
    assert curve.confidence == "measured"
    assert curve.pressure_kpa(40) == pytest.approx(340)
    assert curve.residuals_kpa == pytest.approx((0,), abs=1e-9)


def test_two_gauge_readings_share_the_miss():
    curve = fit_supply(450, (GaugeReading(20, 420), GaugeReading(40, 340)))
    assert len(curve.residuals_kpa) == 2
    assert min(curve.residuals_kpa) < 0 < max(curve.residuals_kpa)
    # least squares: the misses are at right angles to q**1.852
    assert sum(m * q**1.852 for m, q in zip(curve.residuals_kpa, (20, 40), strict=True)) == pytest.approx(
        0, abs=1e-6
    )


def test_a_bucket_alone_is_the_cautious_end():
    curve = fit_supply(450, (BucketReading(20, 30),))
    assert curve.confidence == "cautious"
    assert curve.pressure_kpa(40) == pytest.approx(0, abs=1e-9)
    assert curve.pressure_kpa(24) < s1_curve().pressure_kpa(24)


def test_without_any_flow_70_percent_is_left_at_the_assumed_flow():
    # common practice, no source
    curve = fit_supply(400, upstream=Upstream(meter_safe_max_lpm=30, service_bore_mm=26.0))
    assert curve.confidence == "provisional"
    assert curve.pressure_kpa(0.75 * 30) == pytest.approx(280)
    assert curve.bucket_lpm is None


def test_without_any_knowledge_the_smallest_service_is_assumed():
    curve = fit_supply(400)
    assert curve.pressure_kpa(18.1) == pytest.approx(280, abs=0.5)


def test_a_connection_above_the_tap_has_less_pressure():
    low, high = fit_supply(450, (GaugeReading(40, 340),)), fit_supply(450, (GaugeReading(40, 340),), rise_m=2)
    assert low.pressure_kpa(20) - high.pressure_kpa(20) == pytest.approx(2 * 9.80665)


def test_the_margin_for_the_worst_season_comes_off_the_static():
    limits = dataclasses.replace(DEFAULT_LIMITS, supply_margin_kpa=50)
    assert fit_supply(450, (GaugeReading(40, 340),), limits=limits).static_kpa == 400


def test_runs_at_one_tap_are_averaged_and_the_best_tap_counts():
    runs = (BucketReading(20, 30, "a"), BucketReading(20, 40, "a"), BucketReading(20, 60, "b"))
    assert best_bucket_lpm(runs) == pytest.approx(35)


@pytest.mark.parametrize(
    ("static", "readings", "says"),
    [
        (450, (GaugeReading(40, 450),), "not below the static"),
        (450, (GaugeReading(40, 460),), "not below the static"),
        (450, (GaugeReading(20, 340), GaugeReading(40, 360)), "residual rises from 340 to 360"),
        (450, (GaugeReading(40, 340), BucketReading(90, 30)), "repeat the gauge reading"),
        (0, (), "above zero"),
        (float("nan"), (), "above zero"),
        (450, (GaugeReading(0, 340),), "needs the flow"),
        (450, (GaugeReading(30, float("nan")),), "needs the residual"),
        (float("inf"), (), "above zero"),
    ],
)
def test_contradictions_are_refused_with_their_reason(static, readings, says):
    with pytest.raises(SupplyContradiction, match=says):
        fit_supply(static, readings)


def test_a_reading_within_the_gauges_own_error_is_no_contradiction():
    assert fit_supply(450, (GaugeReading(20, 340), GaugeReading(40, 343))).confidence == "measured"


def test_the_meter_binds_where_it_is_small():
    flow = design_flow(s1_curve(), 200, Upstream(meter_safe_max_lpm=30), DEFAULT_LIMITS)
    assert (flow.binding, flow.flow_lpm) == ("meter_share", pytest.approx(22.5))


def test_a_supply_that_never_gives_the_pressure_has_no_design_flow():
    flow = design_flow(s1_curve(), 460)
    assert (flow.binding, flow.flow_lpm) == ("curve", 0.0)
    assert "never gives" in flow.caps[0].sentence
