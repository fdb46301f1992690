import math

import pytest
from fluids.friction import friction_factor

from hydraulics.friction import (
    HAZEN_WILLIAMS_K,
    christiansen_factor,
    flow_at_velocity_lpm,
    hazen_williams_kpa,
    minor_resistance,
    velocity_mps,
)
from hydraulics.units import KPA_PER_M, to_si

# Illinois Admin. Code tit. 77 pt. 906 App. A Exhibit I, "Friction loss in Schedule 40 plastic
# pipe, C = 150": bore in, gpm, ft per 100 ft. Bore from ASTM D1785, OD - 2 x least wall.
ILLINOIS_TABLE = [
    (1.049, 5, 1.52), (1.049, 8, 3.63), (1.049, 10, 5.50), (1.380, 10, 1.46), (1.380, 15, 3.06),
    (1.380, 20, 5.23), (1.610, 20, 2.46), (1.610, 25, 3.75), (1.610, 30, 5.22), (2.067, 20, 0.74),
    (2.067, 30, 1.54), (2.067, 50, 3.98), (3.068, 50, 0.58), (3.068, 100, 2.09),
]  # fmt: skip
# University of Maryland irrigation course, PVC class 160: bore in, gpm, psi per 100 ft
MARYLAND_TABLE = [
    (1.195, 5, 0.35), (1.195, 8, 0.84), (1.195, 10, 1.27), (1.195, 16, 3.04), (1.195, 20, 4.59),
    (2.193, 40, 0.86), (2.193, 55, 1.56), (3.230, 100, 0.72),
]  # fmt: skip


def _loss_kpa_per_100_ft(bore_in, gpm):
    return hazen_williams_kpa(to_si(gpm, "flow", "gpm"), 30.48, bore_in * 25.4, 150)


def test_the_constant_is_epanets_in_si():
    # EPANET 2.2 User Manual table 3.1 in m and m3/s; the figure makes its engine's losses to 1e-6 m
    assert pytest.approx(10.66672, abs=5e-6) == HAZEN_WILLIAMS_K


def test_point_of_100_m_of_26_mm_at_half_a_litre_per_second():
    # worked out with EPANET's own constants: 4.027794 m and 0.94174 m/s
    assert hazen_williams_kpa(30, 100, 26.0, 150) / KPA_PER_M == pytest.approx(4.027794, abs=1e-6)
    assert velocity_mps(30, 26.0) == pytest.approx(0.94174, abs=1e-5)
    assert hazen_williams_kpa(-30, 100, 26.0, 150) == -hazen_williams_kpa(30, 100, 26.0, 150)


@pytest.mark.parametrize(("bore_in", "gpm", "feet"), ILLINOIS_TABLE)
def test_illinois_table(bore_in, gpm, feet):
    # two published figures are given to two digits only: half of the last one is allowed there
    assert to_ft(_loss_kpa_per_100_ft(bore_in, gpm)) == pytest.approx(feet, rel=0.02, abs=0.005)


@pytest.mark.parametrize(("bore_in", "gpm", "psi"), MARYLAND_TABLE)
def test_maryland_table(bore_in, gpm, psi):
    assert _loss_kpa_per_100_ft(bore_in, gpm) / 6.894757 == pytest.approx(psi, rel=0.02, abs=0.005)


def test_it_lies_6_5_percent_below_darcy_colebrook_for_smooth_pipe():
    # fluids: Darcy friction factor of smooth pipe, water at 20 °C
    velocity, bore, density, viscosity = 0.94174, 0.026, 998.2, 1.0016e-3
    factor = friction_factor(Re=density * velocity * bore / viscosity, eD=0.0)
    darcy_m = factor * 100 / bore * velocity**2 / (2 * 9.80665)
    ours_m = hazen_williams_kpa(30, 100, 26.0, 150) / KPA_PER_M
    assert darcy_m == pytest.approx(4.290, rel=0.005)
    assert ours_m / darcy_m == pytest.approx(1 - 0.065, abs=0.01)


@pytest.mark.parametrize("bore", [16.0, 20.4, 26.0, 32.6, 40.8, 51.4])
@pytest.mark.parametrize("velocity", [0.5, 1.0, 1.5, 2.0])
def test_within_its_range_it_stays_near_darcy_colebrook(bore, velocity):
    # fluids: Darcy friction factor of smooth pipe; Hazen-Williams falls off at low Reynolds numbers
    density, viscosity = 998.2, 1.0016e-3
    factor = friction_factor(Re=density * velocity * bore / 1000 / viscosity, eD=0.0)
    darcy_kpa = factor * 100 / (bore / 1000) * density * velocity**2 / 2 / 1000
    ours_kpa = hazen_williams_kpa(flow_at_velocity_lpm(velocity, bore), 100, bore, 150)
    assert 0.84 <= ours_kpa / darcy_kpa <= 1.04


def test_service_of_26_mm_at_1_5_mps():
    # common practice, no source: 1.5 m/s in 26.0 mm is 47.8 L/min
    assert flow_at_velocity_lpm(1.5, 26.0) == pytest.approx(47.8, abs=0.05)


def test_minor_loss_is_a_share_of_the_velocity_head():
    # K v2/2g with v = 1.0 m/s and K = 2: 1.0 kPa at 1000 kg/m3
    flow = flow_at_velocity_lpm(1.0, 26.0)
    assert minor_resistance(2.0, 26.0) * flow**2 == pytest.approx(1.0, rel=1e-12)


# Christiansen's F with m = 1.852 (formula from memory), worked out by hand
@pytest.mark.parametrize(
    ("outlets", "factor"),
    [(1, 1.0045), (2, 0.6391), (3, 0.5344), (5, 0.4568), (10, 0.4022), (20, 0.3760), (30, 0.3675)],
)
def test_christiansen_factor(outlets, factor):
    assert christiansen_factor(outlets) == pytest.approx(factor, abs=5e-5)


def test_lateral_of_ten_outlets_agrees_with_christiansen():
    # 10 outlets of 2.5 gpm, 20 ft apart, bore 1.189 in, C 150: 13.2188 ft by segments in the
    # 0.2083 form of the law, which lies 0.9 % above ours
    bore, spacing = 1.189 * 25.4, 6.096
    flows = [to_si(2.5 * n, "flow", "gpm") for n in range(1, 11)]
    segments = sum(hazen_williams_kpa(q, spacing, bore, 150) for q in flows)
    whole = hazen_williams_kpa(flows[-1], 10 * spacing, bore, 150)
    assert segments == pytest.approx(christiansen_factor(10) * whole, rel=1e-4)
    assert to_ft(segments) == pytest.approx(13.2188, rel=0.01)


def to_ft(kpa):
    assert math.isfinite(kpa)
    return kpa / KPA_PER_M / 0.3048
