"""The days that do not count as notice."""

import pytest
from django.urls import reverse

from jobs.models import Holiday
from office.models import AuditEvent

pytestmark = pytest.mark.django_db


def test_a_day_is_added_once_and_removed(clerk_client):
    url = reverse("jobs:holidays")
    data = {"date": "2031-05-01", "name": "May Day"}
    assert clerk_client.post(url, data).status_code == 302
    again = clerk_client.post(url, data)
    assert again.status_code == 400
    assert "in the list already" in again.content.decode()
    holiday = Holiday.objects.get()
    assert "May Day" in clerk_client.get(url).content.decode()
    assert clerk_client.post(reverse("jobs:holiday_remove", args=[holiday.pk])).status_code == 302
    assert not Holiday.objects.exists()
    assert set(AuditEvent.objects.values_list("verb", flat=True)) == {"holiday.added", "holiday.removed"}


@pytest.mark.parametrize(
    "wrong", [{"date": "", "name": "x"}, {"date": "2031-02-30", "name": "x"}, {"date": "2031-05-01"}]
)
def test_bad_input(clerk_client, wrong):
    assert clerk_client.post(reverse("jobs:holidays"), wrong).status_code == 400
    assert not Holiday.objects.exists()
