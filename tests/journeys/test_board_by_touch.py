"""The board on a tablet held upright: an area, a head and its moving by finger; two fingers draw nothing."""

import pytest
from playwright.sync_api import expect

from tests.journeys.board_window import Finger, open_window
from tests.journeys.hand import Hand, HandOnBoard
from tests.sites.makers import make_customer, make_site, take_in_parts

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

METRES_PER_PIXEL = "document.getElementById('board-map').board.metresPerPixel()"
A_FINGER_M = 0.3  # what a finger on this scale may be off without snapping


@pytest.fixture
def tablet(browser, live_server, clerk):
    take_in_parts()
    site = make_site(make_customer())
    window = open_window(
        browser,
        live_server.url,
        clerk,
        viewport={"width": 820, "height": 1180},
        has_touch=True,
        is_mobile=True,
    )
    board = HandOnBoard(Hand(window.new_page()))
    faults = []
    board.page.on("pageerror", lambda error: faults.append(str(error)))
    board.page.goto(f"{live_server.url}/sites/{site.pk}/board/")
    expect(board.page.locator("[data-tool=select]")).to_have_attribute("aria-pressed", "true")
    yield board
    window.close()
    assert faults == []


def take(board, tool):
    button = board.page.locator(f"[data-tool={tool}]")
    if not button.is_visible():
        group = board.page.locator(".tool-group").filter(has=button)
        group.locator(".tool-fold").tap()
    button.tap()
    expect(button).to_have_attribute("aria-pressed", "true")


def areas(document):
    return document["ground"]["areas"]


def heads(document):
    return [node for node in document["layout"]["nodes"] if node["kind"] == "head"]


def draw_lawn(board, finger):
    take(board, "lawn")
    for place in ((-6, -4), (6, -4), (6, 4), (-6, 4)):
        finger.tap(*place)
    board.page.get_by_role("button", name="Done").tap()
    board.until(lambda document: document.get("ground", {}).get("areas"))


def metres_per_pixel(board):
    (x1, _), (x2, _) = board.pixel(0, 0), board.pixel(1, 0)
    return 1 / (x2 - x1)


def test_an_area_and_a_head_are_drawn_and_the_head_is_moved(tablet):
    finger = Finger(tablet, tablet.page.context)
    draw_lawn(tablet, finger)
    (lawn,) = areas(tablet.document)
    assert sorted((round(x), round(y)) for x, y in lawn["outline"]) == [(-6, -4), (-6, 4), (6, -4), (6, 4)]
    take(tablet, "head")
    finger.tap(0, 0)
    tablet.until(lambda document: heads(document))
    (head,) = heads(tablet.document)
    assert (head["area"], head["sweep_deg"]) == (lawn["id"], 360)
    take(tablet, "select")
    finger.drag((0, 0), (3, 2))
    tablet.until(lambda document: heads(document)[0]["at"] == pytest.approx([3, 2], abs=A_FINGER_M))
    assert areas(tablet.document) == [lawn], "the lawn below stays where it is"
    assert tablet.page.evaluate("document.documentElement.scrollWidth") <= 820, (
        "nothing lies beside the screen"
    )


def pinched(tablet, finger, apart, together):
    """Zooms in and out again; nothing begun may be left over."""
    before = metres_per_pixel(tablet)
    finger.pinch((0, 0), from_px=together, to_px=apart)
    tablet.page.wait_for_function(f"{METRES_PER_PIXEL} < {before / 2}")
    finger.pinch((0, 0), from_px=apart, to_px=together)
    tablet.page.wait_for_function(f"{METRES_PER_PIXEL} > {before / 2}")
    expect(tablet.page.get_by_role("button", name="Done")).to_be_hidden()


def test_two_fingers_zoom_and_draw_nothing(tablet):
    finger = Finger(tablet, tablet.page.context)
    draw_lawn(tablet, finger)
    drawn = tablet.document
    for tool in ("lawn", "head", "pipe", "mark", "select"):
        take(tablet, tool)
        pinched(tablet, finger, apart=240, together=80)
    undo = tablet.page.get_by_role("button", name="Undo", exact=True)
    undo.tap()
    tablet.until(lambda document: not areas(document))
    expect(undo).to_be_disabled()  # the lawn was all that had been drawn
    tablet.page.get_by_role("button", name="Redo", exact=True).tap()
    tablet.until(lambda document: document == drawn)
