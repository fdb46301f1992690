"""A row of drip line against Christiansen, a published factor and the network solver."""

import pytest

from hydraulics.catalogue import DripPart
from hydraulics.drip_row import (
    emitter_lpm,
    longest_row_m,
    outlet_loss_by_factor_kpa,
    outlet_loss_kpa,
    row_end,
)
from hydraulics.emitters import drip_law
from hydraulics.friction import hazen_williams_kpa
from hydraulics.network import Emitter, Network, Node, PipeLink, Source
from hydraulics.solver import solve
from hydraulics.units import KPA_PER_M, to_si


def make_drip(**changes):
    facts = {
        "code": "drip-2", "label": "Drip", "emitter_lph": 2.0, "emitter_spacing_m": 0.33,
        "row_spacing_m": 0.4, "min_kpa": 100, "max_kpa": 350,
    } | changes  # fmt: skip
    return DripPart(**facts)


# exact sum of k**1.852 / N**2.852, worked out by hand; from 4 outlets on equal to Christiansen's F to
# four places
@pytest.mark.parametrize(
    ("outlets", "exact"), [(1, 1.0), (2, 0.6385), (3, 0.5342), (4, 0.4852), (10, 0.4022), (30, 0.3675)]
)
def test_the_sum_is_the_factor_but_for_few_outlets(outlets, exact):
    part = make_drip()
    whole = hazen_williams_kpa(outlets * 0.1, outlets * 0.33, part.bore_mm, part.hazen_williams_c)
    assert outlet_loss_kpa(part, outlets, 0.1) / whole == pytest.approx(exact, abs=6e-5)
    if outlets >= 4:
        assert outlet_loss_by_factor_kpa(part, outlets, 0.1) / whole == pytest.approx(exact, abs=6e-5)


def test_ten_outlets_of_two_and_a_half_gallons():
    # 10 outlets of 2.5 gpm, 20 ft apart, bore 1.189 in, C 150: 13.2188 ft by segments, 13.2189 ft by F, in
    # the 0.2083 form of the law, which lies 0.9 % above ours; worked out by hand, no published lateral
    part = make_drip(emitter_spacing_m=6.096, bore_mm=1.189 * 25.4, hazen_williams_c=150)
    one = to_si(2.5, "flow", "gpm")
    by_segments, by_factor = outlet_loss_kpa(part, 10, one), outlet_loss_by_factor_kpa(part, 10, one)
    assert by_factor == pytest.approx(by_segments, rel=2e-5)
    assert by_segments / KPA_PER_M / 0.3048 == pytest.approx(13.2188, rel=0.01)


@pytest.mark.parametrize("exponent", [0.0, 0.5])
def test_a_row_is_what_the_network_solver_makes_of_it(exponent):
    part = make_drip(emitter_exponent=exponent, emitter_lph=4.0)
    count, inlet = 90, 160.0
    law = drip_law(part, 1)
    network = Network(
        tuple(Node(f"n{i}") for i in range(count + 1)), (Source("s", "n0", inlet),),
        tuple(
            PipeLink(f"p{i}", f"n{i}", f"n{i + 1}", 0.33, part.bore_mm, part.hazen_williams_c)
            for i in range(count)
        ),
        tuple(
            Emitter(f"e{i}", f"n{i + 1}", law.coefficient, law.exponent, law.regulated_kpa)
            for i in range(count)
        ),
    )  # fmt: skip
    found, row = solve(network), row_end(part, count, inlet)
    assert row.end_kpa == pytest.approx(found.node_kpa[f"n{count}"], abs=1e-3)
    assert row.flow_lpm == pytest.approx(sum(found.emitter_lpm.values()), rel=1e-6)
    flows = found.emitter_lpm.values()
    assert row.variation_pct == pytest.approx(100 * (1 - min(flows) / max(flows)), abs=1e-4)


def test_the_longest_compensated_row_ends_at_its_least_pressure():
    part = make_drip()
    metres = longest_row_m(part, 200, 10)
    count = round(metres / 0.33)
    assert row_end(part, count, 200).end_kpa >= 100 > row_end(part, count + 1, 200).end_kpa
    # the flows are held, so that the loss is that of equal outlets
    assert 200 - row_end(part, count, 200).end_kpa == pytest.approx(outlet_loss_kpa(part, count, 2 / 60))


def test_the_longest_plain_row_keeps_its_flows_within_the_limit():
    part = make_drip(emitter_exponent=0.5, min_kpa=50)
    metres = longest_row_m(part, 100, 10)
    count = round(metres / 0.33)
    assert row_end(part, count, 100).variation_pct <= 10 < row_end(part, count + 1, 100).variation_pct
    # 10 % of flow at exponent 0.5 are 19 % of pressure
    assert row_end(part, count, 100).end_kpa == pytest.approx(81, abs=1.5)
    assert longest_row_m(part, 100, 20) > metres


def test_downhill_rows_may_be_longer_and_uphill_ones_shorter():
    part = make_drip()
    level = longest_row_m(part, 200, 10)
    assert longest_row_m(part, 200, 10, 0.02) > level > longest_row_m(part, 200, 10, -0.02)


def test_a_row_without_pressure_may_have_no_length():
    assert longest_row_m(make_drip(), 99, 10) == 0.0
    assert row_end(make_drip(), 0, 150).end_kpa == 150


def test_emitters_follow_their_law():
    plain = make_drip(emitter_exponent=0.5)
    assert emitter_lpm(plain, 100) * 60 == pytest.approx(2.0)
    assert emitter_lpm(plain, 400) * 60 == pytest.approx(4.0)
    assert emitter_lpm(make_drip(), 25) * 60 == pytest.approx(1.0)
    assert drip_law(plain, 30).flow_lpm(400) == pytest.approx(2.0)
