"""A real browser against a real server."""

import os

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.journeys.board_window import open_window
from tests.journeys.hand import Hand
from tests.sites.makers import take_in_parts
from tests.support.chromium import ARGUMENTS, OPT_OUT, NoChromium, find_chromium


@pytest.fixture(scope="session")
def browser() -> Browser:
    if os.environ.get(OPT_OUT) == "yes":
        pytest.skip(f"left out by {OPT_OUT}")
    try:
        path = find_chromium()
    except NoChromium as reason:
        pytest.fail(str(reason), pytrace=False)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture
def desk(browser):
    """A wide window at the desk."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True)
    yield context.new_page()
    context.close()


@pytest.fixture
def customer_window(browser):
    """Somebody else's browser, without a login."""
    context = browser.new_context(viewport={"width": 390, "height": 800}, accept_downloads=True)
    yield context.new_page()
    context.close()


@pytest.fixture
def phone(browser):
    """An installer's phone, 360 px wide, touched with a thumb."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    yield context.new_page()
    context.close()


@pytest.fixture
def hand(browser, live_server, clerk):
    """Somebody of the office at the desk, logged in, with the parts book and no customer yet."""
    take_in_parts()
    window = open_window(browser, live_server.url, clerk)
    hand = Hand(window.new_page())
    faults = []
    hand.page.on("pageerror", lambda error: faults.append(str(error)))
    hand.page.goto(live_server.url)
    yield hand
    window.close()
    assert faults == []
