"""A lawn with a reflex corner, from two tapes to a plan: heads that throw by bearing, linked by one cable.

The tapes are computed from the corners of tests/design/test_site_s2.py and rounded to the centimetre; so are
the figures expected. Marks A and B lie 14 m apart on the house; the ground is measured from A, 4 m south of
the lawn's first corner.
"""

from math import dist

import pytest
from playwright.sync_api import expect

from design.document import Area
from design.reach import nearest_edge_m, scanning_reach
from design.reaching import ReachingHead, rings_of
from design.visibility import throw_by_bearing
from hydraulics.limits import Limits
from sites.check import check_revision
from tests.design.plans import ODD_LAWN
from tests.journeys.hand import HandOnBoard
from tests.journeys.paperwork import Readings, add_customer_and_site, the_revision, write_down_the_visit

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

READINGS = Readings(static="4.0", flow="36", residual="3.0", buckets=[("15", "25")], bore="26.0")
MARK_A, MARK_B = (0, -4), (14, -4)
TIES = [f"{dist(corner, MARK_A):.2f} {dist(corner, MARK_B):.2f} L" for corner in ODD_LAWN]
H1, H2 = (8, 10), (30, 11)
BY_CENTIMETRES = 0.03  # what tapes read to the centimetre leave open


def type_the_tapes(hand):
    hand.stage("measured ground")
    hand.link("Measured ground")
    expect(hand.page.locator("[name=mark-1-distance]")).to_be_focused()
    hand.type("14")
    hand.press("Enter")
    for number, tie in enumerate(TIES):
        expect(hand.page.locator(f"[name=tie-{number}-first_tape]")).to_be_focused()
        hand.type(tie)
        hand.press("Enter")
    hand.press("Enter")
    expect(hand.page.locator("[name=outline-0-points]")).to_be_focused()
    hand.type("1-8")
    hand.click(hand.page.locator("summary", has_text="Check the wheel"))
    hand.field("Way round by wheel", "53.4")
    said = hand.page.locator("#survey-live")
    expect(said).to_contain_text("+1.3 %: agrees")
    expect(said).to_contain_text("181.0 m²")
    hand.button("Put this ground on the drawing board")


def draw_water(board):
    hand = board.hand
    hand.stage("second lawn, heads, supply")
    hand.press("l")
    board.figures("25;6", "11x10")
    hand.press("w")
    board.figures("8;0.2")
    board.choose("Backflow device", "pvb-25")
    hand.field("Its height above ground", "0.6")
    hand.press("Enter", "h")
    board.choose("Part", "bearing-10")
    board.map.focus()
    board.figures("8;10", "30;11")
    hand.press("c")
    board.figures("7.7;0.1")


def draw_ways(board):
    hand = board.hand
    hand.stage("pipes and cables")
    hand.press("p")
    board.choose("Size", "pe-32")
    board.map.focus()
    board.figures("8;0.2", "8;10")
    hand.press("Enter")
    board.figures("8;2", "30;2", "30;11")
    hand.press("Enter", "k")
    board.choose("Cable", "link-cable-50")
    board.map.focus()
    board.figures("7.7;0.1", "8;10")
    board.figures("8;10", "8;2", "30;2", "30;11")


def lawn_as_kept(revision):
    return next(row for row in revision.document["ground"]["areas"] if len(row["outline"]) == 8)


def the_ground_is_right(revision):
    outline = lawn_as_kept(revision)["outline"]
    for kept, (east, north) in zip(outline, ODD_LAWN, strict=True):
        assert kept == pytest.approx([east, north + 4], abs=BY_CENTIMETRES)
    report = check_revision(revision)
    areas = {area.id: area.area_m2 for area in report.areas}
    assert areas[lawn_as_kept(revision)["id"]] == pytest.approx(181.0, abs=0.2)
    sides = zip(outline, [*outline[1:], outline[0]], strict=True)
    assert sum(dist(a, b) for a, b in sides) == pytest.approx(52.69, abs=0.03)


def the_throws_are_right(revision):
    lawn = Area.model_validate(lawn_as_kept(revision))
    head = ReachingHead("H", H1, "by_bearing", 10.5)
    far = scanning_reach(head, [head], lawn)
    assert far.needed_m == pytest.approx(10.00, abs=BY_CENTIMETRES)
    assert far.bearing_from(H1) == pytest.approx(233.1, abs=0.2)
    assert nearest_edge_m(head, lawn) == pytest.approx(5.00, abs=BY_CENTIMETRES)
    assert throw_by_bearing(rings_of(lawn), H1, [53.1])[0] == pytest.approx(5.00, abs=BY_CENTIMETRES)
    needed = {tuple(node["at"]): node["id"] for node in revision.document["layout"]["nodes"]}
    heads = {head.id: head for case in check_revision(revision).cases for head in case.heads}
    assert heads[needed[H1]].needed_m == pytest.approx(10.00, abs=BY_CENTIMETRES)
    assert heads[needed[H2]].needed_m == pytest.approx(7.81, abs=0.01)


def the_cable_follows_the_trench(revision):
    """39 m of trench and 1.0 m of slack at each end; the straight line would be 22.02 m."""
    limits = Limits(main_depth_m=0.25, lateral_depth_m=0.25, cable_depth_m=0.25, cable_slack_m=0.75)
    cable = max(check_revision(revision, limits).cables, key=lambda one: one.length_m)
    assert (cable.trench_m, cable.length_m) == pytest.approx((39, 41))
    assert cable.limit_m == 50


def test_an_odd_lawn_from_two_tapes_to_two_heads_and_their_cable(hand):
    add_customer_and_site(hand, "Odd lawn")
    write_down_the_visit(hand, READINGS)
    expect(hand.page.locator("main")).to_contain_text("design for no more than 27.0 L/min")
    type_the_tapes(hand)
    board = HandOnBoard.opened(hand)
    draw_water(board)
    draw_ways(board)
    expect(hand.page.locator("#board-findings .board-finding.stop")).to_have_count(0)
    hand.stage("keep")
    board.keep("Two heads")
    expect(hand.page.get_by_text("nothing to stop for")).to_be_visible()
    revision = the_revision()
    assert check_revision(revision).supply.design_flow_lpm == pytest.approx(27)
    the_ground_is_right(revision)
    the_throws_are_right(revision)
    the_cable_follows_the_trench(revision)
    print(hand.account())
