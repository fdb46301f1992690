"""Locate requests: dates, answers, renewal, and digging without one."""

from datetime import date, timedelta

import pytest
import time_machine
from django.urls import reverse
from django.utils import timezone

from jobs.digging import digging_on
from jobs.errors import Refused
from jobs.models import DigOverride, Holiday, Locate, TaskKind
from jobs.services import LocateTerms, amend_locate, override_dig, record_locate
from jobs.task_state import latest_results
from office.models import AuditEvent
from office.versions import Clash
from tests.jobs.makers import make_locate

pytestmark = pytest.mark.django_db
MONDAY = date(2026, 12, 21)


def at(day):
    return time_machine.travel(f"{day}T09:00:00Z", tick=False)


def test_dates_are_worked_out_with_the_holidays_of_the_office(job, clerk):
    Holiday.objects.create(date=date(2026, 12, 25), name="Christmas")
    with at(MONDAY):
        locate = record_locate(job=job, terms=LocateTerms("LR-1", MONDAY), by=clerk)
    # 4 full working days: Tue 22, Wed 23, Thu 24, Mon 28; digging on Tue 29. Valid 21 days from the request.
    assert locate.clear_from == date(2026, 12, 29)
    assert locate.expires_on == date(2027, 1, 11)
    task = job.tasks.get(kind=TaskKind.LOCATE)
    assert latest_results(job)[task.pk] == "done"
    assert AuditEvent.objects.filter(verb="locate.recorded").exists()


@pytest.mark.parametrize(
    ("terms", "field"),
    [
        (LocateTerms("X", date(2026, 12, 22)), "placed_on"),
        (LocateTerms("X", date(2026, 9, 1)), "placed_on"),
        (LocateTerms("X", MONDAY, clear_from=date(2026, 12, 23)), "clear_from"),
        (LocateTerms("X", MONDAY, expires_on=date(2026, 12, 22)), "expires_on"),
    ],
)
def test_dates_that_cannot_be_are_refused_beside_their_field(job, clerk, terms, field):
    with at(MONDAY), pytest.raises(Refused) as refusal:
        record_locate(job=job, terms=terms, by=clerk)
    assert refusal.value.field == field
    assert not Locate.objects.exists()


def test_digging_opens_and_closes_with_the_dates(job, clerk):
    today = timezone.localdate()
    assert digging_on(job, today).state == "none"
    locate = make_locate(job, clerk, clear_in=0, valid=5)
    states = {offset: digging_on(job, today + timedelta(days=offset)).state for offset in (-1, 0, 5, 6)}
    assert states == {-1: "waiting", 0: "valid", 5: "valid", 6: "expired"}
    locate.answers_complete = False
    locate.save()
    assert digging_on(job, today).state == "unanswered"


def test_a_renewal_replaces_the_expired_one(job, clerk):
    make_locate(job, clerk, clear_in=-30, valid=10)
    assert digging_on(job, timezone.localdate()).state == "expired"
    make_locate(job, clerk, clear_in=-1)
    assert digging_on(job, timezone.localdate()).state == "valid"


def test_two_people_amending_do_not_overwrite_each_other(job, clerk, owner):
    locate = make_locate(job, clerk, answered=False)
    terms = LocateTerms("LR-9", locate.placed_on, locate.clear_from, locate.expires_on, "", True)
    amend_locate(locate=locate, terms=terms, began_from=1, by=owner)
    with pytest.raises(Clash):
        amend_locate(locate=locate, terms=terms, began_from=1, by=clerk)
    assert Locate.objects.get().reference == "LR-9"


def test_an_override_needs_a_name_a_reason_and_an_end(job, owner):
    today = timezone.localdate()
    with pytest.raises(Refused, match="ends today or within 7 days"):
        override_dig(job=job, name="Olga", reason="x", last_day=today + timedelta(days=8), by=owner)
    with pytest.raises(Refused):
        override_dig(job=job, name="Olga", reason="x", last_day=today - timedelta(days=1), by=owner)
    override_dig(job=job, name="Olga Test", reason="Ground dug by hand", last_day=today, by=owner)
    digging = digging_on(job, today)
    assert digging.state == "overridden"
    assert "Olga Test" in digging.sentence
    assert "Ground dug by hand" in digging.sentence
    assert digging_on(job, today + timedelta(days=1)).state == "none"
    assert digging_on(job, today - timedelta(days=1)).state == "none"  # it does not reach back
    event = AuditEvent.objects.get(verb="job.dig_overridden")
    assert event.detail["reason"] == "Ground dug by hand"


def locate_data(**changes):
    today = timezone.localdate()
    return {"reference": "LR-7", "placed_on": str(today), "members": "Gas: marked", **changes}


def test_the_office_records_a_request(job, clerk_client):
    answer = clerk_client.post(reverse("jobs:locate_add", args=[job.pk]), locate_data(answers_complete="on"))
    assert answer.status_code == 302
    locate = Locate.objects.get()
    assert locate.answers_complete
    assert locate.clear_from > timezone.localdate()


def test_wrong_dates_come_back_with_what_was_typed(job, clerk_client):
    url = reverse("jobs:locate_add", args=[job.pk])
    tomorrow = str(timezone.localdate() + timedelta(days=1))
    page = clerk_client.post(url, locate_data(placed_on=tomorrow))
    assert page.status_code == 400
    text = page.content.decode()
    assert "cannot have been placed in the future" in text
    assert "LR-7" in text
    assert tomorrow in text
    for wrong in ({"reference": ""}, {"placed_on": "soon"}, {"clear_from": str(timezone.localdate())}):
        assert clerk_client.post(url, locate_data(**wrong)).status_code == 400
    assert not Locate.objects.exists()


def test_amending_shows_both_versions_after_a_clash(job, clerk, clerk_client):
    locate = make_locate(job, clerk, answered=False)
    url = reverse("jobs:locate_amend", args=[job.pk, locate.pk])
    data = {
        "reference": "mine", "placed_on": str(locate.placed_on), "clear_from": str(locate.clear_from),
        "expires_on": str(locate.expires_on), "version": "1",
    }  # fmt: skip
    assert clerk_client.post(url, data | {"reference": "theirs"}).status_code == 302
    page = clerk_client.post(url, data)
    assert page.status_code == 409
    text = page.content.decode()
    assert "mine" in text
    assert "theirs" in text
    assert 'name="version" value="2"' in text
    assert clerk_client.post(url, data | {"version": "2"}).status_code == 302
    assert Locate.objects.get().reference == "mine"


def test_override_by_the_page(job, clerk_client):
    url = reverse("jobs:override", args=[job.pk])
    today = str(timezone.localdate())
    for wrong in (
        {"name": "", "reason": "x", "last_day": today},
        {"name": "Ola", "reason": " ", "last_day": today},
        {"name": "Ola", "reason": "x", "last_day": ""},
        {"name": "Ola", "reason": "x", "last_day": "2099-01-01"},
    ):
        assert clerk_client.post(url, wrong).status_code == 400
    assert not DigOverride.objects.exists()
    answer = clerk_client.post(url, {"name": "Ola", "reason": "Only topsoil is moved", "last_day": today})
    assert answer.status_code == 302
    page = clerk_client.get(reverse("jobs:job", args=[job.pk])).content.decode()
    assert "Digging without a valid locate" in page
    assert "Only topsoil is moved" in page
