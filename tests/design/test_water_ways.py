"""Heights of taps, regulated zones, rows of drip, high points and impossible heads, from plan to finding."""

import pytest

from design.check import check
from design.epanet_export import export_case_file
from design.loading import load_plan
from hydraulics.catalogue import Catalogue
from hydraulics.drip_row import outlet_loss_by_factor_kpa
from hydraulics.units import KPA_PER_M
from tests.design.engine import run_inp
from tests.design.plans import PARTS, make_document, make_plan, one_zone

SUPPLY = {"at": [0, 0], "static_kpa": 450, "tests": [{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340}]}


def parts_with(**changes):
    """The catalogue, with fields of the part of that code changed."""
    return Catalogue.from_dicts([part | changes.get(part["code"].replace("-", "_"), {}) for part in PARTS])


def codes(report):
    return {found.code: found for found in report.findings}


def test_a_tap_with_a_height_of_its_own_is_read_at_its_level():
    raised = dict(SUPPLY, z_m=1.0)
    raised["tests"] = [
        {"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340 - 2 * KPA_PER_M, "tap": "terrace", "z_m": 3.0},
        {"kind": "static", "pressure_kpa": 450 + KPA_PER_M, "tap": "cellar", "z_m": 0.0},
    ]
    report = check(make_plan(supply=raised, layout=one_zone()), Catalogue.from_dicts(PARTS))
    flat = check(make_plan(supply=dict(SUPPLY, z_m=1.0), layout=one_zone()), Catalogue.from_dicts(PARTS))
    assert report.supply.static_kpa == pytest.approx(flat.supply.static_kpa)
    assert report.supply.loss_coefficient == pytest.approx(flat.supply.loss_coefficient)
    assert {reading.kind for reading in report.supply.readings} == {"static", "gauge"}
    assert all(abs(reading.miss_kpa) < 1e-6 for reading in report.supply.readings)


def test_the_report_carries_what_a_picture_of_the_supply_needs():
    report = check(make_plan(supply=SUPPLY, layout=one_zone()), Catalogue.from_dicts(PARTS))
    supply, (case,) = report.supply, report.cases
    assert supply.needed_kpa == pytest.approx(case.connection_kpa - case.spare_kpa)
    head = next(head for head in case.heads if head.id == case.worst_head)
    assert case.spare_kpa == pytest.approx(head.pressure_kpa - 250)
    flows = [point.flow_lpm for point in supply.band]
    assert flows == sorted(flows)
    assert flows[-1] > max(40, case.flow_lpm)
    for point in supply.band:
        middle = supply.static_kpa - supply.loss_coefficient * point.flow_lpm**1.852
        assert point.low_kpa < middle < point.high_kpa
    assert supply.confidence_sentence.startswith("Measured")
    guessed = check(make_plan(supply=dict(SUPPLY, tests=[])), Catalogue.from_dicts(PARTS)).supply
    assert guessed.band == ()


REGULATED = {
    "valve_25": {"regulates_kpa": 200.0},
    "rotary_6": {
        "rows": [
            {"pressure_kpa": 150, "flow_lpm": 4.6, "throw_m": 5},
            {"pressure_kpa": 350, "flow_lpm": 7.1, "throw_m": 6},
        ],
        "min_kpa": 150,
        "regulated_kpa": None,
    },
}  # fmt: skip


def test_a_valve_that_regulates_holds_its_pressure_from_plan_to_epanet(tmp_path):
    plan, parts = make_plan(supply=SUPPLY, layout=one_zone()), parts_with(**REGULATED)
    report = check(plan, parts)
    (case,) = report.cases
    lateral = next(pipe for pipe in case.pipes if pipe.id == "P2")
    (head,) = case.heads
    assert head.pressure_kpa + lateral.loss_kpa == pytest.approx(200, abs=1e-3)
    assert "zone.regulator.open" not in codes(report)
    run = run_inp(export_case_file(plan, parts, case.label), tmp_path)
    assert run.node_kpa["H1"] == pytest.approx(head.pressure_kpa, rel=1e-3)
    assert run.emitter_lpm["H1"] == pytest.approx(head.flow_lpm, rel=1e-3)


def test_a_regulator_that_too_little_reaches_is_told():
    weak = dict(SUPPLY, static_kpa=190, tests=[{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 150}])
    found = codes(check(make_plan(supply=weak, layout=one_zone()), parts_with(**REGULATED)))
    assert found["zone.regulator.open"].measured < 200


def test_a_loss_by_exponent_is_a_square_law():
    """20 kPa at 24 L/min with exponent 2 are 20 (q / 24)**2."""
    part = {"valve_25": {"loss_exponent": 2.0}}
    plan = make_plan(supply=SUPPLY, layout=one_zone())
    square, straight = (
        check(plan, parts).cases[0] for parts in (parts_with(**part), Catalogue.from_dicts(PARTS))
    )
    flow = square.flow_lpm
    assert flow == pytest.approx(straight.flow_lpm)
    gained = square.worst_head_kpa - straight.worst_head_kpa
    assert gained == pytest.approx(20 * flow / 24 - 20 * (flow / 24) ** 2, abs=0.01)


def test_a_head_with_bent_rows_gets_the_flow_of_its_rows():
    bent = [(150, 4.0), (250, 6.0), (350, 6.6), (450, 7.0)]
    rows = [{"pressure_kpa": p, "flow_lpm": q, "throw_m": 6} for p, q in bent]
    parts = parts_with(rotary_6={"rows": rows, "regulated_kpa": None, "flow_scales_with_arc": False})
    (head,) = check(make_plan(supply=SUPPLY, layout=one_zone()), parts).cases[0].heads
    below = max((p, q) for p, q in bent if p <= head.pressure_kpa)
    above = min((p, q) for p, q in bent if p > head.pressure_kpa)
    share = (head.pressure_kpa - below[0]) / (above[0] - below[0])
    assert head.flow_lpm == pytest.approx(below[1] + share * (above[1] - below[1]), rel=0.003)


def drip_plan(length_m, static_kpa=450):
    bed = {"id": "bed", "cover": "bed", "outline": [[2, 1], [2 + length_m, 1], [2 + length_m, 1.3], [2, 1.3]]}
    layout = one_zone()
    layout["nodes"][2] = {"id": "D1", "kind": "head", "at": [2, 1], "part": "drip-2", "area": "bed"}
    layout["pipes"][1] = {"id": "P2", "from": "V1", "to": "D1", "part": "pvc-25"}
    return load_plan(
        make_document(supply=dict(SUPPLY, static_kpa=static_kpa), ground={"areas": [bed]}, layout=layout)
    )


def test_rows_of_drip_too_long_for_their_line_are_told():
    parts = Catalogue.from_dicts(PARTS)
    assert "drip.row.long" not in codes(check(drip_plan(60), parts, with_coverage=False))
    report = check(drip_plan(170, 345), parts, with_coverage=False)
    found = codes(report)["drip.row.long"]
    (inlet,) = report.cases[0].heads
    assert found.measured == pytest.approx(515 * 0.33)  # whole spacings in 170 m
    # by Christiansen's factor: what the allowed row loses is what is left above the least pressure
    part = parts["drip-2"]
    lost = outlet_loss_by_factor_kpa(part, round(found.limit / 0.33), 2 / 60)
    assert lost == pytest.approx(inlet.pressure_kpa - 170, rel=0.02)


def hill(top_m):
    """A main over a hill: 0 m, the top at 5 m of the way, 0 m at the valve."""
    layout = one_zone()
    layout["nodes"][1]["at"], layout["nodes"][2]["at"] = [10, 0], [12, 0]
    layout["pipes"][0]["via"] = [[5, 0]]
    levels = [{"at": [x, y], "z_m": top_m if x == 5 else 0.0} for x in (0, 5, 10, 12) for y in (-1, 1)]
    return make_plan(supply=SUPPLY, ground={"levels": levels}, layout=layout)


def test_air_stays_on_top_of_a_hill():
    parts = Catalogue.from_dicts(PARTS)
    assert "pipe.air.high_point" not in codes(check(hill(0.4), parts))
    found = codes(check(hill(2.0), parts))["pipe.air.high_point"]
    assert (found.measured, found.where, found.at) == (pytest.approx(2.0), ("P1",), (5.0, 0.0))


def test_no_air_stays_where_the_way_up_ends_in_a_head():
    layout = one_zone()
    levels = [{"at": [x, y], "z_m": 0.6 * x} for x in (-1, 9) for y in (-1, 1)]
    report = check(
        make_plan(supply=SUPPLY, ground={"levels": levels}, layout=layout), Catalogue.from_dicts(PARTS)
    )
    assert "pipe.air.high_point" not in codes(report)


def test_a_top_above_the_pressure_line_is_told():
    found = codes(check(hill(0.0), Catalogue.from_dicts(PARTS)))
    assert "pipe.pressure.suction" not in found
    layout = one_zone()
    layout["nodes"].append({"id": "J1", "kind": "junction", "at": [3, 0], "z_m": 60.0})
    layout["pipes"][1] = {"id": "P2", "from": "V1", "to": "J1", "part": "pvc-25"}
    layout["pipes"].append({"id": "P3", "from": "J1", "to": "H1", "part": "pvc-25"})
    found = codes(check(make_plan(supply=SUPPLY, layout=layout), Catalogue.from_dicts(PARTS)))
    assert found["pipe.pressure.suction"].measured < 0


def test_a_head_that_no_flow_can_serve_is_told_the_boost_it_takes():
    """450 kPa less 67.4 of the device at no flow less 20 m: 186.5 kPa, and 250 are needed."""
    layout = one_zone()
    layout["nodes"][2]["z_m"] = 20.0
    plan = make_plan(supply=dict(SUPPLY, backflow="rp-25"), layout=layout)
    found = codes(check(plan, Catalogue.from_dicts(PARTS)))["head.pressure.impossible"]
    # the device's rows, 70 kPa at 5 L/min and 80 at 24, carried back to no flow
    left = 450 - (70 - 5 * 10 / 19) - 20 * KPA_PER_M
    assert found.measured == pytest.approx(left)
    assert f"boost of {250 - left:.0f} kPa" in found.sentence
