"""Rules on either side of their limit, and on either side of a limit that was moved."""

import pytest

from design.check import check
from design.report import TrenchStretch
from design.rules.depth import stretch_depth
from hydraulics import rules
from hydraulics.findings import Severity
from hydraulics.limits import DEFAULT_LIMITS, limits_with
from tests.design.plans import CATALOGUE, make_plan, one_zone

W, S = Severity.WARN, Severity.STOP


def says(found):
    for finding in found:
        assert finding.sentence.endswith(".")
        assert finding.source
    return [(finding.code, finding.severity) for finding in found]


@pytest.mark.parametrize(
    ("apart", "wind_pct", "expected"),
    # common practice, no source: up to the throw; windy sites up to 90 % of it; never over 110 %
    [
        (6.0, 0, None), (6.1, 0, W), (6.6, 0, W), (6.61, 0, S),
        (5.4, 10, None), (5.5, 10, W), (5.94, 10, W), (5.95, 10, S),
    ],
)  # fmt: skip
def test_spacing_and_wind(apart, wind_pct, expected):
    head = rules.SpacedHead("H1", 6.0, "H2", apart)
    found = rules.head_spacing([head], limits_with({"wind_allowance_pct": wind_pct}))
    assert says(found) == ([("head.spacing.wide", expected)] if expected else [])
    if wind_pct and found:
        assert "5.40 m when the wind blows" in found[0].sentence


def test_wind_moves_the_spacing_of_a_whole_plan():
    layout = one_zone(
        nodes=[{"id": "H2", "kind": "head", "at": [11, 0], "part": "rotary-6"}],
        pipes=[{"id": "P3", "from": "H1", "to": "H2", "part": "pvc-25"}],
    )
    plan = make_plan(
        layout=layout, ground={"areas": [{"id": "a", "outline": [[0, 0], [16, 0], [16, 5], [0, 5]]}]}
    )
    for wind_pct, count in ((0, 0), (10, 2)):
        found = check(plan, CATALOGUE, limits_with({"wind_allowance_pct": wind_pct})).findings
        assert sum(finding.code == "head.spacing.wide" for finding in found) == count


@pytest.mark.parametrize(
    ("spots", "dry_m2", "expected"),
    [
        ((), 1.0, []),
        ((0.5,), 1.0, []),
        ((0.4, 0.4), 1.1, [("area.dry", W)]),
        ((0.51,), 0.51, [("area.dry", S)]),
        ((3.0, 0.6, 0.3), 3.9, [("area.dry", S), ("area.dry", S)]),
    ],
)
def test_dry_spots(spots, dry_m2, expected):
    placed = tuple(rules.Spot(size, (float(place), 2.0)) for place, size in enumerate(spots))
    area = rules.AreaWetting("front", 100, dry_m2, max(spots, default=0), 0, 70, spots=placed)
    found = rules.area_dry(area)
    assert says(found) == expected
    if expected and expected[0][1] == S:
        assert [(f.measured, f.at) for f in found] == [
            (spot.area_m2, spot.at) for spot in placed if spot.area_m2 > 0.5
        ]


def test_a_ruined_area_names_no_more_than_eight_spots():
    placed = tuple(rules.Spot(9.0 - place / 10, (float(place), 0.0)) for place in range(20))
    found = rules.area_dry(rules.AreaWetting("front", 400, 160, 9.0, 0, 10, spots=placed))
    assert len(found) == 8
    assert "one of 20 such spots and 160.0 m² in all" in found[0].sentence


SHORT = rules.HeadThrow("H1", "Front", 5, 6)


def wetted(**changes):
    facts = {"id": "a", "area_m2": 10, "dry_m2": 0, "dry_spot_m2": 0, "once_pct": 0, "dulq_pct": 70}
    return rules.AreaWetting(**facts | changes)


BARE_SPOT = wetted(area_m2=1000, dry_m2=1, dry_spot_m2=1)


@pytest.mark.parametrize(
    ("name", "value", "judge"),
    [
        ("dry_spot_stop_m2", 2.0, lambda own: rules.area_dry(BARE_SPOT, own)),
        ("area_dry_warn_pct", 5.0, lambda own: rules.area_dry(wetted(dry_m2=0.4, dry_spot_m2=0.4), own)),
        ("area_once_warn_pct", 30.0, lambda own: rules.area_once(wetted(once_pct=20), own)),
        ("dulq_least_pct", 50.0, lambda own: rules.area_uneven(wetted(dulq_pct=60), own)),
        ("overspray_warn_pct", 20.0, lambda own: rules.overspray("H1", 15, own)),
        ("throw_stop_share", 1.3, lambda own: _stops(rules.head_throw([SHORT], own))),
        ("surface_stop_pct", 5.0, lambda own: _stops(rules.overspray_surface("H", "h", "building", 3, own))),
    ],
)  # fmt: skip
def test_a_company_may_move_it(name, value, judge):
    assert len(judge(DEFAULT_LIMITS)) == 1
    assert judge(limits_with({name: value})) == []


def _stops(found):
    return [finding for finding in found if finding.severity == S]


@pytest.mark.parametrize(
    ("kind", "pct", "expected"),
    [
        ("neighbour", 0, None), ("neighbour", 2.0, W), ("neighbour", 2.1, S), ("building", 2.1, S),
        ("fence", 2.1, W), ("paving", 50, W),
    ],
)  # fmt: skip
def test_water_on_what_is_not_to_be_wetted(kind, pct, expected):
    found = rules.overspray_surface("H1", "x", kind, pct)
    assert says(found) == ([("head.overspray.surface", expected)] if expected else [])


@pytest.mark.parametrize(("distance", "is_found"), [(5.0, True), (6.1, False)])
def test_a_fence_within_the_throw_is_found_in_a_plan(distance, is_found):
    layout = one_zone()
    layout["nodes"][2] |= {"at": [5, 0], "from_deg": 0, "sweep_deg": 360}
    ground = {
        "areas": [{"id": "lawn", "outline": [[-2, -4], [12, -4], [12, 7], [-2, 7]]}],
        "surfaces": [
            {"id": "fence", "kind": "fence", "outline": [
                [-2, -distance - 0.1], [12, -distance - 0.1], [12, -distance], [-2, -distance]]},
        ],
    }  # fmt: skip
    found = check(make_plan(layout=layout, ground=ground), CATALOGUE).findings
    wet = [f for f in found if f.code == "head.overspray.surface"]
    assert [(f.where, f.severity) for f in wet] == ([(("H1", "fence"), W)] if is_found else [])


@pytest.mark.parametrize(
    ("role", "depth", "is_found"),
    [
        ("main", 0.30, False), ("main", 0.29, True), ("lateral", 0.20, False), ("lateral", 0.19, True),
        # from memory: NEC table 300.5 asks 6 in (0.152 m) for irrigation control of at most 30 V
        ("cable", 0.15, False), ("cable", 0.14, True),
    ],
)  # fmt: skip
def test_least_depth(role, depth, is_found):
    stretch = TrenchStretch("t", ((0, 0), (1, 0)), 1, "machine", depth, role, ("P1",), (), "loam", "", "")
    assert says(stretch_depth(stretch, DEFAULT_LIMITS)) == ([("trench.depth.low", W)] if is_found else [])


@pytest.mark.parametrize(("own", "count"), [({}, 0), ({"lateral_depth_m": 0.15}, 1)])
def test_a_company_that_digs_too_shallow_is_told_so(own, count):
    found = check(make_plan(layout=one_zone()), CATALOGUE, limits_with(own)).findings
    assert (sum(finding.code == "trench.depth.low" for finding in found) > 0) == bool(count)


@pytest.mark.parametrize(("height", "expected"), [(0.80, []), (0.79, [("backflow.height.low", S)])])
def test_a_vacuum_breaker_stands_above_the_highest_outlet(height, expected):
    # City ordinance of Paris TX (834557, p. 9): 12 in above the highest downstream opening
    site = rules.BackflowSite("pressure_vacuum_breaker", "pvb", 0.30, height, 0.0, 0.5)
    assert says(rules.backflow(site)) == expected
