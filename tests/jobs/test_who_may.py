"""Who may open which page of the jobs, with which method."""

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from tests.jobs.makers import make_locate

pytestmark = pytest.mark.django_db

STAFF = ["jobs:list", "jobs:job", "jobs:plan"]
OFFICE = ["jobs:office", "jobs:holidays"]
POSTS = [
    "jobs:check_off", "jobs:schedule", "jobs:locate_add", "jobs:locate_amend", "jobs:override",
    "jobs:booking", "jobs:finish", "jobs:reopen", "jobs:make", "jobs:holiday_remove",
]  # fmt: skip


@pytest.fixture
def url_of(job, clerk):
    locate = make_locate(job, clerk)
    task = job.tasks.first()
    arguments = {
        "jobs:list": [], "jobs:holidays": [], "jobs:holiday_remove": [1], "jobs:make": [job.quote_id],
        "jobs:check_off": [job.pk, task.pk], "jobs:locate_amend": [job.pk, locate.pk],
        "jobs:booking": [job.pk, "plumber"],
    }  # fmt: skip
    return lambda name: reverse(name, args=arguments.get(name, [job.pk]))


@pytest.mark.parametrize("name", STAFF)
def test_everybody_who_works_here_reads(url_of, owner_client, clerk_client, installer_client, name):
    for client in (owner_client, clerk_client, installer_client):
        assert client.get(url_of(name)).status_code == 200
        assert client.post(url_of(name)).status_code == 405


@pytest.mark.parametrize("name", OFFICE)
def test_the_office_side_is_for_the_office(url_of, owner_client, clerk_client, installer_client, name):
    assert owner_client.get(url_of(name)).status_code == 200
    assert clerk_client.get(url_of(name)).status_code == 200
    assert installer_client.get(url_of(name)).status_code == 403
    assert clerk_client.delete(url_of(name)).status_code == 405


@pytest.mark.parametrize("name", STAFF + OFFICE)
def test_nobody_else_reads(url_of, name):
    answer = Client().get(url_of(name))
    assert answer.status_code == 302
    assert "/account/login/" in answer.url


@pytest.mark.parametrize("name", POSTS)
def test_writes_are_posts_by_people_logged_in(url_of, clerk_client, name):
    assert clerk_client.get(url_of(name)).status_code == 405
    answer = Client().post(url_of(name))
    assert answer.status_code == 302
    assert "/account/login/" in answer.url


@pytest.mark.parametrize("name", [name for name in POSTS if name != "jobs:check_off"])
def test_an_installer_arranges_nothing(url_of, installer_client, name):
    assert installer_client.post(url_of(name)).status_code == 403


def test_what_is_not_there_is_not_found(job, clerk_client):
    for name in ("jobs:job", "jobs:plan", "jobs:office"):
        assert clerk_client.get(reverse(name, args=[999_999])).status_code == 404
    for url in (
        reverse("jobs:locate_amend", args=[job.pk, 999_999]),
        reverse("jobs:booking", args=[job.pk, "gardener"]),
        reverse("jobs:holiday_remove", args=[999_999]),
        reverse("jobs:check_off", args=[job.pk, 999_999]),
    ):
        assert clerk_client.post(url).status_code == 404


def test_a_finished_job_leaves_the_installers_list(job, clerk_client, installer_client):
    job.finished_at = timezone.now()
    job.save()
    assert installer_client.get(reverse("jobs:job", args=[job.pk])).status_code == 404
    assert clerk_client.get(reverse("jobs:job", args=[job.pk])).status_code == 200


def test_a_post_without_the_token_is_refused(job, installer):
    client = Client(enforce_csrf_checks=True)
    client.force_login(installer, backend="allauth.account.auth_backends.AuthenticationBackend")
    task = job.tasks.first()
    assert client.post(reverse("jobs:check_off", args=[job.pk, task.pk])).status_code == 403
