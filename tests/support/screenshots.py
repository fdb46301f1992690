"""The README's pictures, from a fresh demo: ``python -m tests.support.screenshots``."""

import os
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pypdfium2
from playwright.sync_api import Browser, Page, sync_playwright

from demo.people import LOGINS, PASSWORD
from tests.support.chromium import ARGUMENTS, find_chromium

ROOT = Path(__file__).resolve().parents[2]
PICTURES = ROOT / "docs" / "screenshots"
DESK = {"width": 1280, "height": 900}
PHONE = {"width": 360, "height": 740}


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def demo_server() -> Iterator[str]:
    """A demo with data of its own, and its address."""
    port = _free_port()
    with tempfile.TemporaryDirectory(prefix="trenchbook-pictures-") as folder:
        environment = {
            **os.environ,
            "TRENCHBOOK_PLAIN_HTTP": "yes",
            "TRENCHBOOK_DATA_DIR": folder,
            "PORT": str(port),
        }
        command = [sys.executable, "-m", "demo.serve"]
        server = subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
        try:
            _wait_for(f"http://127.0.0.1:{port}/health/")
            yield f"http://127.0.0.1:{port}"
        finally:
            server.terminate()
            server.wait(timeout=20)


def _wait_for(address: str) -> None:
    for _ in range(240):
        try:
            urllib.request.urlopen(address, timeout=2).close()
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.5)
        else:
            return
    raise RuntimeError(f"nothing answers at {address}")


def _window(browser: Browser, server: str, role: str, size: dict[str, int]) -> Page:
    page = browser.new_context(viewport=size, device_scale_factor=1.5).new_page()
    page.goto(f"{server}/account/login/")
    page.get_by_label("Email").fill(next(login.email for login in LOGINS if login.role == role))
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Log in").click()
    page.wait_for_url(f"{server}/")
    return page


def _take(page: Page, name: str) -> None:
    page.screenshot(path=PICTURES / f"{name}.png")


def take_desk(browser: Browser, server: str) -> str:
    """Plan, visit and quote as the owner sees them; gives back the customer's address."""
    page = _window(browser, server, "owner", DESK)
    page.goto(f"{server}/sites/1/plans/1/")
    _take(page, "plan")
    page.goto(f"{server}/visits/2/edit/")
    page.wait_for_load_state("networkidle")
    page.get_by_role("group", name="Bucket tests").scroll_into_view_if_needed()
    _take(page, "visit")
    page.goto(f"{server}/visits/1/ground/")
    page.wait_for_load_state("networkidle")
    _take(page, "ground")
    page.goto(f"{server}/sites/1/board/")
    page.get_by_text("Sums and zones").wait_for()
    page.wait_for_load_state("networkidle")
    _take(page, "board")
    page.goto(f"{server}/quotes/1/")
    _take(page, "quote")
    _proposal(page.context.request.get(f"{server}/quotes/1/pdf/").body())
    page.goto(f"{server}/quotes/2/")
    page.get_by_role("button", name="Make the customer's link").click()
    return page.get_by_label("Address").input_value()


def _proposal(pdf: bytes) -> None:
    first = pypdfium2.PdfDocument(pdf)[0]
    first.render(scale=1.6).to_pil().save(PICTURES / "proposal.png")


def take_phones(browser: Browser, server: str, customers_address: str) -> None:
    page = _window(browser, server, "installer", PHONE)
    page.goto(f"{server}/jobs/1/")
    _take(page, "job")
    page.goto(f"{server}/jobs/1/#stakes-rows")
    page.wait_for_timeout(300)
    _take(page, "stakeout")
    customer = browser.new_context(viewport=PHONE, device_scale_factor=1.5).new_page()
    customer.goto(customers_address)
    _take(customer, "customer")


def main() -> None:
    PICTURES.mkdir(parents=True, exist_ok=True)
    with demo_server() as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=ARGUMENTS)
        address = take_desk(browser, server)
        take_phones(browser, server, address)
        browser.close()
    print("wrote", ", ".join(sorted(path.name for path in PICTURES.glob("*.png"))))


if __name__ == "__main__":
    main()
