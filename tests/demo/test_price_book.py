"""The invented price book is sound, and its technical data agree with published tables."""

from collections import Counter
from datetime import date
from decimal import Decimal

import pytest

from hydraulics.catalogue import (
    CablePart,
    FittingPart,
    HeadPart,
    MeterPart,
    PipePart,
    SundryPart,
)
from tests.demo.files import demo_catalogue, price_book

CATEGORIES = {"pipe", "fittings", "heads", "valves", "control", "backflow", "sundries"}
FOOT_M = 0.3048
GALLON_L = 3.785412
PSI_KPA = 6.894757


@pytest.fixture(scope="module")
def book():
    return price_book()


@pytest.fixture(scope="module")
def parts():
    return demo_catalogue()


def test_every_code_is_there_once(book):
    codes = Counter(part["data"]["code"] for part in book["parts"])
    assert [code for code, count in codes.items() if count > 1] == []


def test_every_part_has_a_category_and_a_price(book):
    for part in book["parts"]:
        assert part["category"] in CATEGORIES, part["data"]["code"]
        assert part["prices"], part["data"]["code"]


def test_prices_are_positive_money_of_a_known_supplier(book):
    suppliers = {supplier["code"] for supplier in book["suppliers"]}
    for part in book["parts"]:
        for row in part["prices"]:
            assert row["supplier"] in suppliers
            assert isinstance(row["price"], str)
            assert Decimal(row["price"]) == Decimal(row["price"]).quantize(Decimal("0.01")) > 0
            assert row["pack"] > 0
            assert len(row["unit"]) <= 10
            date.fromisoformat(row["valid_from"])


def test_a_supplier_has_one_price_a_day(book):
    for part in book["parts"]:
        days = Counter((row["supplier"], row["valid_from"]) for row in part["prices"])
        assert max(days.values()) == 1, part["data"]["code"]


def test_no_two_fittings_have_the_same_role_and_sockets(parts):
    seen: dict[tuple, str] = {}
    for part in parts.values():
        if isinstance(part, FittingPart) and part.role != "saddle":  # saddles differ by the pipe they sit on
            key = (part.role, tuple(sorted((s.joint, s.size) for s in part.sockets)))
            assert key not in seen, (part.code, seen.get(key))
            seen[key] = part.code


@pytest.mark.parametrize(
    "role",
    ["tee", "elbow_90", "elbow_45", "threaded_tee", "threaded_elbow", "coupling", "cap", "adapter",
     "manifold_tee", "manifold_elbow"],
)  # fmt: skip
def test_every_pipe_has_the_usual_fittings(parts, role):
    fitted = {
        (socket.joint, socket.size)
        for part in parts.values()
        if isinstance(part, FittingPart) and part.role == role
        for socket in part.sockets
    }
    pipes = {(part.joint, part.size) for part in parts.values() if isinstance(part, PipePart)}
    assert pipes - fitted == set()


def test_every_head_inlet_has_a_swing_joint_and_threaded_outlets(parts):
    inlets = {part.inlet for part in parts.values() if isinstance(part, HeadPart)}
    for role in ("swing_joint", "threaded_tee", "threaded_elbow"):
        threads = {
            socket.size
            for part in parts.values()
            if isinstance(part, FittingPart) and part.role == role
            for socket in part.sockets
            if socket.joint == "thread"
        }
        assert inlets - threads == set(), role


def test_every_sundry_role_that_a_take_off_asks_for_is_there(parts):
    roles = {part.role for part in parts.values() if isinstance(part, SundryPart)}
    assert roles >= {
        "valve_box", "connector", "cement", "primer", "thread_tape", "warning_tape", "sleeve", "clamp",
        "sand", "gravel", "isolation_valve", "filter_regulator", "pin", "rain_sensor",
    }  # fmt: skip


# PE100 metric pipe, SDR 11: bore is dn less two minimum walls of 2.3, 3.0, 3.7 and 4.6 mm, as in a
# pipe maker's brochure; EN 12201-2 itself was not opened.
@pytest.mark.parametrize(("size", "bore_mm"), [("25", 20.4), ("32", 26.0), ("40", 32.6), ("50", 40.8)])
def test_metric_bores(parts, size, bore_mm):
    for code in (f"pe-{size}", f"pvc-{size}"):
        assert parts.need(code, PipePart).bore_mm == pytest.approx(bore_mm)


# Inside diameters [in] from OD less two minimum walls: ASTM D1785 Schedule 40 (walls opened at
# sizes.com) and ASTM D2241 SDR 21 (walls from memory).
@pytest.mark.parametrize(
    ("code", "bore_in"),
    [
        ("pvc-sch40-0.75in", 0.824), ("pvc-sch40-1in", 1.049), ("pvc-sch40-1.25in", 1.380),
        ("pvc-sdr21-0.75in", 0.930), ("pvc-sdr21-1in", 1.189), ("pvc-sdr21-1.25in", 1.502),
    ],
)  # fmt: skip
def test_inch_bores(parts, code, bore_in):
    assert parts.need(code, PipePart).bore_mm == pytest.approx(bore_in * 25.4, abs=0.006)


# AWWA C700 safe maximum: 20, 30 and 50 US gal/min for 5/8, 3/4 and 1 in (from memory for the standard;
# the ratios confirmed in the Pleasanton CA Water and Recycled Water Rate Study, table 3-9).
# The same meters lose 15 psi at it (a one-page AWWA standard table of pressure losses).
@pytest.mark.parametrize(("code", "gpm"), [("meter-0.625in", 20), ("meter-0.75in", 30), ("meter-1in", 50)])
def test_inch_meters(parts, code, gpm):
    meter = parts.need(code, MeterPart)
    assert meter.safe_max_lpm == pytest.approx(gpm * GALLON_L, abs=0.01)
    assert meter.loss[-1].flow_lpm == pytest.approx(gpm * GALLON_L, abs=0.01)
    assert meter.loss[-1].loss_kpa == pytest.approx(15 * PSI_KPA, abs=0.01)


# ISO 4064 Q3 of 2.5, 4 and 6.3 m3/h for DN 15, 20 and 25 (from memory).
@pytest.mark.parametrize(
    ("code", "m3_per_hour"), [("meter-dn15", 2.5), ("meter-dn20", 4.0), ("meter-dn25", 6.3)]
)
def test_metric_meters(parts, code, m3_per_hour):
    assert parts.need(code, MeterPart).safe_max_lpm == pytest.approx(m3_per_hour * 1000 / 60, abs=0.05)


# IEC 60228 largest resistance at 20 °C, class 1 and 2 plain copper (as transcribed from its tables
# A.1 and A.2): 0.75 mm2 24.5 and 1.5 mm2 12.1 ohm/km. AWG 18: 6.385 ohm per 1000 ft (hyperphysics,
# wire gauge table).
def test_conductors(parts):
    awg18 = 6.385 / (1000 * FOOT_M / 1000)
    expected = {0.75: 24.5, 1.5: 12.1, 0.823: awg18}
    for part in parts.values():
        if isinstance(part, CablePart):
            assert part.ohm_per_km == pytest.approx(expected[part.conductor_mm2], rel=1e-3), part.code


# Common practice, no source: such heads want 40 to 80 psi and throw (radius) about 25 ft at 40,
# 30 ft at 60 and 35 ft at 80 psi.
def test_the_head_with_throw_by_bearing_works_from_40_to_80_psi(parts):
    head = parts.need("bearing-35ft", HeadPart)
    assert head.pattern == "by_bearing"
    assert head.own_valve
    assert head.min_kpa == pytest.approx(40 * PSI_KPA, abs=0.01)
    assert head.max_kpa == pytest.approx(80 * PSI_KPA, abs=0.01)
    rows = [(row.pressure_kpa / PSI_KPA, row.throw_m / FOOT_M) for row in head.rows]
    assert rows == [pytest.approx(row, rel=1e-4) for row in ((40, 25), (60, 30), (80, 35))]


# Common practice, no source: at most 60 ft from head to head.
def test_the_cable_from_head_to_head_ends_at_60_ft(parts):
    assert parts.need("link-cable-60ft", CablePart).limit_m == pytest.approx(60 * FOOT_M)


def test_the_matched_rotary_nozzle_gives_10_mm_per_hour_on_its_square(parts):
    head = parts.need("rotary-6", HeadPart)
    full_circle_lpm = next(row.flow_lpm for row in head.rows if row.pressure_kpa == head.regulated_kpa)
    assert full_circle_lpm * 60 / 6.0**2 == pytest.approx(10.0)
    assert head.mm_per_hour == 10.0
