import pytest

from hydraulics.surge import critical_closure_s, joukowsky_kpa, pipe_surge_kpa, wave_speed_mps
from hydraulics.units import KPA_PER_M, KPA_PER_PSI, M_PER_FT

# AWWA / Uni-Bell surge per ft/s by dimension ratio, K 300,000 and E 400,000 psi (from memory); the
# second figure is a = 4660 / sqrt(1 + K (DR - 2) / E) in ft/s
PVC_BY_RATIO = [
    (14, 19.8, 1473.6), (18, 17.4, 1292.5), (21, 16.0, 1193.3), (25, 14.7, 1090.8), (26, 14.4, 1069.1),
    (32.5, 12.8, 953.7), (41, 11.4, 847.3),
]  # fmt: skip
PSI_GPA = KPA_PER_PSI / 1e6


@pytest.mark.parametrize(("ratio", "psi", "feet_per_s"), PVC_BY_RATIO)
def test_surge_of_pvc_by_dimension_ratio(ratio, psi, feet_per_s):
    wave = wave_speed_mps(ratio - 2, 1.0, 400_000 * PSI_GPA, 300_000 * PSI_GPA)
    # 4660 ft/s is a rounded speed of sound; K 300,000 psi gives 4719
    assert wave / M_PER_FT == pytest.approx(feet_per_s, rel=0.015)
    assert joukowsky_kpa(M_PER_FT, wave) / KPA_PER_PSI == pytest.approx(psi, rel=0.02)


def test_a_class_problem():
    # "Surge Calculations", scribd 306909610, answer worked out: 860 ft/s, 5 ft/s, static 55 psi
    rise = joukowsky_kpa(5 * M_PER_FT, 860 * M_PER_FT)
    assert rise / KPA_PER_M / M_PER_FT == pytest.approx(133.54, rel=0.002)
    assert 55 + rise / KPA_PER_PSI == pytest.approx(112.8, abs=0.2)


def test_a_published_closure_time_and_head():
    # reuven.tools/tools/water-hammer: 1000 m, 1191.4 m/s: 2L/a 1.679 s, 242.9 m at 2 m/s
    assert critical_closure_s(1000, 1191.4) == pytest.approx(1.679, abs=0.001)
    assert joukowsky_kpa(2, 1191.4) / KPA_PER_M == pytest.approx(242.9, abs=0.1)


@pytest.mark.parametrize(
    ("outside", "bore", "modulus", "wave", "bar_per_mps"),
    [(32, 26.0, 1.0, 331, 3.31), (33.4, 30.2, 2.76, 371, 3.70)],
)
def test_small_pipes(outside, bore, modulus, wave, bar_per_mps):
    # by hand, K 2.18 GPa: PE 32 SDR 11, and PVC of 1.6 mm wall
    assert wave_speed_mps(bore, (outside - bore) / 2, modulus) == pytest.approx(wave, rel=0.005)
    assert pipe_surge_kpa(1.0, outside, bore, modulus) / 100 == pytest.approx(bar_per_mps, rel=0.005)
