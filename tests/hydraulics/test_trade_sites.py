"""Worked test sites of the trade (common practice, no source; the figures were computed by hand)."""

import dataclasses
from itertools import pairwise

import pytest

from hydraulics.friction import velocity_mps
from hydraulics.limits import DEFAULT_LIMITS
from hydraulics.network import CurveLink, Emitter, Network, Node, PipeLink, Source
from hydraulics.solver import solve
from hydraulics.supply import BucketReading, GaugeReading, design_flow, fit_supply
from hydraulics.units import KPA_PER_M


def held(name, node, flow_lpm, least_kpa):
    """An outlet that holds its flow from its least pressure."""
    return Emitter(name, node, flow_lpm / least_kpa**0.5, 0.5, least_kpa)


def test_zone_2_of_site_s1_leaves_3_00_bar_at_the_last_head():
    """Supply 4.07 bar at 24 L/min, device 0.8, valve 0.2, lateral of 20.4 mm 0.07 to the last head."""
    curve = fit_supply(450, (GaugeReading(40, 340),))
    heads = {"h0": 3.0, "h1": 6.0, "h2": 6.0, "h3": 6.0, "h4": 3.0}
    names = list(heads)
    laterals = [PipeLink(f"p{i}", a, b, 6.0, 20.4) for i, (a, b) in enumerate(pairwise(names))]
    network = Network(
        tuple(Node(n) for n in ("S", "M", *names)),
        (Source("supply", "S", curve.static_kpa, curve.loss_coefficient),),
        (
            CurveLink("device", "S", "M", ((24.0, 80.0),)), CurveLink("valve", "M", "h0", ((24.0, 20.0),)),
            *laterals,
        ),
        tuple(held(f"e-{name}", name, flow, 250) for name, flow in heads.items()),
    )  # fmt: skip
    found = solve(network)
    assert found.source_lpm["supply"] == pytest.approx(24.0)
    assert found.node_kpa["S"] == pytest.approx(407, rel=0.01)
    assert (found.node_kpa["h0"] - found.node_kpa["h4"]) / KPA_PER_M == pytest.approx(0.72, rel=0.01)
    assert found.node_kpa["h4"] == pytest.approx(300, rel=0.01)
    assert found.link_lpm["p0"] == pytest.approx(21.0)
    assert velocity_mps(21, 20.4) == pytest.approx(1.07, rel=0.01)
    assert velocity_mps(24, 20.4) == pytest.approx(1.22, rel=0.01)


@pytest.mark.parametrize(("level_m", "emitters", "inlet_bar"), [(4.0, 480, 2.38), (-3.0, 360, 3.18)])
def test_the_drip_terraces_of_site_s3(level_m, emitters, inlet_bar):
    """Static 3.8 bar, 2.9 at 30 L/min; device, valve and filter take 0.75 bar together."""
    curve = fit_supply(380, (GaugeReading(30, 290), *[BucketReading(10, 20)] * 3))
    flow = emitters * 2.0 / 60
    network = Network(
        (Node("S"), Node("T", level_m)),
        (Source("supply", "S", curve.static_kpa, curve.loss_coefficient),),
        (CurveLink("head of the zone", "S", "T", ((1.0, 75.0), (60.0, 75.0))),),
        (held("drip", "T", flow, 170),),
    )
    found = solve(network)
    assert found.emitter_lpm["drip"] == pytest.approx(flow)
    assert found.node_kpa["T"] / 100 == pytest.approx(inlet_bar, rel=0.01)


def test_three_quarters_of_the_bucket_of_site_s3():
    limits = dataclasses.replace(DEFAULT_LIMITS, bucket_share=0.75)
    curve = fit_supply(380, (GaugeReading(30, 290), *[BucketReading(10, 20)] * 3))
    assert design_flow(curve, 250, limits=limits).flow_lpm == pytest.approx(22.5)
