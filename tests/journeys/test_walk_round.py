"""The walk in a real browser on a phone: lines kept by going on, no signal, two at once, a photo placed."""

import pytest
from playwright.sync_api import Page, expect

from office.models import Person, Role
from sites.models import SheetEntry, SitePhoto, Visit
from tests.conftest import client_of
from tests.sites.makers import make_plan, make_site, take_in_parts
from tests.sites.pictures import encoded, photo

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]
LEAST_PX = 44  # WCAG 2.2, success criterion 2.5.5


@pytest.fixture
def site():
    take_in_parts()
    site = make_site()
    make_plan(site)
    return site


@pytest.fixture
def visit(site):
    return Visit.objects.create(site=site, visited_on="2026-05-04", measured_by="Ola")


@pytest.fixture
def walk(phone, live_server, visit):
    log_in(phone, live_server.url, "ola@example.test", "Ola Test")
    phone.goto(f"{live_server.url}/visits/{visit.pk}/walk/")
    return phone


def log_in(page: Page, server: str, email: str, name: str) -> None:
    person = Person.objects.create_user(email, "correct horse battery", name=name, role=Role.OFFICE)
    session = client_of(person).cookies["sessionid"].value
    page.context.add_cookies([{"name": "sessionid", "value": session, "url": server}])


def line(page: Page, key: str):
    return page.locator(f"#line-{key}")


def test_a_line_is_kept_when_the_next_one_is_touched(walk):
    walk.fill("#decides-answer", "Both owners")
    assert "unsaved" in line(walk, "decides").get_attribute("class")
    walk.locator("#wishes-answer").tap()
    expect(line(walk, "decides").locator(".said")).to_contain_text("Both owners, told by somebody, Ola Test")
    assert SheetEntry.objects.get().text == "Both owners"
    expect(walk.locator("#walk-progress")).to_contain_text("1 of")


def test_a_well_brings_its_lines_and_the_main_takes_them_away(walk):
    expect(line(walk, "pump_on")).to_be_hidden()
    walk.locator("#line-water_source label", has_text="well").tap()
    walk.locator("#line-water_source .keep button", has_text="Told").tap()
    expect(line(walk, "pump_on")).to_be_visible()
    line(walk, "water_source").locator("summary").tap()
    walk.locator("#line-water_source label", has_text="public main").tap()
    walk.locator("#line-water_source .keep button", has_text="Told").tap()
    expect(line(walk, "pump_on")).to_be_hidden()


def test_without_a_signal_what_was_typed_stays_and_is_sent_later(walk):
    walk.context.set_offline(True)
    walk.fill("#gate-answer", "0.9")
    walk.locator("#line-gate .keep button", has_text="Measured").tap()
    expect(line(walk, "gate")).to_contain_text("Not sent: no signal")
    expect(walk.locator("#gate-answer")).to_have_value("0.9")
    walk.context.set_offline(False)
    walk.locator("#line-gate .keep button", has_text="Measured").tap()
    expect(line(walk, "gate").locator(".said")).to_contain_text("0.9 m")


def test_somebody_elses_answer_is_shown_and_is_not_overwritten_by_going_on(walk, visit):
    walk.fill("#gate-answer", "1.1")
    SheetEntry.objects.create(visit=visit, field="gate", text="0.9 m", value_si=0.9)
    walk.locator("#way_in-answer").tap()
    expect(line(walk, "gate").locator("[role=alert]")).to_contain_text("kept “0.9 m” meanwhile")
    expect(walk.locator("#gate-answer")).to_have_value("1.1")
    walk.locator("#decides-answer").tap()
    walk.wait_for_timeout(300)
    assert SheetEntry.objects.get(field="gate").text == "0.9 m"
    walk.locator("#line-gate .keep button", has_text="Measured").tap()
    expect(line(walk, "gate").locator(".said")).to_contain_text("1.1 m")


def test_a_photo_is_sent_at_once_and_placed_by_two_taps(walk, visit):
    picture = {"name": "gate.jpg", "mimeType": "image/jpeg", "buffer": encoded(photo(1600, 1200))}
    walk.set_input_files("#file-gate", picture)
    walk.locator("#photos-gate img").tap()
    drawing = walk.locator("#photo-map svg")
    box = drawing.bounding_box()
    drawing.tap(position={"x": 100, "y": 150})
    drawing.tap(position={"x": 100, "y": 100})  # straight up the page, which is north
    frame = walk.locator("#photo-map").evaluate("element => ({...element.dataset})")
    walk.locator("#photo-form button[type=submit]").tap()
    expect(walk.locator("main")).to_contain_text("looks towards 0°")
    kept = SitePhoto.objects.get()
    view = 800 / box["width"]  # the drawing is 800 units wide
    east = float(frame["west"]) + (100 * view - float(frame["left"])) / float(frame["scale"])
    north = float(frame["north"]) - (150 * view - float(frame["top"])) / float(frame["scale"])
    assert kept.east_m == pytest.approx(east, abs=0.2)
    assert kept.north_m == pytest.approx(north, abs=0.2)


def test_the_stopwatch_counts(walk):
    watch = walk.locator(".stopwatch")
    watch.locator("button").tap()
    walk.wait_for_timeout(600)
    watch.locator("button").tap()
    seconds = float(watch.locator("li").first.inner_text().removesuffix(" s"))
    assert 0.5 < seconds < 5


def test_the_page_fits_the_phone_and_its_controls_a_thumb(walk):
    assert walk.evaluate("document.documentElement.scrollWidth") == 360
    low = walk.evaluate(
        """() => [...document.querySelectorAll("main a, main button, main textarea, main summary,"
            + " main .measure input, main .taps label, main .take")]
            .filter((element) => element.offsetParent && !element.classList.contains("hidden-visually"))
            .filter((element) => !element.closest(".crumbs"))
            .map((element) => [element.outerHTML.slice(0, 80), element.getBoundingClientRect().height])"""
    )
    assert len(low) > 100
    assert [row for row in low if row[1] < LEAST_PX] == []
