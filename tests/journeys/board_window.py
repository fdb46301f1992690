"""A drawing board in a real browser: where metres lie on the screen, and what it last had checked."""

import json
import time
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.conftest import client_of

PATIENCE_S = 6.0


def open_window(browser: Browser, server: str, person: Any, **context: Any) -> BrowserContext:
    """A window in which this person is logged in."""
    window = browser.new_context(**{"viewport": {"width": 1280, "height": 900}, **context})
    cookies = client_of(person).cookies
    window.add_cookies([{"name": "sessionid", "value": cookies["sessionid"].value, "url": server}])
    return window


def marks_of(document: Any) -> list[Any]:
    marks: list[Any] = document.get("ground", {}).get("marks", [])
    return marks


class Board:
    """One page of the board. Nothing is read from its scripts, only what they send and show."""

    def __init__(self, window: BrowserContext, server: str, site_pk: int) -> None:
        self.page: Page = window.new_page()
        self.errors: list[str] = []
        self.spent = {"clicks": 0, "keys": 0}
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("request", self._note)
        self.page.goto(f"{server}/sites/{site_pk}/board/")
        self.map = self.page.locator("#board-map")
        expect(self.page.locator("#board-tools [aria-pressed=true]")).to_be_visible()
        self.document: Any = json.loads(self.page.locator("#board-data").text_content() or "")["document"]
        self.page.wait_for_timeout(300)
        self._scale = self._measured_scale()

    def _note(self, request: Any) -> None:
        if request.url.endswith("/board/check/"):
            self.document = json.loads(request.post_data)["document"]

    def until(self, holds: Callable[[Any], Any]) -> Any:
        """Waits for a document of which this holds; gives what it gave."""
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            if found := holds(self.document):
                return found
            self.page.wait_for_timeout(40)
        raise AssertionError(json.dumps(self.document)[:3000])

    def _measured_scale(self) -> tuple[float, float, float, float, float]:
        """Two marks set without snapping tell where the plan lies on the screen; then they go again."""
        box = self.map.bounding_box()
        assert box is not None
        first, second = (box["width"] * 0.25, box["height"] * 0.4), (box["width"] * 0.7, box["height"] * 0.75)
        had = len(marks_of(self.document))
        self.press("m")
        self.page.keyboard.down("Shift")
        for x, y in (first, second):
            self.page.mouse.click(box["x"] + x, box["y"] + y)
            self.page.wait_for_timeout(30)
        self.page.keyboard.up("Shift")
        marks = self.until(lambda doc: len(marks_of(doc)) == had + 2 and marks_of(doc)[had:])
        (x1, y1), (x2, _) = marks[0]["at"], marks[1]["at"]
        for key in ("Control+z", "Control+z", "Escape"):
            self.press(key)
        self.until(lambda doc: len(marks_of(doc)) == had)
        metres = (x2 - x1) / (second[0] - first[0])
        return box["x"] + first[0], box["y"] + first[1], x1, y1, metres

    def pixel(self, east: float, north: float) -> tuple[float, float]:
        px, py, x, y, metres = self._scale
        return px + (east - x) / metres, py - (north - y) / metres

    def press(self, *keys: str) -> None:
        for key in keys:
            self.spent["keys"] += 1
            self.page.keyboard.press(key)

    def figure(self, text: str) -> None:
        self.spent["keys"] += len(text)
        self.page.keyboard.type(text)
        self.press("Enter")
        expect(self.page.locator("#board-typed")).to_be_hidden()

    def choose(self, label: str, code: str) -> None:
        """Out of a list, by two clicks; then back to the plan."""
        self.spent["clicks"] += 2
        self.page.get_by_label(label, exact=True).first.select_option(code)
        self.map.focus()

    def look_again(self) -> None:
        """After the plan has moved on the screen."""
        self.page.wait_for_timeout(400)
        self._scale = self._measured_scale()

    def click(self, east: float, north: float, **options: Any) -> None:
        self.spent["clicks"] += 1
        self.page.mouse.move(*self.pixel(east, north))
        if key := options.get("holding"):
            self.page.keyboard.down(key)
        self.page.mouse.click(*self.pixel(east, north), click_count=options.get("count", 1))
        if key:
            self.page.keyboard.up(key)

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        self.page.mouse.move(*self.pixel(*start))
        self.page.mouse.down()
        self.page.mouse.move(*self.pixel((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), steps=3)
        self.page.mouse.move(*self.pixel(*end), steps=3)
        self.page.mouse.up()


class Finger:
    """Touches as the browser's own protocol sends them."""

    def __init__(self, board: Board, window: BrowserContext) -> None:
        self.board = board
        self.protocol = window.new_cdp_session(board.page)

    def _send(self, kind: str, *places: tuple[float, float]) -> None:
        points = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(places)]
        self.protocol.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def tap(self, east: float, north: float, held_ms: int = 30) -> None:
        self._send("touchStart", self.board.pixel(east, north))
        self.board.page.wait_for_timeout(held_ms)
        self._send("touchEnd")
        self.board.page.wait_for_timeout(400)  # two quick taps would be a double one

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        (x1, y1), (x2, y2) = self.board.pixel(*start), self.board.pixel(*end)
        self._send("touchStart", (x1, y1))
        for step in range(1, 6):
            self._send("touchMove", (x1 + (x2 - x1) * step / 5, y1 + (y2 - y1) * step / 5))
            self.board.page.wait_for_timeout(20)
        self._send("touchEnd")

    def pinch(self, middle: tuple[float, float], from_px: float, to_px: float) -> None:
        """Two fingers one after the other, as far apart as that, then that far."""
        x, y = self.board.pixel(*middle)
        self._send("touchStart", (x - from_px / 2, y))
        self.board.page.wait_for_timeout(20)
        self._send("touchStart", (x - from_px / 2, y), (x + from_px / 2, y))
        for step in range(1, 9):
            half = (from_px + (to_px - from_px) * step / 8) / 2
            self._send("touchMove", (x - half, y), (x + half, y))
            self.board.page.wait_for_timeout(20)
        self._send("touchEnd")
