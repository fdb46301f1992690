"""The jobs API: reading and checking off."""

import uuid

import pytest
from django.test import Client
from django.utils import timezone

from jobs.models import CheckOff
from tests.jobs.makers import make_job, make_locate

pytestmark = pytest.mark.django_db


def post(client, job, **changes):
    task = job.tasks.filter(kind="stake").first()
    data = {"id": str(uuid.uuid4()), "task": task.pk, "result": "done", **changes}
    return client.post(f"/api/jobs/{job.pk}/checkoffs/", data, content_type="application/json")


def test_the_list(job, owner_client, clerk_client, installer_client):
    for client in (owner_client, clerk_client, installer_client):
        answer = client.get("/api/jobs/").json()
        assert [row["id"] for row in answer["results"]] == [job.pk]


def test_nobody_else(job):
    for url in ("/api/jobs/", f"/api/jobs/{job.pk}/", f"/api/jobs/{job.pk}/checkoffs/"):
        assert Client().get(url).status_code == 403
    assert post(Client(), job).status_code == 403


def test_wrong_methods(job, clerk_client):
    assert clerk_client.post("/api/jobs/").status_code == 405
    assert clerk_client.delete(f"/api/jobs/{job.pk}/").status_code == 405
    assert clerk_client.put(f"/api/jobs/{job.pk}/checkoffs/").status_code == 405


def test_one_job_with_all_that_the_phone_needs(job, clerk, installer_client):
    make_locate(job, clerk)
    data = installer_client.get(f"/api/jobs/{job.pk}/").json()
    assert data["digging"]["is_open"] is True
    assert data["digging"]["locate"]["reference"] == "LR-1"
    stake = next(stake for stake in data["stakes"] if stake["id"] == "B3")
    assert stake["tie"]["first_m"] == pytest.approx(12.04, abs=0.005)
    assert stake["tie"]["side"] == "right"
    assert sum(run["length_m"] for run in data["trench"]) == pytest.approx(85.3, abs=0.1)
    assert len(data["cables"]) == 2
    assert [row["reference"] for row in data["locates"]] == ["LR-1"]
    assert {row["trade"] for row in data["bookings"]} == {"plumber", "electrician"}
    assert data["plan"]["format"] == "plan/1"


def test_checking_off_is_kept_once(job, installer_client):
    again = str(uuid.uuid4())
    assert post(installer_client, job, id=again).status_code == 201
    assert post(installer_client, job, id=again).status_code == 200
    assert post(installer_client, job, id=again, result="problem").status_code == 409
    assert CheckOff.objects.count() == 1
    rows = installer_client.get(f"/api/jobs/{job.pk}/checkoffs/").json()
    assert [(row["id"], row["by"]) for row in rows] == [(again, "Ivo Test")]


def test_locked_digging_is_a_conflict_with_a_sentence(job, installer_client):
    trench = job.tasks.filter(kind="trench").first()
    answer = post(installer_client, job, task=trench.pk)
    assert answer.status_code == 409
    assert "No locate has been asked for" in answer.json()["detail"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"id": "x"},
        {"task": "x"},
        {"task": 0},
        {"result": "perhaps"},
        {"note": "n" * 501},
        {"note": "a\x00"},
        {"device_at": "noon"},
        {"task": 2**70},
    ],
)
def test_bad_input(job, installer_client, wrong):
    answer = post(installer_client, job, **wrong)
    assert answer.status_code == 400
    assert not CheckOff.objects.exists()


def test_a_task_of_another_job(job, installer_client):
    other = make_job("tests/plans/s3.json")
    assert post(installer_client, job, task=other.tasks.first().pk).status_code == 404


def test_finished_jobs_are_gone_for_installers(job, clerk_client, installer_client):
    job.finished_at = timezone.now()
    job.save()
    assert installer_client.get(f"/api/jobs/{job.pk}/").status_code == 404
    assert clerk_client.get(f"/api/jobs/{job.pk}/").status_code == 200
    for pk in ("0", "999999", "99999999999999999"):
        assert clerk_client.get(f"/api/jobs/{pk}/").status_code == 404


def test_a_body_that_is_no_json(job, installer_client):
    url = f"/api/jobs/{job.pk}/checkoffs/"
    for body in ("", "{", "[]", '{"note": NaN}', "[" * 100_000):
        answer = installer_client.post(url, body, content_type="application/json")
        assert answer.status_code == 400, body[:20]
    assert installer_client.post(url, "a=1", content_type="text/plain").status_code == 415
