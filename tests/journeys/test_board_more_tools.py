"""The board's rarer tools, other units, photos, and drafts that end. Figures are plane geometry by hand."""

import pytest
from playwright.sync_api import expect

from sites.drafts import draft_of, save_draft
from sites.photo_services import add_photo
from sites.survey_services import save_survey
from tests.journeys.begun_garden import LAWN, NODES, PIPES, SUPPLY
from tests.journeys.board_window import Board, open_window
from tests.sites.makers import make_customer, make_site, make_visit, take_in_parts
from tests.sites.pictures import upload

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]

BED = {"id": "A2", "cover": "bed", "outline": [[12, 0], [15, 0], [15, 8], [12, 8]]}
BEGUN = {
    "format": "plan/1",
    "ground": {"areas": [LAWN, BED]},
    "supply": SUPPLY,
    "layout": {"nodes": NODES, "pipes": PIPES},
}


@pytest.fixture
def site(db):
    take_in_parts()
    return make_site(make_customer())


@pytest.fixture
def open_board(browser, live_server, clerk):
    """The board of a site with what was begun there."""
    windows, boards = [], []

    def opened(site, document=BEGUN, **window):
        save_draft(site=site, person=clerk, document=document, began_from=0, draft_version=0)
        windows.append(open_window(browser, live_server.url, clerk, **window))
        boards.append(Board(windows[-1], live_server.url, site.pk))
        return boards[-1]

    yield opened
    for window in windows:
        window.close()
    assert [error for board in boards for error in board.errors] == []


def group(doc, name):
    return {one["id"]: one for part in ("ground", "layout") for one in doc.get(part, {}).get(name, [])}


def the_new(doc, name):
    """The one that was drawn last."""
    return next(reversed(group(doc, name).values()), None)


def help_of(board):
    return board.page.locator("#board-help")


def saved(board):
    expect(board.page.locator("#board-state")).to_contain_text("Saved", timeout=8000)


def test_ground_by_mouse_with_the_figures_that_are_asked_for(site, open_board):
    board = open_board(site)
    board.press("z")
    board.click(6, 6)
    expect(board.page.get_by_label("Height")).to_be_focused()
    board.page.keyboard.type("-35 cm")
    board.press("Enter", "Escape")
    assert board.until(lambda doc: group(doc, "levels") and the_new(doc, "levels")["z_m"]) == -0.35
    board.press("n")
    board.click(6, 2)
    board.page.keyboard.type("Roots here")
    board.press("Escape", "u")
    assert board.until(lambda doc: the_new(doc, "notes"))["text"] == "Roots here"
    for place in ((0, 10), (4, 10), (4, 12), (0, 12)):
        board.click(*place)
    board.press("Enter", "b")
    house = board.until(lambda doc: the_new(doc, "surfaces"))
    assert house["kind"] == "building"
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = house["outline"]
    assert (y1, x2, y3, x4) == (y2, x3, y4, x1)
    board.click(-3, 9)
    board.click(16, 9)
    board.press("Enter", "Escape")
    depth = board.page.get_by_label("Depth")
    depth.fill("45 cm")
    depth.press("Enter")
    line = board.until(
        lambda doc: (the_new(doc, "services") or {}).get("depth_m") and the_new(doc, "services")
    )
    assert (line["kind"], line["depth_m"], line.get("located", False)) == ("electric", 0.45, False)


def test_a_hole_is_drawn_typed_and_changed_like_an_outline(site, open_board):
    board = open_board(site)
    board.press("o")
    for place in ((3, 1), (6, 1), (6, 3), (3, 3)):
        board.click(*place)
    board.press("Enter")
    (hole,) = board.until(lambda doc: group(doc, "areas")["A1"].get("holes"))
    (west, south), (east, north) = hole[0], hole[2]
    assert (round(east - west), round(north - south)) == (3, 2)
    board.figure("7; 5")
    board.figure("3 x 2")
    board.until(lambda doc: group(doc, "areas")["A1"]["holes"][1:] == [[[7, 5], [10, 5], [10, 7], [7, 7]]])
    expect(board.page.locator("#board-properties")).to_contain_text("84.0 m²")  # 96 less 6 and 6
    for place in ((4, 2), (8, 2), (8, 6)):
        board.click(*place, holding="Shift")
    board.press("Enter")
    expect(help_of(board)).to_contain_text("meets another")
    board.press("Escape", "Escape", "Escape", "Escape")
    board.click(1, 7)
    board.drag((10, 6), (11, 6))
    board.until(lambda doc: len(group(doc, "areas")["A1"]["holes"][1]) == 5)
    board.page.mouse.dblclick(*board.pixel(11, 6))
    board.until(lambda doc: len(group(doc, "areas")["A1"]["holes"][1]) == 4)
    board.drag((10, 7), (9, 7.5))
    moved = board.until(lambda doc: group(doc, "areas")["A1"]["holes"][1][2] != [10, 7] and doc)
    assert group(moved, "areas")["A1"]["holes"][0] == hole


def test_what_is_cut_joined_bored_and_measured(site, open_board):
    board = open_board(site)
    board.press("x")
    board.click(4, -1)
    board.click(4, 9)
    board.press("Enter")
    parts = board.until(lambda doc: len(group(doc, "areas")) == 3 and group(doc, "areas"))
    assert max(x for x, _ in parts["A3"]["outline"]) == pytest.approx(4, abs=0.1)
    board.press("Escape", "Escape")
    board.click(2, 2)
    board.click(8, 2, holding="Shift")
    board.page.get_by_role("button", name="Join").click()
    board.until(lambda doc: len(group(doc, "areas")) == 2)
    board.press("x")
    board.click(6, 4)
    assert len(board.until(lambda doc: len(group(doc, "pipes")) == 3 and group(doc, "pipes"))) == 3
    joint = board.until(lambda doc: the_new(doc, "nodes"))
    assert (joint["kind"], joint["at"][1]) == ("junction", 4)
    board.press("Escape", "Escape")
    board.page.wait_for_timeout(400)  # two quick clicks on one spot are a double one
    board.click(*joint["at"])
    board.page.get_by_role("button", name="Join the pipes here").click()
    board.until(lambda doc: len(group(doc, "pipes")) == 2 and joint["id"] not in group(doc, "nodes"))
    board.press("d")
    board.figure("-2; -1")
    board.figure("1.8 @ 90")
    board.press("Enter")
    sleeve = board.until(lambda doc: the_new(doc, "sleeves"))
    assert sleeve["path"] == [[-2, -1], [-0.2, -1]]
    before = board.document
    board.press("Escape", "t")
    for place in ((0, 0), (12, 0), (12, 8)):
        board.click(*place)
    board.press("Enter")
    expect(help_of(board)).to_have_text(
        "20.00 m, angle at the last corner 90.0°, straight 14.42 m, closed 48.0 m²."
    )
    assert board.document == before


def test_copies_land_under_the_pointer_and_turn_and_a_name_that_is_taken_stays_in_its_field(site, open_board):
    board = open_board(site)
    board.click(14, 2)
    board.press("Control+c", "Control+v")
    copy = board.until(lambda doc: group(doc, "areas").get("A3"))
    assert copy["outline"][0] == [13, -1], "the pointer had not moved: beside the first"
    board.press("Control+z")
    board.until(lambda doc: "A3" not in group(doc, "areas"))
    board.page.mouse.move(*board.pixel(6, -2))
    board.click(14, 2)
    board.press("Control+c")
    board.page.mouse.move(*board.pixel(6, 4))
    board.press("Control+v")
    copy = board.until(lambda doc: group(doc, "areas").get("A3") and group(doc, "areas")["A3"])
    assert copy["outline"][0] == [pytest.approx(4.5, abs=0.06), pytest.approx(0, abs=0.06)]
    board.press("r")
    expect(board.page.get_by_label("Turn clockwise by")).to_be_focused()
    board.press("Enter")  # 90 stands there
    turned = board.until(lambda doc: group(doc, "areas")["A3"]["outline"] != copy["outline"] and doc)
    xs = [x for x, _ in group(turned, "areas")["A3"]["outline"]]
    assert max(xs) - min(xs) == pytest.approx(8)
    board.press("ArrowRight", "ArrowRight", "ArrowRight", "Control+z")
    board.until(lambda doc: group(doc, "areas")["A3"] == group(turned, "areas")["A3"])
    board.click(-1, 4)
    name = board.page.get_by_label("Id", exact=True)
    name.fill("H1")
    name.press("Enter")
    expect(board.page.locator("#property-id-error")).to_contain_text("There is a “H1” already")
    expect(name).to_have_value("H1")
    name.fill("V-front")
    name.press("Enter")
    board.until(lambda doc: group(doc, "pipes")["P2"]["from"] == "V-front" and group(doc, "nodes")["V-front"])
    expect(board.page.locator("#board-properties h3")).to_have_text("Valve V-front")


def test_a_site_in_feet_speaks_feet_and_asks_about_metres(db, open_board):
    take_in_parts()
    board = open_board(make_site(make_customer(), units="us"))
    board.press("u")
    board.figure("0; -40")
    board.figure("80 ft @ 90")
    board.figure("10 @ 180")
    board.page.mouse.move(*board.pixel(20, 4))
    board.press("Enter")
    house = board.until(lambda doc: the_new(doc, "surfaces"))["outline"]
    assert house == [[0, -12.192], [24.384, -12.192], [24.384, -15.24]]  # a foot is 0.3048 m: NIST SP 811
    board.press("Escape", "Escape", "t")
    board.figure("0; 0")
    board.figure("24 @ 0")
    board.press("Enter")
    expect(help_of(board)).to_contain_text("24.00 ft")
    expect(board.page.locator(".board-scale")).to_contain_text("ft")
    board.press("Escape", "Escape")
    board.click(12, 4)
    throw = board.page.get_by_label("Throw set to")
    throw.fill("19.68 m")  # 6 m are 19.69 ft: 3.28 times the throw
    throw.press("Enter")
    asked = board.page.locator(".property-asked")
    expect(asked).to_contain_text("feet")
    asked.get_by_role("button").first.click()
    assert board.until(lambda doc: group(doc, "nodes")["H1"].get("reach_m")) == pytest.approx(6, abs=0.01)
    expect(throw).to_have_value("19.69 ft")


def test_photos_open_and_unsure_points_are_told_hidden_and_snapped_to(site, clerk, open_board):
    visit = make_visit(site)
    picture = add_photo(visit=visit, upload=upload(), by=clerk, caption="Gate post")
    type(picture).objects.filter(pk=picture.pk).update(east_m=3, north_m=2, looks_deg=45)
    tapes = {"first_tape": {"text": "5.00", "m": 5.0}, "second_tape": {"text": "20.22", "m": 20.22}}
    document = {  # two tapes that meet under a flat angle, about (0; 12)
        "marks": [
            {"name": "A", "east": {"text": "4", "m": 4}, "north": {"text": "15", "m": 15}},
            {"name": "B", "off": "A", "distance": {"text": "16", "m": 16}},
        ],
        "ties": [{"point": "4", "first": "A", "second": "B", "side": "right", **tapes}],
    }
    save_survey(visit=visit, part="plane", document=document, began_from=0, by=None)
    board = open_board(site)
    board.click(3, 2)
    dialog = board.page.get_by_role("dialog", name="Photo")
    expect(dialog).to_contain_text("Gate post")
    small = dialog.locator("img")
    assert small.evaluate("async (image) => { await image.decode(); return image.naturalWidth; }") > 0
    link = dialog.get_by_role("link", name="Whole picture").get_attribute("href")
    assert board.page.request.get(board.page.url.split("/sites/")[0] + link).ok
    board.press("Escape")
    board.click(0, 12)
    expect(help_of(board)).to_contain_text("Point 4 was measured unsurely")
    board.press("m")
    board.click(0.05, 12.05)
    mark = board.until(lambda doc: the_new(doc, "marks"))["at"]
    assert mark == [pytest.approx(0, abs=0.03), pytest.approx(12, abs=0.03)]
    board.press("Escape", "Escape")
    board.page.get_by_label("Photos", exact=True).uncheck()
    board.click(3, 2)
    expect(dialog).to_be_hidden()
    board.page.get_by_role("button", name="Gate post").press("Enter")
    expect(dialog).to_be_visible()


def test_a_reload_overtakes_no_save_and_a_draft_is_thrown_away_when_asked(site, clerk, open_board):
    board = open_board(site)
    page = board.page
    before = page.request.get(page.url).text()
    page.route("**/board/draft/", lambda route: route.fetch())  # taken, but the answer never comes
    board.press("m")
    board.click(2, 2)
    board.until(lambda doc: group(doc, "marks"))
    page.wait_for_timeout(1500)
    board.click(4, 4)
    board.until(lambda doc: len(group(doc, "marks")) == 2)
    page.wait_for_timeout(400)
    page.unroute("**/board/draft/")
    page.reload()
    board.until(lambda doc: len(group(doc, "marks")) == 2)
    saved(board)
    assert len(group(draft_of(site, clerk).document, "marks")) == 2
    expect(page.locator("dialog[open]")).to_have_count(0)

    def older(route):
        route.fulfill(body=before, content_type="text/html")

    page.route(page.url, older)  # the page from before all of it, as if it had been on its way
    page.reload()
    page.unroute(page.url)
    expect(help_of(board)).to_contain_text("Taken over")
    page.wait_for_timeout(1500)
    saved(board)
    assert len(group(draft_of(site, clerk).document, "marks")) == 2
    page.get_by_role("button", name="Discard draft").click()
    page.get_by_role("button", name="Throw it away").click()
    expect(page.locator("#board-state")).to_contain_text("Nothing drawn yet")
    assert draft_of(site, clerk) is None


def test_nothing_overflows_and_done_is_at_hand_while_drawing(site, open_board):
    board = open_board(site)
    page = board.page
    for width in (1280, 768, 360):
        page.set_viewport_size({"width": width, "height": 740})
        page.wait_for_timeout(200)
        board.press("l")
        box = board.map.bounding_box()
        for share in (0.3, 0.6):
            page.mouse.click(box["x"] + box["width"] * share, box["y"] + 90)
        for name in ("Done", "Undo point", "Cancel"):
            button = page.get_by_role("button", name=name).bounding_box()
            assert button["height"] >= 44
            assert button["y"] + button["height"] <= 740
        page.keyboard.type("500")
        board.press("Enter")
        expect(page.locator(".typed-asked button").first).to_be_focused()
        form = page.locator("#board-typed").bounding_box()
        assert form["y"] + form["height"] <= 740
        assert form["y"] > box["y"] + 100, "the points just drawn stay in sight"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        board.press("Escape", "Escape", "Escape", "Escape")
