"""What holds of every page: health, policy headers, friendly errors, nothing inline."""

import re
from pathlib import Path

import pytest
from django.urls import reverse

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.django_db
def test_health_asks_the_database(client):
    assert client.get("/health/").content == b"ok\n"


@pytest.mark.django_db
def test_the_content_security_policy_allows_no_inline_code(client):
    policy = client.get(reverse("account_login"))["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy


def test_an_address_that_does_not_exist_says_so(clerk_client):
    answer = clerk_client.get("/no/such/page/")
    assert answer.status_code == 404
    assert "nothing at this address" in answer.content.decode()


@pytest.mark.parametrize("template", sorted((ROOT / "templates").rglob("*.html")), ids=str)
def test_no_template_carries_inline_script_or_style(template):
    text = template.read_text(encoding="utf-8")
    assert not re.search(r"<script(?![^>]*\bsrc=)[^>]*>(?!\s*</script>)", text)
    assert not re.search(r"<style|\sstyle=|\son[a-z]+=\"|javascript:", text)
