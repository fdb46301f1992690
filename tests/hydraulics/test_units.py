import pytest

from hydraulics.errors import BadQuantity
from hydraulics.units import (
    bucket_flow_lpm,
    bucket_seconds,
    format_quantity,
    from_si,
    parse_quantity,
    to_si,
)


@pytest.mark.parametrize(
    ("text", "kind", "default", "value", "unit"),
    [
        ("4.5 bar", "pressure", "kPa", 450.0, "bar"),
        ("4,5 bar", "pressure", "kPa", 450.0, "bar"),
        ("450", "pressure", "kPa", 450.0, "kPa"),
        ("65 psi", "pressure", "kPa", 65 * 6.894757, "psi"),
        ("65PSI", "pressure", "kPa", 65 * 6.894757, "psi"),
        ("10 m", "pressure", "kPa", 98.0665, "m"),
        ("5 gal", "volume", "L", 18.92705892, "gal"),
        ("5 US gal", "volume", "L", 18.92705892, "gal"),
        ("0.5 L/s", "flow", "L/min", 30.0, "L/s"),
        ("1.8 m³/h", "flow", "L/min", 30.0, "m3/h"),
        ("8 gpm", "flow", "L/min", 30.283294272, "gpm"),
        ("3 ft 4 in", "length", "m", 1.016, "ft-in"),
        ("3' 4\"", "length", "m", 1.016, "ft-in"),
        ("3′4″", "length", "m", 1.016, "ft-in"),
        ("3-4 ft-in", "length", "m", 1.016, "ft-in"),
        ("3 ft-4 in", "length", "m", 1.016, "ft-in"),
        ("3' 4 1/2\"", "length", "m", 1.0287, "ft-in"),
        ("5 ft", "length", "m", 1.524, "ft"),
        ("-0.4", "length", "m", -0.4, "m"),
        ("3/4 in", "bore", "mm", 19.05, "in"),
        ("1 1/2 in", "bore", "mm", 38.1, "in"),
        ("1,234.5", "volume", "L", 1234.5, "L"),
        ("1.234,5", "volume", "L", 1234.5, "L"),
        ("0,250", "length", "m", 0.25, "m"),
        (".5", "length", "m", 0.5, "m"),
        ("1 min", "time", "s", 60.0, "min"),
    ],
)
def test_it_reads_what_people_type(text, kind, default, value, unit):
    quantity = parse_quantity(text, kind, default)
    assert quantity.value_si == pytest.approx(value, rel=1e-12)
    assert (quantity.unit, quantity.text) == (unit, text)


@pytest.mark.parametrize(
    ("text", "kind", "default", "says"),
    [
        ("", "pressure", "kPa", "type a pressure"),
        ("lots", "pressure", "kPa", "not a number"),
        ("nan", "pressure", "kPa", "not a number"),
        ("4.5 bra", "pressure", "kPa", "no unit of pressure"),
        ("4 bar", "flow", "L/min", "no unit of flow"),
        ("-4 bar", "pressure", "kPa", "cannot be negative"),
        ("1,200", "flow", "L/min", "1200 or 1.200"),
        ("1.2.3", "flow", "L/min", "one decimal point"),
        ("3 ft 14 in", "length", "m", "below 12"),
        ("1/0 in", "bore", "mm", "divides by zero"),
        ("9" * 40, "length", "m", "too large"),
    ],
)
def test_it_refuses_with_a_sentence(text, kind, default, says):
    with pytest.raises(BadQuantity, match=says):
        parse_quantity(text, kind, default)


def test_a_bucket_of_5_us_gal_in_45_s_is_6_67_us_gal_per_min_and_not_8():
    # common practice, no source: the least supply for heads whose throw varies with bearing
    flow = bucket_flow_lpm(to_si(5, "volume", "gal"), 45)
    assert flow == pytest.approx(25.2, abs=0.05)
    assert from_si(flow, "flow", "gpm") == pytest.approx(6.67, abs=0.005)
    assert format_quantity(flow, "flow", "gpm") == "6.67 gpm"


def test_at_8_us_gal_per_min_the_same_bucket_takes_37_5_s():
    assert bucket_seconds(to_si(5, "volume", "gal"), to_si(8, "flow", "gpm")) == pytest.approx(37.5)


@pytest.mark.parametrize("bad", [(0, 10), (10, 0), (-1, 10), (float("nan"), 10)])
def test_a_bucket_needs_a_volume_and_a_time(bad):
    with pytest.raises(BadQuantity):
        bucket_flow_lpm(*bad)


@pytest.mark.parametrize(
    ("value", "kind", "unit", "text"),
    [
        (450, "pressure", "bar", "4.50 bar"),
        (450, "pressure", "psi", "65.3 psi"),
        (1.016, "length", "ft-in", "3 ft 4 in"),
        (-1.016, "length", "ft-in", "-3 ft 4 in"),
        (3.657, "length", "ft-in", "12 ft 0 in"),
    ],
)
def test_it_writes_in_the_unit_asked_for(value, kind, unit, text):
    assert format_quantity(value, kind, unit) == text


def test_conversions_against_nist_sp_811():
    # NIST SP 811 appendix B.8
    assert to_si(1, "pressure", "psi") == pytest.approx(6.894757, rel=1e-7)
    assert to_si(1, "flow", "gpm") / 60000 == pytest.approx(6.309020e-5, rel=1e-7)  # m3/s
    assert to_si(1, "pressure", "ft") == pytest.approx(2.98907, rel=1e-5)  # foot of water, conventional


@pytest.mark.parametrize("unit", ["m", "ft", "mm"])
def test_what_rounds_to_nothing_has_no_sign(unit):
    kind = "bore" if unit == "mm" else "length"
    assert not format_quantity(-1e-7, kind, unit).startswith("-")
