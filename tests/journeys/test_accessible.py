"""Pages and their states held to WCAG 2.2 AA by axe-core's rules, and to a browser console without a word."""

import pytest
from playwright.sync_api import expect

from demo.loading import load_demo
from jobs.models import Job
from office.models import Person, Role
from quoting.drafting import draft_quote
from quoting.models import Quote
from quoting.services import make_link
from sites.models import Site, Visit
from sites.picture_services import keep_picture
from sites.plan_services import add_plan_revision
from tests.journeys.board_window import open_window
from tests.journeys.hand import Hand, HandOnBoard
from tests.journeys.page_faults import Watched
from tests.sites.pictures import upload

pytestmark = [pytest.mark.journey, pytest.mark.django_db(transaction=True)]
PHONE_PX = 360
DESK_PX = 1280
WIDE = ("/board/", "/ground/", "/trace/")  # laid out otherwise on a desk
MEASURED = "Quince House"  # whose ground has been measured
HEAD_AT = (3, 9)  # of A2, in the plan of that site


def someone(role: Role) -> Person:
    return Person.objects.filter(role=role).earliest("pk")


@pytest.fixture
def open_page(browser, live_server):
    """A watched page of the loaded demo at this width, for somebody of this role."""
    load_demo()
    windows, pages = [], []

    def opened(role: Role, width: int) -> Watched:
        viewport = {"width": width, "height": 800}
        windows.append(open_window(browser, live_server.url, someone(role), viewport=viewport))
        pages.append(Watched(windows[-1].new_page()))
        return pages[-1]

    yield opened
    for window in windows:
        window.close()
    assert [fault for page in pages for fault in page.faults] == []


def addresses() -> list[str]:
    """What somebody of the office opens from the first call to the quote."""
    site = Site.objects.get(name=MEASURED)
    visit, plan = site.visits.get(survey__isnull=False), site.plans.latest("number")
    visit_parts = ["", "edit/", "ground/", "levels/", "trace/", "walk/", "walk/print/", "photos/", "leaving/"]
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


@pytest.mark.parametrize("width", [DESK_PX, PHONE_PX])
def test_the_offices_pages(open_page, live_server, width):
    watched = open_page(Role.OWNER, width)
    for at in addresses():
        if width == PHONE_PX or at.endswith(WIDE):
            watched.open(live_server.url + at)
    watched.open(f"{live_server.url}/quotes/{offer().pk}/")


def test_a_refused_visit_on_the_phone(open_page, live_server):
    watched = open_page(Role.OWNER, PHONE_PX)
    visit = Visit.objects.filter(site__name=MEASURED).latest("pk")
    watched.open(f"{live_server.url}/visits/{visit.pk}/edit/")
    watched.page.get_by_label("Static pressure").first.fill("a lot")
    watched.refused("Save the visit")
    expect(watched.page.locator(".errorlist").first).to_be_visible()


def test_a_line_of_the_walk_kept_in_a_box_made_taller(open_page, live_server):
    watched = open_page(Role.OWNER, PHONE_PX)
    visit = Visit.objects.filter(site__name=MEASURED).latest("pk")
    watched.open(f"{live_server.url}/visits/{visit.pk}/walk/")
    line = watched.page.locator("#line-wishes")
    box = line.locator("textarea")
    box.evaluate("box => box.style.height = '9rem'")  # as dragging its corner does
    box.fill("Drip in the bed")
    line.locator(".keep button").first.click()
    expect(line.locator(".said")).to_contain_text("Drip in the bed")
    watched.look("one line kept")


def second_revision(site: Site, by: Person) -> None:
    """The same with a note on the lawn."""
    first = site.plans.get()
    notes = [
        *first.document["layout"].get("notes", []),
        {"id": "N9", "at": [10, 10], "text": "Mind the root"},
    ]
    document = {**first.document, "layout": {**first.document["layout"], "notes": notes}}
    add_plan_revision(site=site, document=document, began_from=first.number, by=by, name="With a note")


def test_what_comes_later_in_the_office(open_page, live_server):
    watched = open_page(Role.OWNER, PHONE_PX)
    owner = someone(Role.OWNER)
    site = Site.objects.get(name=MEASURED)
    second_revision(site, owner)
    quote = draft_quote(plan=site.plans.latest("number"), by=owner)
    watched.open(f"{live_server.url}/sites/{site.pk}/plans/compare/")
    assert watched.page.locator("svg").count() >= 2
    watched.open(f"{live_server.url}/quotes/{quote.pk}/issue/")


@pytest.mark.parametrize("width", [DESK_PX, PHONE_PX])
def test_a_picture_to_draw_over(open_page, live_server, width):
    watched = open_page(Role.OWNER, width)
    site = Site.objects.get(name=MEASURED)
    picture = keep_picture(site=site, upload=upload(), by=someone(Role.OWNER))
    watched.open(f"{live_server.url}/visits/{site.visits.latest('pk').pk}/trace/?picture={picture.pk}")
    expect(watched.page.locator("#trace-map canvas").first).to_be_visible()


@pytest.mark.parametrize("width", [DESK_PX, PHONE_PX])
def test_the_board_with_a_head_selected_and_the_question_of_keeping(open_page, live_server, width):
    watched = open_page(Role.OFFICE, width)
    page = watched.page
    page.goto(f"{live_server.url}/sites/{Site.objects.get(name=MEASURED).pk}/board/")
    board = HandOnBoard.opened(Hand(page))
    board.click(HEAD_AT)
    expect(page.locator("#board-properties h3")).to_contain_text("A2")
    watched.look("board, a head selected")
    page.get_by_role("button", name="Keep as revision").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    watched.look("and the question of keeping")


def test_the_crews_job_on_the_phone(open_page, live_server):
    watched = open_page(Role.INSTALLER, PHONE_PX)
    job = Job.objects.get()
    watched.open(f"{live_server.url}/jobs/")
    watched.open(f"{live_server.url}/jobs/{job.pk}/")
    watched.open(f"{live_server.url}/jobs/{job.pk}/plan/")


def test_what_is_seen_without_a_login(customer_window, live_server):
    load_demo()
    quote = offer()
    token = make_link(quote=quote, by=quote.made_by).token
    watched = Watched(customer_window)
    watched.open(f"{live_server.url}/o/{token}/")
    customer_window.context.clear_cookies()
    watched.open(f"{live_server.url}/")
    assert watched.faults == []
