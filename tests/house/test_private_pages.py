"""What is for one person's eyes stays out of shared and local caches."""

import pytest

from demo.loading import load_demo
from tests.house.test_every_address import ALL

MAY_BE_KEPT = {"plan_image"}  # the drawing of a job, privately, for a phone without signal


@pytest.mark.django_db
def test_no_answer_to_a_person_may_be_kept(owner_client):
    load_demo()
    kept = [
        (path, answer.get("Cache-Control"))
        for _, name, path in ALL
        if name not in MAY_BE_KEPT and (answer := owner_client.get(path)).status_code == 200
        and "no-store" not in answer.get("Cache-Control", "")
    ]  # fmt: skip
    assert kept == []


def test_what_may_be_kept_is_private(owner_client):
    load_demo()
    assert "private" in owner_client.get("/jobs/1/plan.svg")["Cache-Control"]


@pytest.mark.django_db
def test_no_page_may_be_framed(client):
    answer = client.get("/account/login/")
    assert answer["X-Frame-Options"] == "DENY"
    assert "frame-ancestors 'none'" in answer["Content-Security-Policy"]
