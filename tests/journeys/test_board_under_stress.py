"""What is drawn survives: undone and done again, reloaded, cut off, closed, drawn by two, logged out."""

import pytest
from django.contrib.sessions.models import Session
from playwright.sync_api import expect

from sites.drafts import draft_of, save_draft
from sites.models import PlanRevision
from tests.journeys.board_window import open_window
from tests.journeys.hand import Hand, HandOnBoard
from tests.sites.makers import make_customer, make_plan, make_site, plan_document, take_in_parts

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

KEPT_HERE = "Not saved: no connection. Kept in this browser; trying again."
RETRIES_MS = 15_000


@pytest.fixture
def site(db):
    """With the plain rectangle as its first revision."""
    take_in_parts()
    site = make_site(make_customer())
    make_plan(site)
    return site


@pytest.fixture
def windows(browser, live_server, site):
    """Opens the board in a window of its own for each person, or in one more tab of a window."""
    opened = []

    def board_of(person, window=None):
        if window is None:
            window = open_window(browser, live_server.url, person)
            opened.append(window)
        return board_in(window, f"{live_server.url}/sites/{site.pk}/board/")

    yield board_of
    for window in opened:
        window.close()


def board_in(window, address):
    hand = Hand(window.new_page())
    board = HandOnBoard(hand)
    hand.page.goto(address)
    board.until(lambda document: document["layout"]["nodes"])
    return board


def marks(document):
    return [mark["at"] for mark in document["ground"]["marks"]]


def set_mark(board, east, north):
    board.map.focus()
    board.hand.press("m")
    board.figures(f"{east};{north}")
    board.until(lambda document: [east, north] in marks(document))
    board.hand.press("Escape")


def click_mark(board, east, north):
    """As typed figures need the server to read them, the mouse is what draws without it."""
    board.map.focus()
    board.hand.press("m")
    board.click((east, north))
    board.hand.press("Escape")


def state_of(board):
    return board.page.locator("#board-state")


def saved(board):
    expect(state_of(board)).to_have_attribute("data-state", "saved", timeout=RETRIES_MS)


def kept_draft(site, person):
    return draft_of(site, person).document


def test_everything_is_undone_and_done_again_to_the_last_figure(windows, site, clerk):
    board = windows(clerk)
    begun = board.document
    set_mark(board, 2, 18)
    board.hand.press("l")
    board.figures("30;0", "6x4")
    board.hand.press("Escape")
    board.click((12, 6))
    board.drag((12, 6), (12, 7))
    board.hand.press("Delete")
    board.click((6, 0))
    board.hand.field("Throw set to", "5")
    board.hand.press("Enter", "Control+a", "Shift+ArrowRight", "Control+c", "Control+v")
    board.until(lambda document: len(document["ground"]["areas"]) == 4)
    saved(board)
    drawn = kept_draft(site, clerk)
    assert drawn != begun
    undo, redo = (board.page.get_by_role("button", name=name, exact=True) for name in ("Undo", "Redo"))
    while undo.is_enabled():
        board.hand.press("Control+z")
    saved(board)
    assert kept_draft(site, clerk) == begun
    while redo.is_enabled():
        board.hand.press("Control+Shift+z")
    saved(board)
    assert kept_draft(site, clerk) == drawn


def test_a_reload_in_the_middle_of_drawing_loses_nothing(windows, site, clerk):
    board = windows(clerk)
    board.page.route("**/board/draft/", lambda route: None)  # a save that never gets through
    set_mark(board, 2, 18)
    board.page.unroute("**/board/draft/")
    board.page.reload()
    board.until(lambda document: [2, 18] in marks(document))
    saved(board)
    assert [2, 18] in marks(kept_draft(site, clerk))


def test_a_save_cut_off_is_said_and_sent_again_while_drawing_goes_on(windows, site, clerk):
    board = windows(clerk)
    sent = []
    board.page.route(
        "**/board/draft/", lambda route: sent.append(route) if len(sent) < 2 else route.continue_()
    )
    with board.page.expect_request("**/board/draft/"):
        set_mark(board, 2, 18)
    expect(state_of(board)).to_have_text("Saving…")
    with board.page.expect_request("**/board/draft/", timeout=RETRIES_MS):
        sent[0].abort("connectionreset")
        expect(state_of(board)).to_have_text(KEPT_HERE)
    set_mark(board, 3, 18)  # while the second try is under way
    assert draft_of(site, clerk) is None
    sent[1].continue_()
    saved(board)
    assert {(2, 18), (3, 18)} <= {tuple(at) for at in marks(kept_draft(site, clerk))}


def test_without_a_network_drawing_goes_on_and_is_saved_when_it_is_back(windows, site, clerk):
    board = windows(clerk)
    network = board.page.context
    network.set_offline(True)
    board.hand.press("h")
    board.click((15, 9))
    expect(state_of(board)).to_have_text(KEPT_HERE)
    board.click((9, 9))
    board.hand.press("Escape")
    expect(board.page.locator("#board-findings")).to_contain_text("from before your last change")
    assert draft_of(site, clerk) is None
    network.set_offline(False)
    saved(board)
    heads = [node["at"] for node in kept_draft(site, clerk)["layout"]["nodes"] if node["kind"] == "head"]
    assert len(heads) == 17
    assert {(15, 9), (9, 9)} <= {(round(x), round(y)) for x, y in heads}


def drawn_offline_and_closed(windows, clerk):
    """A window without a board in it any more, in which something was drawn that nobody has."""
    board = windows(clerk)
    window = board.page.context
    board.page.route("**/board/draft/", lambda route: route.abort())
    set_mark(board, 2, 18)
    expect(state_of(board)).to_have_text(KEPT_HERE)
    board.page.close()
    return window


def test_a_page_closed_without_a_network_is_taken_over_when_it_opens_again(windows, site, clerk):
    window = drawn_offline_and_closed(windows, clerk)
    assert draft_of(site, clerk) is None
    again = windows(clerk, window)
    again.until(lambda document: [2, 18] in marks(document))
    saved(again)
    assert [2, 18] in marks(kept_draft(site, clerk))
    again.hand.button("Undo")
    again.until(lambda document: [2, 18] not in marks(document))


def test_what_the_browser_kept_is_offered_beside_what_was_drawn_elsewhere_since(windows, site, clerk):
    window = drawn_offline_and_closed(windows, clerk)
    elsewhere = plan_document()
    elsewhere["ground"]["marks"].append({"id": "M9", "at": [9, 18]})
    save_draft(site=site, person=clerk, document=elsewhere, began_from=1, draft_version=0)
    again = windows(clerk, window)
    dialog = again.page.get_by_role("dialog", name="Two drawings of this site")
    dialog.get_by_role("button", name="Go on with this browser's").click()
    again.until(lambda document: [2, 18] in marks(document) and [9, 18] not in marks(document))
    saved(again)
    again.hand.button("Undo")
    again.until(lambda document: [9, 18] in marks(document))


@pytest.mark.parametrize("way", ["Keep mine", "Put both together"])
def test_two_people_from_one_revision_meet_and_keep_both(windows, site, clerk, owner, way):
    first, second = windows(clerk), windows(owner)
    set_mark(first, 2, 18)
    set_mark(second, 9, 18)
    first.keep("By the office")
    second.hand.button("Keep as revision")
    second.hand.type("By the owner")
    second.hand.press("Enter")
    second.page.get_by_role("button", name="Look at both").click()
    expect(second.page.locator("#mine .drawing svg")).to_be_visible()
    expect(second.page.locator("#theirs .drawing svg")).to_be_visible()
    expect(second.page.locator("#theirs")).to_contain_text("By the office")
    expect(second.page.locator("#mine")).to_contain_text("By the owner")
    second.hand.button(way)
    if way == "Put both together":
        HandOnBoard.opened(second.hand).keep("")
    expect(second.page.get_by_role("heading", name="Plan, revision 3")).to_be_visible()
    theirs, ours = (PlanRevision.objects.get(site=site, number=number).document for number in (2, 3))
    assert ([2, 18] in marks(theirs), [9, 18] in marks(theirs)) == (True, False)
    assert ([2, 18] in marks(ours), [9, 18] in marks(ours)) == (way == "Put both together", True)


def choose_between_tabs(board, choice):
    dialog = board.page.get_by_role("dialog", name="Drawn in another tab too")
    dialog.get_by_role("button", name=choice).click()
    expect(dialog).to_be_hidden()


def test_two_tabs_of_one_person_lose_neither(windows, site, clerk):
    here = windows(clerk)
    other = windows(clerk, here.page.context)
    set_mark(other, 2, 18)
    saved(other)
    set_mark(here, 9, 18)
    choose_between_tabs(here, "Take the other tab's")
    here.until(lambda document: [2, 18] in marks(document))
    here.hand.button("Undo")
    here.until(lambda document: [9, 18] in marks(document) and [2, 18] not in marks(document))
    saved(here)
    assert [9, 18] in marks(kept_draft(site, clerk))
    set_mark(other, 3, 18)
    choose_between_tabs(other, "Go on with what is here")
    saved(other)
    assert {(2, 18), (3, 18)} <= {tuple(at) for at in marks(kept_draft(site, clerk))}


def test_a_session_that_ends_in_the_middle_loses_nothing(windows, site, clerk, live_server):
    board = windows(clerk)
    set_mark(board, 2, 18)
    saved(board)
    Session.objects.all().delete()
    click_mark(board, 3, 18)
    expect(state_of(board)).to_contain_text("Not saved: you are logged out. Log in again in another tab.")
    click_mark(board, 4, 19)
    tab = board.page.context.new_page()
    tab.goto(f"{live_server.url}/account/login/")
    tab.get_by_label("Email").fill(clerk.email)
    tab.get_by_label("Password").fill("correct horse battery")
    tab.get_by_role("button", name="Log in").click()
    expect(tab.get_by_role("heading", name="Today", exact=True)).to_be_visible()
    tab.close()
    saved(board)
    assert {(3, 18), (4, 19)} <= {(round(x), round(y)) for x, y in marks(kept_draft(site, clerk))}
