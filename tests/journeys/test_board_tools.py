"""Drawing on the board with mouse, finger and keyboard. Figures are plane geometry, checked by hand."""

import json

import pytest
from playwright.sync_api import expect

from sites.drafts import draft_of, save_draft
from tests.journeys.begun_garden import LAWN, NODES, PIPES, SUPPLY
from tests.journeys.board_window import Board, Finger, open_window
from tests.sites.makers import make_customer, make_site, take_in_parts

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

BEGUN = {
    "format": "plan/1",
    "ground": {"areas": [LAWN]},
    "supply": SUPPLY,
    "layout": {"nodes": NODES, "pipes": PIPES},
}


@pytest.fixture
def site(db):
    take_in_parts()
    return make_site(make_customer())


@pytest.fixture
def begun(site, clerk):
    """A lawn with one head behind one valve."""
    save_draft(site=site, person=clerk, document=BEGUN, began_from=0, draft_version=0)
    return site


@pytest.fixture
def window(browser, live_server, clerk):
    made = open_window(browser, live_server.url, clerk)
    yield made
    made.close()


@pytest.fixture
def open_board(window, live_server):
    boards = []

    def opened(site, other_window=None):
        boards.append(Board(other_window or window, live_server.url, site.pk))
        return boards[-1]

    yield opened
    assert [error for board in boards for error in board.errors] == []


def areas(doc):
    return doc.get("ground", {}).get("areas", [])


def nodes(doc, kind):
    return [node for node in doc.get("layout", {}).get("nodes", []) if node["kind"] == kind]


def pipes(doc):
    return {pipe["id"]: pipe for pipe in doc["layout"]["pipes"]}


def entity(doc, name):
    return next(node for node in doc["layout"]["nodes"] if node["id"] == name)


def rounded(outline):
    return sorted([round(x, 1), round(y, 1)] for x, y in outline)


def test_a_lawn_by_typing_takes_eight_keys_and_asks_where_a_figure_is_odd(site, open_board):
    board = open_board(site)
    board.press("l")
    board.figure("24x12")
    (lawn,) = board.until(areas)
    assert lawn["outline"] == [[0, 0], [24, 0], [24, 12], [0, 12]]
    board.press("u")
    board.figure("30; 0")
    board.figure("16 ft @ 90")
    board.page.keyboard.type("500 @ 0")
    board.press("Enter")
    board.page.locator(".typed-asked").get_by_role("button", name="500 cm").click()
    expect(board.page.locator("#board-typed")).to_be_hidden()
    board.figure("+ -4,8768; 0")
    board.press("Enter")
    (house,) = board.until(lambda doc: doc["ground"]["surfaces"])
    assert house["outline"] == [[30, 0], [34.877, 0], [34.877, 5], [30, 5]]  # 16 ft are 4.8768 m
    board.press("u", "5")
    expect(board.page.locator("#typed-figures")).to_be_focused()
    board.press("u", "Enter")  # a letter in the field is no tool, and what is no figure stays there
    expect(board.page.locator("#typed-said")).not_to_be_empty()
    expect(board.page.locator("#typed-figures")).to_have_value("5u")


def test_a_lawn_by_mouse_snaps_to_right_angles_and_shift_does_not(site, open_board):
    board = open_board(site)
    board.press("l")
    for place in ((0, 0), (8, 0.1), (8.1, 5), (0.15, 4.9)):
        board.click(*place)
    board.press("Enter")
    (lawn,) = board.until(areas)
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = lawn["outline"]
    assert (y1, x2, y3, x4) == (y2, x3, y4, x1), "the guides make it square to the millimetre"
    assert (round(x2 - x1), round(y3 - y2)) == (8, 5)
    board.page.keyboard.down("Shift")
    for place in ((-9, 1), (-4, 1.1), (-5, 4)):
        board.click(*place)
    board.page.keyboard.up("Shift")
    board.press("Backspace", "Backspace")
    expect(board.page.get_by_role("button", name="Undo point")).to_be_visible()
    board.press("Escape", "Escape")
    expect(board.page.locator("[data-tool=select]")).to_have_attribute("aria-pressed", "true")
    assert len(areas(board.document)) == 1


def test_a_lawn_by_finger(browser, live_server, clerk, site, open_board):
    tablet = open_window(
        browser, live_server.url, clerk, viewport={"width": 768, "height": 1000}, has_touch=True
    )
    board = open_board(site, tablet)
    finger = Finger(board, tablet)
    board.page.get_by_role("button", name="Ground").tap()
    board.page.locator("[data-tool=lawn]").tap()
    finger.drag((-4, -3), (5, -3))
    finger.tap(5, 3)
    finger.tap(-4, 3)
    finger.tap(0, 6)
    board.page.get_by_role("button", name="Undo point").tap()
    board.page.get_by_role("button", name="Done").tap()
    (lawn,) = board.until(areas)
    assert rounded(lawn["outline"]) == [[-4, -3], [-4, 3], [5, -3], [5, 3]]
    board.page.locator("[data-tool=select]").tap()
    finger.tap(0, -3, held_ms=700)
    board.page.get_by_role("menuitem", name="Add a corner here").tap()
    board.until(lambda doc: len(areas(doc)[0]["outline"]) == 5)
    finger.tap(0, -3, held_ms=700)
    board.page.get_by_role("menuitem", name="Take this corner out").tap()
    board.until(lambda doc: len(areas(doc)[0]["outline"]) == 4)
    sizes = board.page.locator("#board-tools button:visible, #board-strip button:visible").all()
    assert sizes
    assert min(min(box["height"], box["width"]) for box in (one.bounding_box() for one in sizes)) >= 44
    tablet.close()


def test_a_lawn_a_head_and_a_pipe_by_keyboard_alone(site, open_board):
    board = open_board(site)
    board.press("l", "Space")
    board.press(*["Shift+ArrowRight"] * 6, "Enter", *["Shift+ArrowUp"] * 5, "Enter")
    board.press(*["Shift+ArrowLeft"] * 6, "Enter", "Enter")
    (lawn,) = board.until(areas)
    corner = x, y = lawn["outline"][0]
    assert rounded(lawn["outline"]) == rounded([corner, [x + 6, y], [x + 6, y + 5], [x, y + 5]])
    board.press("h")
    board.figure(f"{corner[0]}; {corner[1]}")
    board.figure("5 @ 0")
    first, second = board.until(lambda doc: len(nodes(doc, "head")) == 2 and nodes(doc, "head"))
    assert (first["from_deg"], first["sweep_deg"], first["area"]) == (0, 90, lawn["id"])
    assert (second["from_deg"], second["sweep_deg"]) == (90, 90)
    board.press("Escape", "Escape", "p")
    board.figure(f"{corner[0]}; {corner[1]}")
    board.figure("5 @ 0")
    board.press("Enter")
    (pipe,) = board.until(lambda doc: doc["layout"].get("pipes"))
    assert {pipe["from"], pipe["to"]} == {first["id"], second["id"]}
    board.press("Escape", "Escape", "Tab")
    expect(board.page.locator("#board-help")).to_contain_text("Area A1")
    board.press("Tab", "Alt+ArrowRight", "Escape", "Escape")
    expect(board.page.locator("[data-tool=select]")).to_be_focused()


def test_a_head_set_on_a_pipe_splits_it_and_taking_it_out_heals_it(begun, open_board):
    board = open_board(begun)
    board.press("h")
    board.click(6, 4.05)
    head = board.until(lambda doc: len(nodes(doc, "head")) == 2 and nodes(doc, "head")[1])
    assert (head["sweep_deg"], head["area"]) == (360, "A1")
    split = pipes(board.document)
    assert len(split) == 3
    assert split["P2"]["to"] == head["id"]
    assert entity(board.document, head["id"])["at"][1] == 4
    board.press("Escape", "Delete")
    board.until(lambda doc: len(nodes(doc, "head")) == 1)
    assert {(pipe["from"], pipe["to"]) for pipe in pipes(board.document).values()} == {
        ("S", "V1"),
        ("V1", "H1"),
    }


def test_the_end_of_an_arc_jumps_to_the_edge_beside_it(begun, open_board):
    board = open_board(begun)
    board.press("h")
    board.click(0.05, 0.04)
    head = board.until(lambda doc: len(nodes(doc, "head")) == 2 and nodes(doc, "head")[1])
    assert (head["at"], head["from_deg"], head["sweep_deg"]) == ([0, 0], 0, 90)
    board.press("Escape")
    field = board.page.get_by_label("Arc begins at")
    field.fill("30")
    field.press("Enter")
    board.until(lambda doc: entity(doc, head["id"])["from_deg"] == 30)
    parts = json.loads(board.page.locator("#board-data").text_content())["parts"]["head"]
    (throw,) = [part["reach_m"] for part in parts if part["code"] == head["part"]]
    board.drag((throw / 2, throw * 0.8660254), (0.06 * throw, throw * 0.99))  # 3 degrees off the edge
    after = board.until(lambda doc: entity(doc, head["id"])["from_deg"] == 0 and entity(doc, head["id"]))
    assert after["sweep_deg"] == 120, "the other end stays where it was"


def test_the_fields_ask_about_a_diameter_and_keep_what_is_wrong(begun, open_board):
    board = open_board(begun)
    board.click(12, 4)
    throw = board.page.get_by_label("Throw set to")
    throw.fill("12")
    throw.press("Enter")
    asked = board.page.locator(".property-asked")
    expect(asked).to_contain_text("diameter")
    asked.get_by_role("button").first.click()
    board.until(lambda doc: entity(doc, "H1").get("reach_m") == 6)
    throw.fill("far")
    throw.press("Enter")
    expect(board.page.locator("#property-reach_m-error")).not_to_be_empty()
    expect(throw).to_have_value("far")
    assert entity(board.document, "H1")["reach_m"] == 6


def test_several_are_moved_together_by_box_mouse_and_keys(begun, open_board):
    board = open_board(begun)
    board.drag((-3, 3), (13, 5))  # holds supply, valve, head and both pipes, not the lawn
    expect(board.page.locator("#board-properties h3")).to_have_text("5 selected")
    board.press("ArrowUp", "Shift+ArrowUp", "Alt+ArrowRight")
    board.until(lambda doc: entity(doc, "H1")["at"] == [12.01, 5.1])
    assert entity(board.document, "V1")["at"] == [-0.99, 5.1]
    assert board.document["supply"]["at"] == [-1.99, 5.1]
    board.click(4, 1)
    board.drag((4, 1), (4, -1))
    (lawn,) = board.until(lambda doc: areas(doc)[0]["outline"][0][1] < 0 and areas(doc))
    width = lawn["outline"][1][0] - lawn["outline"][0][0]
    assert width == 12
    board.click(-0.99, 5.1)
    board.click(12.01, 5.1, holding="Shift")
    expect(board.page.locator("#board-properties h3")).to_have_text("2 selected")


def test_everything_is_undone_and_done_again(begun, clerk, open_board):
    board = open_board(begun)
    board.press("v")
    board.figure("-1; 6")
    board.press("h")
    board.click(4, 4)
    board.press("Escape")
    board.drag((4, 4), (4, 5))
    board.press("p")
    board.click(-1, 6)
    board.page.mouse.dblclick(*board.pixel(4, 5))
    board.press("Escape", "Control+a", "ArrowLeft")
    last = board.until(
        lambda doc: (
            len(doc["layout"]["pipes"]) == 4 and doc["ground"]["areas"][0]["outline"][0][0] < 0 and doc
        )
    )
    undo = board.page.get_by_role("button", name="Undo", exact=True)
    for _ in range(20):
        board.press("Control+z")
    expect(undo).to_be_disabled()
    assert board.until(lambda doc: doc == json.loads(json.dumps(BEGUN)))
    for _ in range(20):
        board.press("Control+Shift+z")
    board.until(lambda doc: doc == last)
    expect(board.page.locator("#board-state")).to_contain_text("Saved", timeout=8000)
    board.page.wait_for_timeout(1500)
    assert draft_of(begun, clerk).document == last


def test_the_plain_rectangle_takes_few_clicks_and_keys(site, clerk, open_board):
    """Lawn 24 x 12, fifteen heads, two valves in one box; pipe worked by hand: 86 m and twice 0.3 m."""
    supply = {
        "at": [0, 0], "static_kpa": 450, "service_pipe": {"material": "pe", "bore_mm": 26.0, "length_m": 9},
        "tests": [
            {"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340},
            {"kind": "bucket", "litres": 20, "seconds": 30},
        ],
    }  # fmt: skip
    document = {
        "format": "plan/1",
        "supply": supply,
        "layout": {"nodes": [{"id": "S", "kind": "supply", "at": [0, 0]}]},
    }
    save_draft(site=site, person=clerk, document=document, began_from=0, draft_version=0)
    board = open_board(site)
    board.spent = {"clicks": 0, "keys": 0}
    board.press("w")
    board.figure("-1.3;6")
    board.choose("Backflow device", "reduced-pressure-25")
    board.press("l")
    board.figure("24x12")
    board.press("f")
    board.choose("Part", "rotary-6")
    expect(board.page.locator("#board-help")).to_contain_text("15 heads")
    board.press("Enter")
    board.press("c")
    board.figure("-1.3;6")
    board.press("v")
    board.figure("-1;6")
    board.figure("-1;6")
    board.press("Escape", "0")
    spent = dict(board.spent)
    board.look_again()
    board.spent = spent
    board.press("p")
    board.choose("Size", "pvc-25")
    for place in ((-1.3, 6), (-1, 6), (-1.3, 6), (-1, 6)):
        board.click(*place)
    board.page.wait_for_timeout(400)  # the next one begins where that ended and is no double click
    for place in ((-1, 6), (24, 6)):
        board.click(*place)
    board.press("Enter")
    board.click(-1, 6)
    board.click(0, 6, holding="Control")
    for place in ((0, 0), (24, 0)):
        board.click(*place)
    board.press("Enter")
    for place in ((24, 12), (0, 12)):
        board.click(*place)
    board.click(0, 6, holding="Control")
    board.press("Enter", "k")
    for place in ((-1.3, 6), (-1, 6), (-1.3, 6), (-1, 6)):
        board.click(*place)
    sums = board.page.locator("#board-sums")
    expect(sums).to_contain_text("86.60 m")
    expect(sums).to_contain_text("288.0 m² of 288.0 m²")
    expect(board.page.locator("#board-findings .board-finding.stop")).to_have_count(0)
    assert (
        sorted(head["sweep_deg"] for head in nodes(board.document, "head"))
        == [90] * 4 + [180] * 8 + [360] * 3
    )
    assert len({cable["to"] for cable in board.document["layout"]["cables"]}) == 2
    assert board.spent["clicks"] <= 25, board.spent
    assert board.spent["keys"] <= 45, board.spent


def test_a_list_of_keys_opens_and_closes(begun, open_board):
    board = open_board(begun)
    board.press("?")
    dialog = board.page.locator("dialog.board-keys-list")
    expect(dialog).to_contain_text("Buried line")
    board.press("l", "Escape")
    expect(dialog).to_be_hidden()
    expect(board.page.locator("[data-tool=select]")).to_have_attribute("aria-pressed", "true")
