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


@pytest.mark.parametrize("template", sorted((ROOT / "templates").rglob("*.html")), ids=str)
def test_what_scrolls_sideways_is_reached_by_the_keyboard(template):
    # WCAG 2.2, success criterion 2.1.1. A table with links or fields, or a form in each row, brings its own.
    text = template.read_text(encoding="utf-8")
    for wide in re.findall(r"<div class=\"scroll\"(.*?)</table>", text, re.DOTALL):
        has_its_own = re.search(r"<a |<button|<input|{% include", wide)
        assert has_its_own or ('tabindex="0"' in wide and "aria-label=" in wide), wide[:200]
