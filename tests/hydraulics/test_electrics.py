import pytest

from hydraulics.electrics import (
    WireLeg,
    at_temperature,
    coil_volt,
    copper_ohm_per_km,
    transformer_load_va,
    voltage_drop,
)

PER_1000_FT = 0.3048
# American wire gauge: diameter 0.127 mm * 92**((36 - n) / 39), ASTM B258
AWG_MM2 = {n: 0.7853981634 * (0.127 * 92 ** ((36 - n) / 39)) ** 2 for n in (18, 16, 14, 12, 10, 8)}


@pytest.mark.parametrize(
    ("awg", "ohm"), [(18, 6.385), (16, 4.016), (14, 2.525), (12, 1.588), (10, 0.9989), (8, 0.6282)]
)
def test_copper_at_20_c(awg, ohm):
    # HyperPhysics, hyperphysics.phy-astr.gsu.edu/hbase/Tables/wirega.html, ohm per 1000 ft
    assert copper_ohm_per_km(AWG_MM2[awg]) * PER_1000_FT == pytest.approx(ohm, rel=0.001)


@pytest.mark.parametrize(("awg", "ohm"), [(14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)])
def test_copper_at_75_c(awg, ohm):
    # NEC chapter 9 table 8, solid, uncoated, 75 °C, ohm per 1000 ft
    assert copper_ohm_per_km(AWG_MM2[awg], 75) * PER_1000_FT == pytest.approx(ohm, rel=0.005)


@pytest.mark.parametrize(
    ("mm2", "most"),
    [(0.5, 36.0), (0.75, 24.5), (1.0, 18.1), (1.5, 12.1), (2.5, 7.41), (4, 4.61), (6, 3.08), (10, 1.83)],
)
def test_copper_stays_under_the_most_of_iec_60228(mm2, most):
    # IEC 60228 tables 1 and 2, plain copper, greatest resistance at 20 °C in ohm per km
    assert 0.93 * most < copper_ohm_per_km(mm2) < most


def test_a_worked_example_of_20_a_over_100_ft():
    # voltagedropcalculator.net/examples, first: 120 V, 12 AWG, 20 A, 100 ft: 6.4 V, 5.3 %
    drop = voltage_drop([WireLeg(30.48, 1.588 / PER_1000_FT, 20)])
    assert drop == pytest.approx(6.352, abs=0.001)
    assert round(drop, 1) == 6.4
    assert round(100 * drop / 120, 1) == 5.3


@pytest.mark.parametrize(
    ("ohm_per_km", "amp", "metres", "volt"),
    [
        (6.385 / PER_1000_FT, 0.25, 152.4, 1.596),
        (2.525 / PER_1000_FT, 0.5, 304.8, 2.525),
        (7.41, 0.3, 200, 0.889),
    ],
)
def test_drop_in_a_24_volt_run(ohm_per_km, amp, metres, volt):
    # by hand from the resistances above
    assert voltage_drop([WireLeg(metres, ohm_per_km, amp)]) == pytest.approx(volt, abs=0.001)


def test_legs_in_a_row_add_and_volts_never_turn_negative():
    legs = [WireLeg(50, 12.1, 0.5), WireLeg(30, 12.1, 0.25)]
    assert coil_volt(24, legs) == pytest.approx(24 - 2 * 12.1 * (0.05 * 0.5 + 0.03 * 0.25))
    assert coil_volt(24, [WireLeg(1e6, 12.1, 1)]) == 0.0


def test_warm_copper():
    assert at_temperature(1, 75) == pytest.approx(1.216, abs=0.001)


def test_the_transformer_carries_all_that_hold_and_one_that_starts():
    assert transformer_load_va(24, [(0.25, 0.45), (0.25, 0.5)]) == pytest.approx(24 * 0.75)
    assert transformer_load_va(24, []) == 0.0
