"""One person's hand at mouse and keyboard in a real browser, with every click and keystroke counted.

A character typed is one keystroke, so is Tab, and so is a key held down while clicking. A double click is
two clicks. What the page fills in by itself costs nothing.
"""

import json
import time
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Locator, Page, expect

At = tuple[float, float]
DOUBLE_CLICK_MS = 400
PATIENCE_MS = 10_000
LOOK_MS = 30

_BOARD = "document.getElementById('board-map').board"
STILL = f"() => {_BOARD}.toPixel([0, 0]) && !{_BOARD}.map.getView().getAnimating()"
PIXEL_OF = f"(at) => {_BOARD}.toPixel(at)"


class Hand:
    """Counts by stage; `stage` begins the next one."""

    def __init__(self, page: Page) -> None:
        self.page = page
        page.set_default_timeout(PATIENCE_MS)
        self.spent: dict[str, dict[str, int]] = {}
        self.stage("start")

    def stage(self, name: str) -> None:
        self.now = self.spent.setdefault(name, {"clicks": 0, "keys": 0})

    @property
    def clicks(self) -> int:
        return sum(stage["clicks"] for stage in self.spent.values())

    @property
    def keys(self) -> int:
        return sum(stage["keys"] for stage in self.spent.values())

    def account(self) -> str:
        lines = [
            f"{name}: {n['clicks']} clicks, {n['keys']} keys"
            for name, n in self.spent.items()
            if any(n.values())
        ]
        return "; ".join([*lines, f"together: {self.clicks} clicks, {self.keys} keys"])

    def click(self, target: Locator) -> None:
        self.now["clicks"] += 1
        target.click()

    def type(self, text: str) -> None:
        self.now["keys"] += len(text)
        self.page.keyboard.type(text)

    def type_first(self, text: str) -> None:
        """Into the field where the page puts the cursor by itself."""
        expect(self.page.locator("[autofocus]")).to_be_focused()
        self.type(text)

    def press(self, *keys: str) -> None:
        for key in keys:
            self.now["keys"] += len(key.split("+")) if len(key) > 1 else 1
            self.page.keyboard.press(key)

    def link(self, name: str) -> None:
        self.click(self.page.get_by_role("link", name=name, exact=True).first)

    def button(self, name: str) -> None:
        self.click(self.page.get_by_role("button", name=name, exact=True).first)

    def field(self, label: str, text: str) -> None:
        """Into a field clicked first; what stood there is typed over."""
        self.click(self.page.get_by_label(label).first)
        self.type(text)

    def choose(self, target: Locator, value: str) -> None:
        """Out of a list that the mouse opens: one click for the list, one for the line."""
        self.now["clicks"] += 2
        target.select_option(value)


class HandOnBoard:
    """The same hand on the drawing board: places are metres of the plan."""

    def __init__(self, hand: Hand) -> None:
        self.hand, self.page = hand, hand.page
        self.map = self.page.locator("#board-map")
        self.document: Any = None  # as it was last asked about
        self.page.on("request", self._note)

    @classmethod
    def opened(cls, hand: Hand) -> "HandOnBoard":
        """On the board that the hand has come to."""
        board = cls(hand)
        expect(board.page.locator("#board-tools [aria-pressed=true]")).to_be_visible()
        return board

    def pixel(self, east: float, north: float) -> At:
        """Where that place lies on the screen, as the map itself has it."""
        self.page.wait_for_function(STILL)
        x, y = self.page.evaluate(PIXEL_OF, [east, north])
        box = self.map.bounding_box()
        assert box is not None
        return box["x"] + x, box["y"] + y

    def click(self, *places: At, holding: str = "") -> None:
        for at in places:
            self.hand.now["clicks"] += 1
            self.page.mouse.move(*self.pixel(*at))
            if holding:
                self.hand.now["keys"] += 1
                self.page.keyboard.down(holding)
            self.page.mouse.click(*self.pixel(*at))
            if holding:
                self.page.keyboard.up(holding)

    def drag(self, start: At, end: At) -> None:
        self.hand.now["clicks"] += 1
        (x1, y1), (x2, y2) = self.pixel(*start), self.pixel(*end)
        self.page.mouse.move(x1, y1)
        self.page.mouse.down()
        self.page.mouse.move((x1 + x2) / 2, (y1 + y2) / 2, steps=3)
        self.page.mouse.move(x2, y2, steps=3)
        self.page.mouse.up()

    def figures(self, *texts: str) -> None:
        """Typed while a tool is in hand."""
        for text in texts:
            self.hand.type(text)
            self.hand.press("Enter")
            expect(self.page.locator("#board-typed")).to_be_hidden()

    def choose(self, label: str, code: str) -> None:
        self.hand.choose(self.page.locator("#board").get_by_label(label, exact=True).first, code)

    def rest(self) -> None:
        """As long as a person takes not to have clicked twice."""
        self.page.wait_for_timeout(DOUBLE_CLICK_MS)

    def _note(self, request: Any) -> None:
        if request.method == "POST" and request.url.endswith("/board/check/"):
            self.document = json.loads(request.post_data)["document"]

    def until(self, holds: Callable[[Any], Any]) -> None:
        """Waits for a document of which this holds."""
        end = time.monotonic() + PATIENCE_MS / 1000
        while not (self.document and holds(self.document)):
            assert time.monotonic() < end, json.dumps(self.document)[:3000]
            self.page.wait_for_timeout(LOOK_MS)

    def keep(self, name: str) -> None:
        self.hand.button("Keep as revision")
        self.hand.type(name)
        self.hand.press("Enter")
        expect(self.page.get_by_role("heading", name="Plan, revision")).to_be_visible()
