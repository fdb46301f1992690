"""Pages held to WCAG 2.2 AA by axe-core's rules, and to a browser console without a word."""

from pathlib import Path

import pytest

from demo.loading import load_demo
from office.models import Person, Role
from quoting.models import Quote
from quoting.services import make_link
from sites.models import Visit
from tests.journeys.board_window import open_window

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]
AXE = Path(__file__).resolve().parents[2] / "node_modules/axe-core/axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PHONE_PX = 360
WIDE = ("/board/", "/ground/", "/trace/")  # laid out otherwise on a desk
# Nothing is fetched again, so that the rules themselves cause no word in the console.
RUN = f"axe.run(document, {{runOnly: {TAGS}, preload: false}}).then((found) => found.violations.map("
RUN += "(rule) => rule.id + ': ' + rule.nodes.map((node) => node.target.join(' ')).join(', ')))"


def addresses() -> list[str]:
    """What somebody of the office opens from the first call to the quote."""
    visit = Visit.objects.filter(site__plans__isnull=False).latest("pk")
    plan = visit.site.plans.latest("number")
    visit_parts = ["", "edit/", "ground/", "levels/", "trace/", "walk/", "walk/print/", "photos/", "leaving/"]
    site = visit.site
    return [
        "/",
        "/customers/",
        f"/customers/{site.customer_id}/",
        f"/sites/{site.pk}/",
        f"/sites/{site.pk}/board/",
        f"/sites/{site.pk}/ground-file/",
        f"/sites/{site.pk}/plans/{plan.number}/",
        *(f"/visits/{visit.pk}/{part}" for part in visit_parts),
    ]


def offer() -> Quote:
    return Quote.objects.exclude(status="draft").latest("pk")


def faults_of(page, address: str) -> list[str]:
    """What the rules and the console say against this page."""
    said: list[str] = []

    def note(message) -> None:
        if message.type == "error":
            said.append(f"console: {message.text}")

    page.on("console", note)
    answer = page.goto(address, wait_until="load")
    page.wait_for_timeout(150)
    assert answer is not None
    assert answer.status == 200, address
    page.remove_listener("console", note)
    return [f"{address} {fault}" for fault in said + violations(page)]


def violations(page) -> list[str]:
    # The browser's own protocol is not bound by the page's content security policy.
    protocol = page.context.new_cdp_session(page)
    protocol.send("Runtime.evaluate", {"expression": AXE.read_text(encoding="utf-8")})
    answer = protocol.send(
        "Runtime.evaluate", {"expression": RUN, "awaitPromise": True, "returnByValue": True}
    )
    assert "exceptionDetails" not in answer, answer
    found: list[str] = answer["result"]["value"]
    return found


@pytest.mark.parametrize("width", [1280, PHONE_PX])
def test_the_offices_pages(browser, live_server, width):
    load_demo()
    owner = Person.objects.filter(role=Role.OWNER).earliest("pk")
    window = open_window(browser, live_server.url, owner, viewport={"width": width, "height": 800})
    page = window.new_page()
    quote = offer()
    opened = addresses() if width == PHONE_PX else [at for at in addresses() if at.endswith(WIDE)]
    found = [fault for at in opened for fault in faults_of(page, live_server.url + at)]
    found += faults_of(page, f"{live_server.url}/quotes/{quote.pk}/")
    window.close()
    assert found == []


def test_what_is_seen_without_a_login(customer_window, live_server):
    load_demo()
    quote = offer()
    token = make_link(quote=quote, by=quote.made_by).token
    found = faults_of(customer_window, f"{live_server.url}/o/{token}/")
    customer_window.context.clear_cookies()
    found += faults_of(customer_window, f"{live_server.url}/")
    assert found == []
