import pytest

from hydraulics.catalogue import DripPart, HeadPart, PerformanceRow
from hydraulics.emitters import drip_law, fit_law, head_law, precipitation_mm_per_hour, rows_law
from hydraulics.heads import rate_by_arc_mm_per_hour, reach_at, throw_at
from hydraulics.units import KPA_PER_PSI, M_PER_FT


def row(pressure_kpa, flow_lpm, throw_m=6.0):
    return PerformanceRow(pressure_kpa=pressure_kpa, flow_lpm=flow_lpm, throw_m=throw_m)


def make_head(rows, **changes):
    facts = {
        "code": "rotor-9", "label": "Rotor", "family": "rotor", "pattern": "fixed_arc",
        "rows": tuple(rows), "min_kpa": 200, "max_kpa": 450,
    } | changes  # fmt: skip
    return HeadPart(**facts)


def test_one_row_gives_the_root_law():
    law = fit_law([row(250, 6.0)])
    assert law.exponent == 0.5
    assert law.flow_lpm(250) == pytest.approx(6.0)
    assert law.flow_lpm(1000) == pytest.approx(12.0)


def test_rows_of_a_power_law_give_it_back():
    law = fit_law([row(p, 0.4 * p**0.47) for p in (150, 250, 350, 450)])
    assert (law.coefficient, law.exponent) == (pytest.approx(0.4), pytest.approx(0.47))


def test_a_regulated_head_holds_its_flow_above():
    law = fit_law([row(200, 5.0), row(280, 5.92), row(400, 5.9)], regulated_kpa=280)
    assert law.flow_lpm(280) == pytest.approx(5.92, rel=0.002)
    assert law.flow_lpm(500) == law.flow_lpm(280)


def test_rows_of_equal_flow_are_a_held_flow_with_the_root_law_below():
    law = fit_law([row(200, 4.0), row(300, 4.0)])
    assert law.flow_lpm(450) == pytest.approx(4.0)
    assert law.flow_lpm(50) == pytest.approx(2.0)


BENT = [row(150, 4.0), row(250, 6.0), row(350, 6.6), row(450, 7.0)]


def test_rows_that_no_power_meets_are_followed_one_by_one():
    law = rows_law(BENT)
    assert [law.flow_lpm(r.pressure_kpa) for r in BENT] == pytest.approx([4.0, 6.0, 6.6, 7.0])
    # between two rows along the power that joins them: 4 (200/150)**x, x = ln 1.5 / ln (5/3)
    assert law.flow_lpm(200) == pytest.approx(4 * (200 / 150) ** 0.79376, rel=0.003)
    assert fit_law(BENT).flow_lpm(250) == pytest.approx(6.0, abs=0.6)
    assert abs(fit_law(BENT).flow_lpm(250) / 6.0 - 1) > 0.01


def test_rows_within_one_percent_of_a_power_keep_it():
    rows = [row(p, 0.4 * p**0.5 * wobble) for p, wobble in ((200, 1.004), (300, 0.997), (400, 1.003))]
    assert rows_law(rows) == fit_law(rows)
    assert rows_law(rows).rows == ()


def test_below_its_rows_a_head_is_an_opening_and_above_them_goes_on():
    law = rows_law(BENT)
    assert law.flow_lpm(37.5) == pytest.approx(2.0, rel=0.01)
    assert law.flow_lpm(0) == law.flow_lpm(-20) == 0.0
    assert 7.0 < law.flow_lpm(600) < 7.6


def test_flow_that_stops_rising_is_held_from_there():
    law = rows_law([row(100, 4.0), row(200, 5.0), row(300, 5.6), row(400, 5.6), row(500, 5.5)])
    assert law.regulated_kpa == 300
    assert law.flow_lpm(450) == pytest.approx(5.6)


def test_rows_under_a_regulator_stop_at_it():
    law = rows_law(BENT, regulated_kpa=300)
    assert law.flow_lpm(500) == law.flow_lpm(300) == pytest.approx(6.0 * (300 / 250) ** 0.79376, rel=1e-4)


def test_a_quarter_of_bent_rows_gives_a_quarter():
    matched = make_head(BENT, flow_scales_with_arc=True)
    assert head_law(matched, 90).flow_lpm(250) == pytest.approx(1.5)


def test_rate_by_arc_of_matched_and_plain_nozzles():
    # 6 L/min over a circle of 6 m: 60 * 6 / (pi 36) = 3.18 mm/h; in a plain quarter four times that
    matched = make_head([row(300, 6.0, 6.0)], flow_scales_with_arc=True)
    plain = make_head([row(300, 6.0, 6.0)])
    for sweep in (90, 180, 360):
        assert rate_by_arc_mm_per_hour(matched, 300, sweep) == pytest.approx(3.183, abs=0.001)
        assert rate_by_arc_mm_per_hour(plain, 300, sweep) == pytest.approx(3.183 * 360 / sweep, abs=0.01)
    round_only = make_head([row(300, 6.0, 6.0)], pattern="full_circle")
    assert rate_by_arc_mm_per_hour(round_only, 300, 90) == pytest.approx(3.183, abs=0.001)
    assert rate_by_arc_mm_per_hour(make_head([row(300, 6.0)], pattern="by_bearing"), 300) is None


def test_no_flow_below_zero_pressure():
    assert fit_law([row(250, 6.0)]).flow_lpm(-30) == 0.0


def test_a_quarter_of_a_matched_head_gives_a_quarter_of_its_flow():
    # trade's test site: quarter 1.5, half 3.0, full 6.0 L/min; common practice, no source
    matched = make_head([row(300, 6.0)], flow_scales_with_arc=True)
    assert [head_law(matched, arc).flow_lpm(300) for arc in (90, 180, 360)] == pytest.approx([1.5, 3, 6])
    assert head_law(make_head([row(300, 6.0)]), 90).flow_lpm(300) == pytest.approx(6.0)


def test_drip_holds_its_flow_from_its_least_pressure():
    # trade's test site: 480 emitters of 2.0 L/h give 16.0 L/min; common practice, no source
    part = DripPart(
        code="drip-2", label="Drip", emitter_lph=2.0, emitter_spacing_m=0.33, row_spacing_m=0.4,
        min_kpa=100, max_kpa=350,
    )  # fmt: skip
    law = drip_law(part, 480)
    assert law.flow_lpm(100) == pytest.approx(16.0)
    assert law.flow_lpm(300) == pytest.approx(16.0)
    assert law.flow_lpm(25) == pytest.approx(8.0)


def test_precipitation_is_60_litres_per_minute_and_square_metre():
    # NMSU Soils 456: 96.3 gpm/ft2 in in/h, exactly 96.25
    assert precipitation_mm_per_hour(24.0, 144.0) == pytest.approx(10.0)
    in_per_hour = precipitation_mm_per_hour(3.785411784, 0.3048**2) / 25.4
    assert in_per_hour == pytest.approx(96.3, abs=0.06)


def test_throw_of_heads_whose_throw_varies_with_bearing():
    # common practice, no source: 25 ft at 40 psi, 30 ft at 60, 35 ft at 80, as radius
    rows = [row(psi * KPA_PER_PSI, 20, feet * M_PER_FT) for psi, feet in ((40, 25), (60, 30), (80, 35))]
    part = make_head(rows, pattern="by_bearing", family="bearing")
    for psi, feet, by_root_law in ((40, 25, 25.0), (60, 30, 30.6), (80, 35, 35.4)):
        throw_ft = throw_at(part, psi * KPA_PER_PSI).throw_m / M_PER_FT
        assert throw_ft == pytest.approx(feet)
        assert 25 * (psi / 40) ** 0.5 == pytest.approx(by_root_law, abs=0.05)
        assert throw_ft == pytest.approx(by_root_law, rel=0.025)
    assert throw_at(part, 50 * KPA_PER_PSI).throw_m / M_PER_FT == pytest.approx(27.5)


@pytest.mark.parametrize(("kpa", "throw", "clamped"), [(100, 5.0, "low"), (600, 6.5, "high"), (300, 6.0, "")])
def test_throw_is_never_extrapolated_in_silence(kpa, throw, clamped):
    part = make_head([row(400, 7, 6.5), row(200, 5, 5.0), row(300, 6, 6.0)])
    found = throw_at(part, kpa)
    assert (found.throw_m, found.clamped) == (throw, clamped)


def test_a_regulated_head_is_not_flagged_above_its_regulator():
    part = make_head([row(200, 5, 5.0), row(280, 6, 6.0)], regulated_kpa=280)
    assert throw_at(part, 500) == throw_at(part, 280)
    assert throw_at(part, 500).clamped == ""


def test_a_head_wets_what_it_is_set_to_and_no_more_than_it_throws():
    part = make_head([row(300, 6, 8.0)], min_throw_m=4)
    assert reach_at(part, 300) == 8.0
    assert reach_at(part, 300, 6.5) == 6.5
    assert reach_at(part, 300, 9.0) == 8.0
    assert reach_at(part, 300, 2.0) == 4.0
