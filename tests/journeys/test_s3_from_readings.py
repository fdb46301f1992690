"""Drip on two terraces behind a path, from the readings to a plan: heights, two valves, and what is bored.

Readings and figures are those computed in tests/design/test_site_s3.py; a vacuum breaker has to stand above
every outlet (common practice, no source; heights by local code).
"""

import pytest
from playwright.sync_api import expect

from sites.check import check_revision
from tests.journeys.hand import HandOnBoard
from tests.journeys.paperwork import Readings, add_customer_and_site, the_revision, write_down_the_visit

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

READINGS = Readings(static="3.8", flow="30", residual="2.9", buckets=[("10", "20")] * 3)
UPPER = ["0;0", "20;0", "20;3", "0;3"]
LOWER = ["0;10", "12;10", "12;14", "0;14"]
ONE_PERCENT = 0.01


def draw_terraces(board):
    hand = board.hand
    hand.stage("terraces and path")
    hand.press("l")
    board.choose("Grows", "bed")
    board.map.focus()
    board.figures("0;0", "20x3", "0;10", "12x4")
    hand.press("u")
    board.choose("Kind", "paving")
    board.map.focus()
    board.figures("-2;5", "24x1.2")


def set_levels(board):
    hand = board.hand
    hand.stage("levels")
    hand.press("z")
    height = board.page.locator("#property-z_m")
    for places, metres in ((UPPER, "4"), (LOWER, "-3"), (["-1;0"], "0")):
        for place in places:
            board.figures(place)
            expect(height).to_be_focused()
            hand.type(metres)
            hand.press("Enter")
            expect(board.map).to_be_focused()


def set_supply_and_valves(board):
    hand = board.hand
    hand.stage("supply, valves, drip")
    hand.press("w")
    board.figures("-1.4;0")
    board.choose("Backflow device", "double-check-25")
    hand.field("Its height above ground", "0.4")
    hand.press("Enter", "v")
    board.choose("Part", "valve-drip-25")
    board.map.focus()
    board.figures("-1;0", "-1;0")
    hand.press("h")
    board.choose("Part", "drip-2.0")
    board.map.focus()
    board.figures("0;0", "-1;10")
    board.until(lambda document: len(document["ground"]["areas"]) == 2)
    board.choose("Waters", board.document["ground"]["areas"][1]["id"])
    hand.field("Height", "-3")
    hand.press("Enter", "c")
    board.figures("-1.4;0")


def draw_ways(board):
    hand = board.hand
    hand.stage("pipes and cables")
    hand.press("p")
    board.choose("Size", "pe-32")
    board.map.focus()
    board.figures("-1.4;0", "-1;0", "-1.4;0", "-1;0", "-1;0", "0;0")
    hand.press("Enter")
    board.figures("-1;0", "-1;10")
    hand.press("Enter", "k")
    board.figures("-1.4;0", "-1;0", "-1.4;0", "-1;0")


def a_vacuum_breaker_is_refused(board):
    """It lies 4 m below the upper bed. Undo brings the other device back."""
    hand = board.hand
    hand.stage("another backflow device, and back")
    stops = board.page.locator("#board-findings .board-finding.stop")
    expect(stops).to_have_count(0)
    board.map.focus()
    hand.press("Escape", "Escape")
    board.click((-1.4, 0))
    expect(board.page.get_by_label("Backflow device")).to_be_visible()
    board.choose("Backflow device", "pvb-25")
    expect(stops.first).to_contain_text("4.30 m")
    board.map.focus()
    hand.press("Control+z")
    expect(stops).to_have_count(0)


def figures_of_the_plan():
    revision = the_revision()
    report = check_revision(revision)
    assert len(report.zones) == 2
    assert report.supply.design_flow_lpm == pytest.approx(22.5)
    by_flow = sorted(report.cases, key=lambda case: -case.flow_lpm)
    assert [case.flow_lpm for case in by_flow] == pytest.approx([16, 12], rel=ONE_PERCENT)
    assert [case.worst_head_kpa for case in by_flow] == pytest.approx([238, 318], rel=ONE_PERCENT)
    lower = next(node["id"] for node in revision.document["layout"]["nodes"] if node["at"] == [-1, 10])
    pipe = next(
        one["id"] for one in revision.document["layout"]["pipes"] if lower in (one["from"], one["to"])
    )
    own = [stretch for stretch in report.trench if stretch.pipes == (pipe,)]
    assert sum(one.length_m for one in own if one.method == "machine") == pytest.approx(8.8)
    assert sum(one.length_m for one in own if one.method == "bore") == pytest.approx(1.2)
    (sleeve,) = report.sleeves
    assert (sleeve.bored_m, sleeve.sleeve_m) == pytest.approx((1.2, 1.8))


def test_terraces_with_drip_and_a_path_to_bore(hand):
    add_customer_and_site(hand, "Terraces")
    write_down_the_visit(hand, READINGS)
    expect(hand.page.locator("main")).to_contain_text("design for no more than 22.5 L/min")
    hand.link("Drawing board")
    board = HandOnBoard.opened(hand)
    draw_terraces(board)
    set_levels(board)
    set_supply_and_valves(board)
    draw_ways(board)
    a_vacuum_breaker_is_refused(board)
    hand.stage("keep")
    board.keep("Two beds")
    expect(hand.page.get_by_text("nothing to stop for")).to_be_visible()
    expect(hand.page.locator("#ground")).to_contain_text("1.80 m")
    figures_of_the_plan()
    print(hand.account())
