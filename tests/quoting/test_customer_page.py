"""The customer's page: what it shows, what it takes, and what it never says."""

import re
from datetime import timedelta

import pytest
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from office.navigation import panels_for
from quoting.links import open_link
from quoting.models import Acceptance, Choice, CustomerLink, Quote, QuoteLine
from quoting.services import add_line, issue_quote, make_link, new_revision, revoke_links
from tests.quoting.factories import make_draft

pytestmark = pytest.mark.django_db
YES = {"name": "Ada Example", "agree": "on"}


@pytest.fixture(autouse=True)
def _no_count_of_earlier_posts():
    cache.clear()


@pytest.fixture
def visitor():
    return Client(HTTP_USER_AGENT="Kitchen phone")


@pytest.fixture
def token(issued, clerk):
    return make_link(quote=issued, by=clerk).token


def page_of(token, ending=""):
    return reverse("quoting:offer", args=[token]) + ending


def say_yes(client, token, quote, **more):
    return client.post(page_of(token, "accept/"), {**YES, "shown_total": quote.total, **more})


def test_the_offer_is_shown_without_a_login(visitor, token, issued):
    response = visitor.get(page_of(token))
    text = response.content.decode()
    assert response.status_code == 200
    for words in (
        "For Ada Example",
        issued.reference,
        "What you get",
        "Your plan",
        "Not included",
        "Deposit",
    ):
        assert words in text
    assert "<svg" in text
    assert "€5,707.80" in text
    assert "Please note" in text


def test_nobody_indexes_it_and_nobody_else_hears_the_address(visitor, token):
    response = visitor.get(page_of(token))
    assert "noindex" in response["X-Robots-Tag"]
    assert response["Referrer-Policy"] == "same-origin"
    assert "no-store" in response["Cache-Control"]
    assert visitor.get(page_of(token, "pdf/"))["Referrer-Policy"] == "no-referrer"


def test_the_pdf_is_the_sealed_one_byte_for_byte(visitor, token, issued):
    response = visitor.get(page_of(token, "pdf/"))
    assert response["Content-Type"] == "application/pdf"
    assert response.content == bytes(issued.seal.pdf)


def test_the_first_opening_is_kept(visitor, token, issued):
    visitor.get(page_of(token))
    first = CustomerLink.objects.get().first_opened_at
    assert first is not None
    visitor.get(page_of(token))
    assert CustomerLink.objects.get().first_opened_at == first


def test_the_token_itself_is_kept_nowhere(token, issued):
    stored = str(list(CustomerLink.objects.values())) + issued.seal.content
    assert token not in stored
    secret = token.partition("~")[0]
    assert len(secret) >= 22  # 128 bits in base64
    assert secret not in stored


def test_yes_is_kept_with_name_time_address_browser_and_document(visitor, token, issued):
    before = timezone.now()
    response = say_yes(visitor, token, issued)
    assert response.status_code == 302
    assert response["Location"] == page_of(token)
    acceptance = Acceptance.objects.get()
    assert acceptance.quote_id == issued.pk
    assert (acceptance.name, acceptance.by) == ("Ada Example", "link")
    assert before <= acceptance.at <= timezone.now()
    assert (acceptance.address, acceptance.user_agent) == ("127.0.0.1", "Kitchen phone")
    assert acceptance.pdf_sha256 == issued.seal.pdf_sha256
    assert acceptance.total == issued.total
    assert "You have accepted this offer" in visitor.get(page_of(token)).content.decode()


@pytest.mark.parametrize(
    ("proxies", "forwarded", "address"),
    [
        (0, "203.0.113.9", "127.0.0.1"),
        (1, "203.0.113.9", "203.0.113.9"),
        (1, "6.6.6.6, 203.0.113.9", "203.0.113.9"),
        (2, "6.6.6.6, 203.0.113.9, 10.0.0.1", "203.0.113.9"),
        (1, "", "127.0.0.1"),
        (1, "nonsense", None),
    ],
)
def test_only_trusted_proxies_are_believed(visitor, token, issued, settings, proxies, forwarded, address):
    settings.TRUSTED_PROXY_COUNT = proxies
    visitor.post(
        page_of(token, "accept/"), {**YES, "shown_total": issued.total}, HTTP_X_FORWARDED_FOR=forwarded
    )
    assert Acceptance.objects.get().address == address


def test_a_second_yes_is_told_that_it_is_accepted(visitor, token, issued):
    say_yes(visitor, token, issued)
    again = say_yes(visitor, token, issued, name="Somebody Else")
    assert again.status_code == 409
    assert "already been accepted" in again.content.decode()
    assert Acceptance.objects.get().name == "Ada Example"


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"agree": "on"}, "Type your name"),
        ({"name": " ", "agree": "on"}, "Type your name"),
        ({"name": "?!", "agree": "on"}, "Type your name"),
        ({"name": "Ada Example"}, "Tick the box"),
        ({"name": "A" * 300, "agree": "on"}, "200"),
        ({**YES, "options": ["999999"]}, "not part of this offer"),
        ({**YES, "options": ["x"]}, "not part of this offer"),
    ],
)
def test_what_is_missing_is_said_beside_the_field_and_nothing_is_lost(
    visitor, token, issued, typed, sentence
):
    response = visitor.post(page_of(token, "accept/"), {"shown_total": issued.total, **typed})
    assert response.status_code == 422
    text = response.content.decode()
    assert sentence in text
    if typed.get("name", "").strip():
        assert typed["name"] in text
    assert not Acceptance.objects.exists()


def test_no_is_kept_with_its_reason(visitor, token, issued):
    assert visitor.post(page_of(token, "decline/"), {"reason": ""}).status_code == 422
    response = visitor.post(page_of(token, "decline/"), {"reason": "We sell the house"})
    assert response.status_code == 302
    issued.refresh_from_db()
    assert issued.status == "declined"
    assert issued.events.last().reason == "We sell the house"
    assert visitor.get(page_of(token)).status_code == 200
    assert say_yes(visitor, token, issued).status_code == 409


def test_an_offer_that_ran_out_is_read_but_not_accepted(visitor, token, issued, time_machine):
    time_machine.move_to(timezone.now() + timedelta(days=31))
    page = visitor.get(page_of(token))
    assert page.status_code == 200
    assert "has run out" in page.content.decode()
    assert "Accept the offer" not in page.content.decode()
    assert say_yes(visitor, token, issued).status_code == 409
    assert not Acceptance.objects.exists()


def test_a_replaced_offer_says_so(visitor, token, issued, clerk):
    issue_quote(quote=new_revision(quote=issued, by=clerk), by=clerk)
    page = visitor.get(page_of(token)).content.decode()
    assert "newer offer has replaced this one" in page
    assert "Accept the offer" not in page
    assert say_yes(visitor, token, issued).status_code == 409


@pytest.mark.parametrize("ending", ["", "pdf/", "total/"])
def test_an_unknown_or_forged_link_is_a_friendly_404(visitor, token, ending):
    for wrong in ("x", token[:-1] + ("A" if token[-1] != "A" else "B"), "~", token + "~x"):
        response = visitor.get(page_of(wrong, ending))
        assert response.status_code == 404
        assert "+99 000 111 222" in response.content.decode()
        assert "noindex" in response["X-Robots-Tag"]


def test_a_signed_token_that_was_never_given_out_is_a_404(visitor, issued):
    from quoting.links import _SIGNER

    assert visitor.get(page_of(_SIGNER.sign("made-up-but-signed"))).status_code == 404


def test_a_link_taken_back_or_replaced_is_gone(visitor, token, issued, clerk):
    newer = make_link(quote=issued, by=clerk).token
    response = visitor.get(page_of(token))
    assert response.status_code == 410
    assert "+99 000 111 222" in response.content.decode()
    assert visitor.get(page_of(newer)).status_code == 200
    revoke_links(quote=issued, by=clerk)
    assert visitor.get(page_of(newer)).status_code == 410
    assert say_yes(visitor, newer, issued).status_code == 410


def test_a_link_runs_out(visitor, token, time_machine):
    time_machine.move_to(open_link(token).expires_at + timedelta(seconds=1))
    response = visitor.get(page_of(token))
    assert response.status_code == 410
    assert "run out" in response.content.decode()


def test_many_posts_from_one_address_are_slowed(visitor, token):
    codes = [visitor.post(page_of(token, "accept/"), {}).status_code for _ in range(22)]
    assert codes[0] == 422
    assert codes[-1] == 429
    other = visitor.post(page_of(token, "accept/"), {}, REMOTE_ADDR="198.51.100.7")
    assert other.status_code == 422


@pytest.mark.parametrize(
    ("ending", "method"),
    [("", "post"), ("pdf/", "post"), ("total/", "post"), ("accept/", "get"), ("decline/", "get")],
)
def test_the_wrong_method_is_refused(visitor, token, ending, method):
    assert getattr(visitor, method)(page_of(token, ending)).status_code == 405


def test_a_forged_form_is_refused(token, issued):
    strict = Client(enforce_csrf_checks=True)
    assert say_yes(strict, token, issued).status_code == 403
    assert not Acceptance.objects.exists()


def test_the_office_sees_the_answer_on_the_daily_page_and_on_the_quote(
    visitor, token, issued, clerk, clerk_client
):
    say_yes(visitor, token, issued)
    answers = next(panel for panel in panels_for(clerk) if panel["title"] == "Answers")
    assert "Ada Example" in answers["rows"][0].detail
    page = clerk_client.get(reverse("quoting:quote", args=[issued.pk])).content.decode()
    assert "127.0.0.1" in page
    assert issued.seal.pdf_sha256 in page


# extras and alternatives


@pytest.fixture
def with_extras(clerk):
    quote = make_draft(clerk)
    valve = quote.lines.get(key="valve-25")
    common = {"kind": "material", "section": "valves", "unit": "each", "quantity": 1}
    instead = {**common, "choice": Choice.ALTERNATE, "alternative_to": valve}
    add_line(
        quote=quote, by=clerk,
        fields={**common, "text": "Rain sensor", "unit_cost": 40, "choice": Choice.OPTIONAL},
    )  # fmt: skip
    add_line(
        quote=quote, by=clerk,
        fields={**instead, "text": "Brass valves", "unit_cost": 90},
    )  # fmt: skip
    add_line(
        quote=quote, by=clerk,
        fields={**instead, "text": "Steel valves", "unit_cost": 95},
    )  # fmt: skip
    quote.refresh_from_db()
    return issue_quote(quote=quote, by=clerk)


def extra(quote, text):
    return quote.lines.get(text=text)


def test_extras_are_no_part_of_the_total_until_chosen(with_extras, visitor, clerk):
    token = make_link(quote=with_extras, by=clerk).token
    page = visitor.get(page_of(token)).content.decode()
    assert "Rain sensor" in page
    valve = with_extras.lines.get(key="valve-25")
    assert f"Brass valves, instead of {valve.text}" in page
    sensor = extra(with_extras, "Rain sensor")
    shown = visitor.get(page_of(token, "total/"), {"options": sensor.pk}).content.decode()
    expected = with_extras.total + sensor.price * (1 + sensor.tax_rate / 100)
    value = re.search(r'name="shown_total" value="([\d.]+)"', shown)[1]
    assert abs(float(value) - float(expected)) <= 0.01
    first = say_yes(visitor, token, with_extras, options=[sensor.pk])
    assert first.status_code == 422  # the total on the form was the one without it
    assert not Acceptance.objects.exists()
    again = say_yes(visitor, token, with_extras, options=[sensor.pk], shown_total=value)
    assert again.status_code == 302
    acceptance = Acceptance.objects.get()
    assert acceptance.options == [sensor.pk]
    assert str(acceptance.total) == value


def test_an_alternative_takes_the_place_of_its_line(with_extras):
    from quoting.services import total_with

    valve, brass = with_extras.lines.get(key="valve-25"), extra(with_extras, "Brass valves")
    net = total_with(with_extras, [brass.pk]).net
    assert net == with_extras.net - valve.price + brass.price


def test_two_alternatives_for_one_thing_are_refused(with_extras, visitor, clerk):
    token = make_link(quote=with_extras, by=clerk).token
    both = [extra(with_extras, "Brass valves").pk, extra(with_extras, "Steel valves").pk]
    assert "Choose one" in visitor.get(page_of(token, "total/"), {"options": both}).content.decode()
    response = say_yes(visitor, token, with_extras, options=both)
    assert response.status_code == 422
    assert "Choose one" in response.content.decode()


def test_lines_of_another_offer_are_not_options(with_extras, issued, visitor, clerk):
    token = make_link(quote=issued, by=clerk).token
    sensor = QuoteLine.objects.get(text="Rain sensor")
    assert say_yes(visitor, token, issued, options=[sensor.pk]).status_code == 422
    assert Quote.objects.get(pk=issued.pk).status == "issued"


@pytest.mark.parametrize(("proxies", "last"), [(0, 429), (1, 422)])
def test_posts_are_counted_by_the_address_that_can_be_believed(visitor, token, settings, proxies, last):
    """Without a proxy of ours the header is the caller's own invention."""
    settings.TRUSTED_PROXY_COUNT = proxies
    answers = [
        visitor.post(page_of(token, "accept/"), {}, headers={"X-Forwarded-For": f"198.51.100.{place}"})
        for place in range(22)
    ]
    assert answers[-1].status_code == last


@pytest.mark.parametrize(
    "change", [lambda t: t[:-1], lambda t: t + "A", lambda t: t.swapcase(), lambda t: "~" + t]
)
def test_a_token_that_was_changed_opens_nothing(visitor, token, change):
    answers = [visitor.get(page_of(change(token), ending)) for ending in ("", "pdf/", "total/")]
    assert [answer.status_code for answer in answers] == [404] * 3


def test_a_link_takes_no_line_of_another_offer(visitor, token, issued, clerk):
    other = make_draft(clerk)
    foreign = other.lines.first()
    answer = say_yes(visitor, token, issued, options=[foreign.pk])
    assert answer.status_code == 422
    assert "not part of this offer" in answer.content.decode()
    assert visitor.get(page_of(token, "total/"), {"options": foreign.pk}).status_code == 200
    assert not Acceptance.objects.exists()
