"""A plain lawn of 24 m x 12 m, from a customer that nobody knows yet to a plan that is checked and kept.

Readings and figures are those worked by hand in tests/design/test_site_s1.py (common practice, no source);
a person shall need at most 90 clicks and 400 keystrokes for it.
"""

import pytest
from playwright.sync_api import expect

from sites.check import check_revision
from tests.journeys.hand import HandOnBoard
from tests.journeys.paperwork import Readings, add_customer_and_site, the_revision, write_down_the_visit

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

MOST_CLICKS, MOST_KEYS = 90, 400
ONE_PERCENT = 0.01


READINGS = Readings(static="4.5", flow="40", residual="3.4", buckets=[("20", "30")] * 3, bore="26.0")


def draw_ground(board):
    board.hand.stage("ground")
    board.hand.press("l")
    board.figures("24x12")
    board.hand.press("m")
    board.figures("4;15", "20;15")


def place_what_is_bought(board):
    board.hand.stage("supply, heads, valves")
    board.hand.press("w")
    board.figures("-1.3;6")
    board.choose("Backflow device", "reduced-pressure-25")
    board.hand.press("Escape", "f")
    board.choose("Part", "rotary-6")
    expect(board.page.locator("#board-help")).to_contain_text("15 heads")
    board.hand.press("Enter", "c")
    board.figures("-1.3;6")
    board.hand.press("v")
    board.figures("-1;6", "-1;6")


def draw_pipes(board):
    """Both valves from the supply, the edge rows from a fork at (0, 6), the middle row from its own valve."""
    board.hand.stage("pipes and cables")
    board.hand.press("Escape", "0", "p")
    board.choose("Size", "pvc-25")
    board.click((-1.3, 6), (-1, 6), (-1.3, 6), (-1, 6))
    board.rest()
    board.click((-1, 6))
    board.click((0, 6), holding="Control")
    board.click((0, 0), (24, 0))
    board.hand.press("Enter")
    board.click((0, 6), holding="Control")
    board.click((0, 12), (24, 12))
    board.hand.press("Enter")
    board.click((-1, 6), (24, 6))
    board.hand.press("Enter", "k")
    board.click((-1.3, 6), (-1, 6))
    board.rest()
    board.click((-1.3, 6), (-1, 6))


def figures_of_the_plan():
    revision = the_revision()
    report = check_revision(revision)
    supply = revision.document["supply"]
    assert [test["kind"] for test in supply["tests"]].count("bucket") == 3
    assert report.supply.design_flow_lpm == pytest.approx(30)
    assert [area.area_m2 for area in report.areas] == pytest.approx([288])
    heads = [node for node in revision.document["layout"]["nodes"] if node["kind"] == "head"]
    assert sorted(head["sweep_deg"] for head in heads) == [90] * 4 + [180] * 8 + [360] * 3
    assert sum(zone.flow_lpm for zone in report.zones) == pytest.approx(48, rel=ONE_PERCENT)
    zones = {len(zone.heads): zone for zone in report.zones}
    assert [zones[number].flow_lpm for number in (10, 5)] == pytest.approx([24, 24], rel=ONE_PERCENT)
    assert sum(pipe.length_m for pipe in report.pipes if pipe.role == "lateral") == pytest.approx(86)
    assert sum(one.length_m for one in report.trench if one.role == "lateral") == pytest.approx(85)
    middle = next(case for case in report.cases if len(case.heads) == 5)
    last = next(node for node in heads if node["at"] == [24, 6])
    assert middle.worst_head == last["id"]
    assert middle.worst_head_kpa == pytest.approx(300, rel=ONE_PERCENT)
    assert not report.stops


def test_from_a_blank_customer_to_a_checked_plan_in_few_strokes(hand):
    add_customer_and_site(hand, "Back lawn")
    write_down_the_visit(hand, READINGS)
    expect(hand.page.locator("main")).to_contain_text("design for no more than 30.0 L/min")
    hand.stage("to the board")
    hand.link("Drawing board")
    board = HandOnBoard.opened(hand)
    draw_ground(board)
    place_what_is_bought(board)
    draw_pipes(board)
    expect(hand.page.locator("#board-sums")).to_contain_text("288.0 m² of 288.0 m²")
    expect(hand.page.locator("#board-findings .board-finding.stop")).to_have_count(0)
    hand.stage("keep")
    board.keep("First plan")
    expect(hand.page.get_by_text("nothing to stop for")).to_be_visible()
    expect(hand.page.locator("#supply")).to_contain_text("30.0 L/min")
    figures_of_the_plan()
    print(hand.account())
    assert hand.clicks <= MOST_CLICKS, hand.account()
    assert hand.keys <= MOST_KEYS, hand.account()
