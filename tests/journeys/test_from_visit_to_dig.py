"""One job from the first phone call to the first spade: office, then customer, then installer.

Figures of the garden are those of a plain rectangle worked by hand; the bucket's arithmetic is
common practice, no source: 5 US gal in 45 s is 6.67 US gal/min, and at 8 US gal/min it takes 37.5 s.
"""

import re
from datetime import timedelta
from pathlib import Path

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from demo.loading import load_demo
from demo.people import PASSWORD
from office.models import Person, Role
from quoting.models import Acceptance, Quote, Status

PLAN = Path(__file__).resolve().parents[1] / "plans" / "s1.json"
pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def server(live_server):
    load_demo()
    return live_server.url


def log_in(page: Page, server: str, role: str) -> None:
    page.goto(f"{server}/account/login/")
    page.get_by_label("Email").fill(Person.objects.filter(role=role).first().email)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Log in").click()
    expect(page.get_by_role("heading", name="Today", exact=True)).to_be_visible()


def add_customer_and_site(page: Page) -> None:
    page.get_by_role("link", name="Customers", exact=True).click()
    page.get_by_label("Name, phone, street or town").fill("Orchardson")
    expect(page.locator("#found")).not_to_contain_text("Orchardson")
    page.get_by_role("link", name="Add a customer").click()
    page.get_by_label("Name", exact=True).fill("Żaneta Orchardson")
    page.get_by_label("Street").fill("7 Rectangle Road")
    page.get_by_label("Town").fill("Ballythistle")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("link", name=re.compile("Add a site")).click()
    page.get_by_label("Name", exact=True).fill("Back lawn")
    page.get_by_label("local authority").fill("Backflow device with a yearly test")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", name="Back lawn")).to_be_visible()


def write_down_the_visit(page: Page) -> None:
    page.get_by_role("link", name="Write down a visit").click()
    page.get_by_label("Who measured").fill("Bram Spindle")
    worked = page.locator("#worked-supply")
    page.get_by_label("Volume to the mark").first.fill("5 gal")
    page.get_by_label("Time to fill").first.fill("45")
    page.get_by_label("Compare the bucket with a flow of").fill("8 gpm")
    expect(page.locator("#visit-form")).to_contain_text("6.67")
    expect(page.locator("#visit-form")).to_contain_text("25.2 L/min")
    expect(page.locator("#visit-form")).to_contain_text("37.5 s")
    page.get_by_label("Volume to the mark").first.fill("20")
    page.get_by_label("Time to fill").first.fill("30")
    page.get_by_label("Static pressure").fill("60 bar")
    page.get_by_role("button", name="Save the visit").click()
    expect(page.locator(".field.wrong")).to_contain_text("psi")
    page.get_by_label("Static pressure").fill("4.5")
    page.get_by_label("Flow that ran").first.fill("40")
    page.get_by_label("Residual pressure").first.fill("3.4")
    page.get_by_label("Inside diameter").fill("26.0")
    expect(worked).to_contain_text("30")
    page.get_by_role("button", name="Save the visit").click()
    expect(page.locator("main")).to_contain_text("4.5")
    page.get_by_role("link", name="Back lawn").first.click()


def import_the_plan(page: Page) -> None:
    page.get_by_role("link", name="Import a plan file").click()
    page.locator("input[type=file]").set_input_files(PLAN)
    page.get_by_role("button", name="Import").click()
    expect(page.get_by_text("nothing to stop for")).to_be_visible()
    expect(page.locator("#e-A1")).to_be_attached()
    expect(page.locator("#supply")).to_contain_text("30.0 L/min")
    page.get_by_text("Take away", exact=True).click()
    with page.expect_download() as download:
        page.get_by_role("link", name="JSON", exact=True).click()
    assert download.value.path().read_bytes()


def quote_and_send(page: Page) -> str:
    page.get_by_role("link", name="Quotes", exact=True).click()
    page.get_by_role("link", name=re.compile("New quote")).click()
    row = page.get_by_role("row").filter(has_text="Orchardson")
    row.get_by_role("button", name=re.compile("Work out a quote")).click()
    expect(page.locator("main")).to_contain_text("Swing joint")
    page.get_by_role("link", name="Issue", exact=True).click()
    page.get_by_role("button", name="Seal and issue").click()
    page.get_by_role("button", name="Make the customer's link").click()
    return page.get_by_label("Address").input_value()


def accept(page: Page, link: str) -> None:
    page.goto(link)
    expect(page.locator("main")).to_contain_text("Orchardson")
    with page.expect_download() as download:
        page.get_by_role("link", name=re.compile("PDF")).first.click()
    assert download.value.path().read_bytes().startswith(b"%PDF")
    page.get_by_role("button", name="Accept the offer").click()  # with nothing filled in: it stays
    expect(page.get_by_role("button", name="Accept the offer")).to_be_visible()
    page.get_by_label("name", exact=False).first.fill("Żaneta Orchardson")
    page.get_by_role("checkbox").last.check()
    page.get_by_role("button", name="Accept the offer").click()
    expect(page.locator("main")).to_contain_text("accepted")


def record_the_locate(page: Page, server: str) -> None:
    page.goto(f"{server}/")
    expect(page.locator("main")).to_contain_text("Orchardson")
    page.get_by_role("link", name="Jobs", exact=True).click()
    page.get_by_role("link", name=re.compile("Orchardson")).first.click()
    form = page.locator("#locate form").last
    form.get_by_label("Reference").fill("LOC-42")
    placed = timezone.localdate() - timedelta(days=12)
    form.get_by_label("Asked for on").fill(placed.isoformat())
    form.get_by_role("checkbox").check()
    form.get_by_role("button", name="Record the request").click()
    expect(page.locator("main")).to_contain_text("Digging open")


def no_sideways_scroll(page: Page) -> None:
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_a_job_from_the_first_call_to_the_first_spade(server, desk, customer_window, phone):
    log_in(desk, server, Role.OFFICE)
    add_customer_and_site(desk)
    write_down_the_visit(desk)
    import_the_plan(desk)
    link = quote_and_send(desk)

    accept(customer_window, link)
    customer_window.goto(link)
    expect(customer_window.get_by_role("button", name="Accept the offer")).to_have_count(0)
    quote = Quote.objects.get(site__customer__name="Żaneta Orchardson")
    assert quote.status == Status.ACCEPTED
    assert Acceptance.objects.get(quote=quote).name == "Żaneta Orchardson"

    log_in(phone, server, Role.INSTALLER)
    phone.get_by_role("link", name="Jobs", exact=True).click()
    phone.get_by_role("link", name=re.compile("Orchardson")).first.click()
    expect(phone.get_by_role("heading", name="Do not dig")).to_be_visible()
    no_sideways_scroll(phone)
    trench = phone.locator("article.task").filter(has=phone.get_by_text("Locked", exact=True)).first
    expect(trench).to_be_attached()

    record_the_locate(desk, server)
    phone.reload()
    expect(phone.get_by_role("heading", name="Dig only as marked")).to_be_visible()
    phone.locator("#stakes-rows").scroll_into_view_if_needed()
    expect(phone.locator("#stakes-rows")).to_contain_text("12.04")
    row = phone.locator("#stakes-rows article.task").first
    name = row.locator("h3").inner_text()
    row.get_by_role("button", name=re.compile("Done")).tap()
    expect(phone.locator("#stakes-rows article.done").first).to_contain_text(name)
    phone.reload()
    expect(phone.locator("#stakes-rows article.done").first).to_contain_text(name)
    for word in ("€", "EUR", "margin"):
        expect(phone.locator("main")).not_to_contain_text(word)
    no_sideways_scroll(phone)
