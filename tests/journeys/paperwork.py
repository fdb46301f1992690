"""What is typed before anything is drawn: the customer, the site, the readings of the visit."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import expect

from sites.models import Customer
from tests.journeys.hand import Hand

CUSTOMER = "Tilda Brackenwood"


@dataclass(frozen=True)
class Readings:
    """As they stand on the sheet, in bar, litres, seconds, L/min and millimetres."""

    static: str
    flow: str
    residual: str
    buckets: Sequence[tuple[str, str]]
    bore: str = ""


def add_customer_and_site(hand: Hand, site: str) -> None:
    hand.stage("customer and site")
    hand.link("Customers")
    hand.link("Add a customer")
    hand.type_first(CUSTOMER)
    hand.press("Enter")
    hand.link("Add a site")
    hand.type_first(site)
    hand.press("Enter")


def write_down_the_visit(hand: Hand, readings: Readings) -> None:
    hand.stage("visit")
    hand.link("Write down a visit")
    hand.field("Static pressure", readings.static)
    for number, (litres, seconds) in enumerate(readings.buckets):
        if number:
            hand.press("Tab", "Tab")
            hand.type(litres)
        else:
            hand.field("Volume to the mark", litres)
        hand.press("Tab")
        hand.type(seconds)
    hand.field("Flow that ran", readings.flow)
    hand.press("Tab")
    hand.type(readings.residual)
    if readings.bore:
        hand.field("Inside diameter", readings.bore)
    hand.press("Enter")
    expect(hand.page.locator("main")).to_contain_text("design for no more than")


def the_revision() -> Any:
    """The one that was kept."""
    return Customer.objects.get(name=CUSTOMER).sites.get().plans.get()
