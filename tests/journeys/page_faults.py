"""What axe-core's rules for WCAG 2.2 AA and the browser's console say against a page, in any state of it."""

from pathlib import Path
from typing import Any

from playwright.sync_api import ConsoleMessage, Page

AXE = Path(__file__).resolve().parents[2] / "node_modules/axe-core/axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
SETTLE_MS = 150
# What is folded away is kept from the rules too.
UNFOLD = "document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })"
# Nothing is fetched again, so that the rules themselves cause no word in the console.
RUN = f"axe.run(document, {{runOnly: {TAGS}, preload: false}}).then((found) => found.violations.map("
RUN += "(rule) => rule.id + ': ' + rule.nodes.map((node) => node.target.join(' ')).join(', ')))"


class Watched:
    """A page, and all that was said against it since it was opened."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.faults: list[str] = []
        self.state = ""
        self._expected = ""
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self._note(f"error: {error}"))

    def _note(self, fault: str) -> None:
        self.faults.append(f"{self.state} {fault}")

    def _hear(self, message: ConsoleMessage) -> None:
        if message.type != "error":
            return
        # The browser reports every answer of 4xx, also where a refused form is what is wanted.
        if self._expected and message.text.startswith("Failed to load") and self._expected in message.text:
            return
        self._note(f"console: {message.text}")

    def open(self, address: str) -> None:
        self.state = address
        answer = self.page.goto(address, wait_until="load")
        assert answer is not None
        assert answer.status == 200, address
        self.page.evaluate(UNFOLD)
        self.look()

    def refused(self, button: str) -> None:
        """Sends the form in which something is wrong, and looks at what comes back."""
        self.state, self._expected = f"{self.state} refused", "422"
        with self.page.expect_response(lambda answer: answer.status == 422):
            self.page.get_by_role("button", name=button, exact=True).last.click()
        self.page.wait_for_load_state()
        self.look()
        self._expected = ""

    def look(self, state: str = "") -> None:
        """Holds the page as it stands to the rules."""
        self.state = f"{self.state} {state}".strip()
        self.page.wait_for_timeout(SETTLE_MS)
        for fault in violations(self.page):
            self._note(fault)


def violations(page: Page) -> list[str]:
    # The browser's own protocol is not bound by the page's content security policy.
    protocol = page.context.new_cdp_session(page)
    protocol.send("Runtime.evaluate", {"expression": AXE.read_text(encoding="utf-8")})
    answer: dict[str, Any] = protocol.send(
        "Runtime.evaluate", {"expression": RUN, "awaitPromise": True, "returnByValue": True}
    )
    assert "exceptionDetails" not in answer, answer
    found: list[str] = answer["result"]["value"]
    return found
