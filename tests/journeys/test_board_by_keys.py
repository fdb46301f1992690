"""The board without a mouse: every part is reached, none holds the focus, and a dialog gives it back."""

import pytest
from playwright.sync_api import expect

from sites.drafts import save_draft
from tests.journeys.board_window import open_window
from tests.journeys.test_board_more_tools import BEGUN
from tests.sites.makers import make_customer, make_site, take_in_parts

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]
THINGS = 7  # with a place: two areas, three nodes, two pipes
MOST_STOPS = 80
PARTS = ["board-head", "board-tools", "board-map", "board-side"]
# The part of the board that has the focus, and whether it can be worked or has a role and a name.
WHERE = f"""() => {{
    const here = document.activeElement;
    const part = {PARTS}.find((id) => here.closest("#" + id)) ?? (here.closest("#board") ? "?" : "");
    const isControl = here.matches("a, button, input, select, textarea, summary");
    return [part, isControl || Boolean(here.role && here.ariaLabel), here.outerHTML.slice(0, 90)];
}}"""


@pytest.fixture
def page(browser, live_server, clerk):
    take_in_parts()
    site = make_site(make_customer())
    save_draft(site=site, person=clerk, document=BEGUN, began_from=0, draft_version=0)
    window = open_window(browser, live_server.url, clerk)
    page = window.new_page()
    errors = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(f"{live_server.url}/sites/{site.pk}/board/")
    expect(page.locator("#board-map")).to_be_focused()
    expect(page.locator("#board-findings-count")).not_to_have_text("not checked yet")
    yield page
    window.close()
    assert errors == []


def stops_until_out(page, key):
    """Where that key leads, one stop after the other, until the board is left."""
    stops = []
    while len(stops) < MOST_STOPS:
        page.keyboard.press(key)
        part, is_named, element = page.evaluate(WHERE)
        if not part:
            return stops
        assert is_named, f"an odd stop: {element}"
        stops.append(part)
    raise AssertionError(f"{key} never leaves the board: {stops}")


def in_order(stops):
    return list(dict.fromkeys(stops))


def test_tab_goes_through_the_plan_and_on_to_the_panels_and_out(page):
    stops = stops_until_out(page, "Tab")
    assert stops[:THINGS] == ["board-map"] * THINGS
    assert in_order(stops) == ["board-map", "board-side"]


def test_from_above_the_bar_is_one_stop_before_the_plan(page):
    page.locator("#content").focus()
    stops = stops_until_out(page, "Tab")
    assert in_order(stops) == PARTS
    assert stops.count("board-tools") == 1


def test_backwards_it_leaves_at_the_top(page):
    page.locator("#board-layers input").last.focus()
    stops = stops_until_out(page, "Shift+Tab")
    assert in_order(stops) == list(reversed(PARTS))


def test_the_plan_need_not_be_gone_through(page):
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#board-properties :focus")).to_be_visible()
    assert set(stops_until_out(page, "Tab")) == {"board-side"}
    page.locator("#board-map").focus()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.locator("#board-tools [aria-pressed=true]")).to_be_focused()


def test_the_question_of_keeping_gives_the_focus_back(page):
    keep = page.get_by_role("button", name="Keep as revision")
    keep.focus()
    page.keyboard.press("Enter")
    dialog = page.get_by_role("dialog")
    expect(dialog.get_by_label("Name of this revision")).to_be_focused()
    for _ in range(6):
        page.keyboard.press("Tab")
        assert page.evaluate(WHERE)[0] == ""  # never behind the question
    page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()
    expect(keep).to_be_focused()


def test_the_list_of_keys_gives_the_focus_back_to_the_plan(page):
    page.keyboard.press("?")
    expect(page.get_by_role("dialog")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()
    expect(page.locator("#board-map")).to_be_focused()
