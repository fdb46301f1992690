"""Drawing over an invented sketch in a real browser: mouse, finger and keyboard, and two at once.

Figures by hand: 200 pixels of the sketch are 10 m.
"""

import pytest
from playwright.sync_api import Page, expect

from office.models import Person, Role
from sites.models import GroundSurvey, PlanDraft, Visit
from sites.picture_services import keep_picture
from sites.survey_services import save_survey
from tests.conftest import client_of
from tests.sites.makers import make_site
from tests.sites.test_trace import DRAWN, upload

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]
WIDE_PX, TALL_PX, AIR_PX, EDGE_PX = 800, 600, 8, 1
LAWN = [(120, 180), (560, 180), (560, 500), (120, 500)]


@pytest.fixture
def address(live_server):
    person = Person.objects.create_user("ink@example.test", "correct horse battery", role=Role.OFFICE)
    site = make_site()
    visit = Visit.objects.create(site=site, visited_on="2026-05-04", measured_by="Ola")
    picture = keep_picture(site=site, upload=upload(), by=person)
    return f"{live_server.url}/visits/{visit.pk}/trace/?picture={picture.pk}"


def open_page(page: Page, address: str) -> None:
    session = client_of(Person.objects.get()).cookies["sessionid"].value
    page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    page.goto(address)
    expect(page.locator("#trace-help")).to_contain_text("Drag the picture")
    page.wait_for_timeout(300)  # the picture is fitted into its window


def place_of(page: Page, at: tuple[float, float]) -> tuple[float, float]:
    """Where a pixel of the whole picture is on the screen."""
    box = page.locator("#trace-map").bounding_box()
    wide, tall = box["width"] - 2 * EDGE_PX, box["height"] - 2 * EDGE_PX
    scale = min((wide - 2 * AIR_PX) / WIDE_PX, (tall - 2 * AIR_PX) / TALL_PX)
    left = box["x"] + EDGE_PX + (wide - WIDE_PX * scale) / 2
    top = box["y"] + EDGE_PX + (tall - TALL_PX * scale) / 2
    return left + at[0] * scale, top + at[1] * scale


def mark(page: Page, *places: tuple[float, float], by_finger: bool = False) -> None:
    page.evaluate("document.getElementById('trace-map').scrollIntoView({block: 'end'})")
    for at in places:
        press = page.touchscreen.tap if by_finger else page.mouse.click
        press(*place_of(page, at))


def set_scale(page: Page, by_finger: bool = False) -> None:
    for name, length, ends in (
        ("scale", "10 m", [(100, 560), (300, 560)]),
        ("check", "10.5 m", [(620, 260), (620, 470)]),
    ):
        page.locator(f"[data-bar={name}] [data-act=mark]").click()
        mark(page, *ends, by_finger=by_finger)
        page.locator(f"[data-bar={name}] [data-key=length]").fill(length)


def save(page: Page) -> None:
    page.get_by_role("button", name="Save the drawing").click()
    expect(page.locator("#trace-state")).to_have_text("Saved")


def kept():
    return GroundSurvey.objects.get().traces["traces"][0]


def test_with_a_mouse_at_the_desk(desk, address):
    open_page(desk, address)
    set_scale(desk)
    desk.get_by_role("button", name="Draw an outline").click()
    mark(desk, *LAWN, LAWN[0])
    expect(desk.locator("#trace-answer")).to_contain_text("good")
    expect(desk.locator("[data-outline]")).to_contain_text("352")  # 22 m by 16 m
    start, end = place_of(desk, LAWN[2]), place_of(desk, (600, 520))
    desk.mouse.move(*start)
    desk.mouse.down()
    desk.mouse.move(*end, steps=5)
    desk.mouse.up()
    save(desk)
    assert kept()["outlines"][0]["pixels"][2] == pytest.approx([600, 520], abs=3)
    desk.get_by_role("button", name="Put the outlines on the drawing board").click()
    expect(desk.get_by_text("1 outline is on your drawing board.")).to_be_visible()
    assert len(PlanDraft.objects.get().document["ground"]["areas"]) == 1


def test_with_a_finger_on_a_phone(phone, address):
    open_page(phone, address)
    set_scale(phone, by_finger=True)
    phone.get_by_role("button", name="Draw an outline").click()
    mark(phone, *LAWN[:3], by_finger=True)
    phone.get_by_role("button", name="Undo corner").click()
    mark(phone, *LAWN[2:], LAWN[0], by_finger=True)
    save(phone)
    assert len(kept()["outlines"][0]["pixels"]) == 4
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360


def test_with_the_keyboard_alone(desk, address):
    open_page(desk, address)
    for name, numbers in (("scale", (100, 560, 300, 560)), ("check", (620, 260, 620, 470))):
        bar = desk.locator(f"[data-bar={name}]")
        bar.locator("summary").press("Enter")
        for place, value in enumerate(numbers):
            control = bar.locator("[data-end]").nth(place)
            control.fill(str(value))
            control.press("Tab")
    desk.locator("[data-bar=scale] [data-key=length]").fill("10 m")
    expect(desk.locator("#trace-answer")).to_contain_text("Nothing checks the scale")
    desk.locator("[data-bar=check] [data-key=length]").fill("10.5 m")
    expect(desk.locator("#trace-answer")).to_contain_text("good")
    desk.get_by_role("button", name="Outline by numbers").press("Enter")
    outline = desk.locator("[data-outline]")
    outline.locator("summary").press("Enter")
    control = outline.locator("[data-corner='2'][data-axis='0']")
    control.fill("700")
    control.press("Tab")
    save(desk)
    assert kept()["outlines"][0]["pixels"][2][0] == 700


def test_a_wrong_figure_is_said_beside_its_field(desk, address):
    open_page(desk, address)
    set_scale(desk)
    desk.locator("[data-bar=check] [data-key=length]").fill("soon")
    expect(desk.locator("[data-bar=check] .trace-wrong")).to_contain_text("not a number")
    desk.get_by_role("button", name="Save the drawing").click()
    expect(desk.locator("#trace-state")).to_contain_text("Not saved yet")
    assert not GroundSurvey.objects.exists()


def test_two_versions_stand_side_by_side(desk, address):
    open_page(desk, address)
    set_scale(desk)
    trace = {"picture": int(address.rsplit("=", 1)[1]), "outlines": []}
    outline = {key: DRAWN["outlines"][0][key] for key in ("id", "label", "becomes", "kind", "pixels")}
    theirs = {"traces": [{**trace, "outlines": [outline]}]}
    visit = Visit.objects.get()
    save_survey(visit=visit, part="traces", document=theirs, began_from=0, by=None)
    desk.get_by_role("button", name="Save the drawing").click()
    expect(desk.locator("#trace-clash")).to_contain_text("House: building, 4 corners")
    expect(desk.locator("#trace-clash")).to_contain_text("Scale: 10 m")
    desk.get_by_role("button", name="Save mine in place of theirs").click()
    expect(desk.locator("#trace-state")).to_have_text("Saved")
    assert kept()["scale"]["length"]["m"] == 10
