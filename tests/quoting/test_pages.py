"""Each page: who may, who may not, the wrong method, bad input."""

import pytest
from django.test import Client
from django.urls import reverse

from quoting.models import Quote
from quoting.policies import production_rates
from tests.quoting.factories import make_customer, make_draft, make_issued, make_plan, make_site

pytestmark = pytest.mark.django_db
GET_ONLY, POST_ONLY, BOTH = {"get"}, {"post"}, {"get", "post"}

# name, methods, for the owner alone, needs the quote to be
OFFICE_PAGES = [
    ("list", GET_ONLY, False, None),
    ("new", GET_ONLY, False, None),
    ("draft", POST_ONLY, False, "plan"),
    ("quote", GET_ONLY, False, "draft"),
    ("edit", BOTH, False, "draft"),
    ("rework", POST_ONLY, False, "draft"),
    ("discard", POST_ONLY, False, "draft"),
    ("pdf", GET_ONLY, False, "draft"),
    ("line-add", BOTH, False, "draft"),
    ("line", BOTH, False, "line"),
    ("line-remove", POST_ONLY, False, "line"),
    ("issue", BOTH, False, "draft"),
    ("link", POST_ONLY, False, "issued"),
    ("link-revoke", POST_ONLY, False, "issued"),
    ("accept", BOTH, False, "issued"),
    ("decline", BOTH, False, "issued"),
    ("revise", POST_ONLY, False, "issued"),
    ("policy", BOTH, True, None),
    ("rates", GET_ONLY, True, None),
    ("rate", POST_ONLY, True, "rate"),
]


def address(name, needs, clerk):
    if needs is None:
        return reverse(f"quoting:{name}")
    if needs == "plan":
        return reverse(f"quoting:{name}", args=[make_plan().pk])
    if needs == "rate":
        return reverse(f"quoting:{name}", args=[next(iter(production_rates()))])
    quote = make_issued(clerk) if needs == "issued" else make_draft(clerk)
    args = [quote.pk, quote.lines.first().pk] if needs == "line" else [quote.pk]
    return reverse(f"quoting:{name}", args=args)


@pytest.mark.parametrize(("name", "methods", "owners_only", "needs"), OFFICE_PAGES)
def test_who_may_open_it_and_with_which_method(
    name, methods, owners_only, needs, owner_client, clerk, clerk_client, installer_client
):
    url = address(name, needs, clerk)
    method = "get" if "get" in methods else "post"
    anonymous = getattr(Client(), method)(url)
    assert anonymous.status_code == 302
    assert "/account/login/" in anonymous["Location"]
    assert getattr(installer_client, method)(url).status_code == 403
    if owners_only:
        assert getattr(clerk_client, method)(url).status_code == 403
        allowed = owner_client
    else:
        allowed = clerk_client
    for wrong in {"get", "post", "put", "delete"} - methods:
        assert getattr(allowed, wrong)(url).status_code == 405
    assert getattr(allowed, method)(url).status_code in (200, 302, 422)
    if "get" in methods:
        assert getattr(owner_client, "get")(url).status_code == 200  # noqa: B009


def test_htmx_without_a_login_is_sent_to_it(clerk):
    response = Client().get(reverse("quoting:list"), HTTP_HX_REQUEST="true")
    assert response.status_code == 401
    assert response["HX-Redirect"] == "/account/login/?next=/"


@pytest.mark.parametrize("name", ["quote", "edit", "pdf", "issue", "accept", "decline", "line-add"])
def test_a_quote_that_is_not_there_is_a_404(name, clerk_client):
    assert clerk_client.get(reverse(f"quoting:{name}", args=[999999])).status_code == 404


def test_a_line_of_another_quote_is_a_404(clerk, clerk_client):
    first, second = make_draft(clerk), make_draft(clerk, make_plan())
    url = reverse("quoting:line", args=[first.pk, second.lines.first().pk])
    assert clerk_client.get(url).status_code == 404


# the list


def test_the_list_filters_and_searches(clerk, clerk_client):
    mine = make_issued(
        clerk, make_plan(site=make_site(customer=make_customer(name="Zoë Quirk", town="Farville")))
    )
    other = make_draft(clerk, make_plan())
    url = reverse("quoting:list")

    def found(**query):
        text = clerk_client.get(url, query).content.decode()
        return [q.pk for q in (mine, other) if f"/quotes/{q.pk}/" in text]

    assert found() == [mine.pk, other.pk]
    assert found(status="issued") == [mine.pk]
    assert found(status="nonsense") == [mine.pk, other.pk]
    assert found(q="quirk") == [mine.pk]
    assert found(q="farville") == [mine.pk]
    assert found(q="zoë farville") == [mine.pk]
    assert found(q=mine.reference) == [mine.pk]
    assert found(q=str(mine.number)) == [mine.pk]
    assert found(q="nobody") == []
    assert found(q="x" * 500) in ([], [mine.pk, other.pk])
    assert clerk_client.get(url, {"q": "\x00'%_"}).status_code == 200
    assert clerk_client.get(url, {"page": "zz"}).status_code == 200


def test_htmx_gets_the_rows_alone(draft, clerk_client):
    text = clerk_client.get(reverse("quoting:list"), HTTP_HX_REQUEST="true").content.decode()
    assert "<html" not in text
    assert f"/quotes/{draft.pk}/" in text


def test_the_list_takes_a_constant_number_of_queries(clerk, clerk_client, django_assert_max_num_queries):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    url = reverse("quoting:list")
    make_draft(clerk)
    clerk_client.get(url)
    with CaptureQueriesContext(
        connection,
    ) as one:
        clerk_client.get(url)
    for _ in range(4):
        make_issued(clerk, make_plan(site=make_site()))
    with CaptureQueriesContext(connection) as many:
        clerk_client.get(url)
    assert len(one) == len(many) <= 8


# the quote


def test_the_quote_page_shows_lines_cost_margin_and_markup(draft, clerk_client):
    text = clerk_client.get(reverse("quoting:quote", args=[draft.pk])).content.decode()
    for words in (
        draft.lines.get(key="rotary-6").text,
        "Our side",
        "Margin",
        "Markup",
        "15.0 %",
        "17.6 %",
        "Before tax",
        "Deposit",
    ):
        assert words in text


def test_a_line_is_pointed_out_on_the_plan_without_script(draft, clerk_client):
    url = reverse("quoting:quote", args=[draft.pk])
    line = draft.lines.get(key="valve-25")
    plain, marked = (clerk_client.get(url, query).content.decode() for query in ({}, {"line": line.pk}))
    assert "is-marked" not in plain
    assert marked.count('data-entity="V1" class="layer-devices kind-valve is-marked"') == 1
    assert f"Marked: {line.text}" in marked
    assert clerk_client.get(url, {"line": "x"}).status_code == 200
    assert clerk_client.get(url, {"line": "9" * 40}).status_code == 200


def test_a_plan_that_cannot_be_priced_is_said_on_the_page(clerk_client):
    plan = make_plan()  # no parts book at all
    response = clerk_client.post(reverse("quoting:draft", args=[plan.pk]), follow=True)
    assert "cannot be priced yet" in response.content.decode()
    assert not Quote.objects.exists()


def line_form(line, **more):
    return {
        "began_from": line.version, "text": line.text, "section": line.section, "quantity": line.quantity,
        "unit": line.unit, "unit_cost": line.unit_cost, "choice": line.choice, "listed": "on",
        "own_price": "", "price_reason": "", "internal_text": "", "alternative_to": "", **more,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"quantity": "-1"}, "greater than or equal to 0"),
        ({"quantity": "NaN"}, "Enter a number"),
        ({"quantity": "1e30"}, "digits"),
        ({"quantity": ""}, "required"),
        ({"text": ""}, "required"),
        ({"text": "x" * 400}, "300"),
        ({"own_price": "12.50"}, "Say why this price"),
        ({"own_price": "-5", "price_reason": "x"}, "Below zero is for an adjustment only"),
        ({"section": "nonsense"}, "not one of the available choices"),
        ({"choice": "alternate"}, "Choose the line"),
        ({"unit_cost": "Infinity"}, "Enter a number"),
    ],
)
def test_bad_input_in_a_line_is_said_and_stays(draft, clerk_client, typed, sentence):
    line = draft.lines.get(key="rotary-6")
    url = reverse("quoting:line", args=[draft.pk, line.pk])
    response = clerk_client.post(url, line_form(line, **typed))
    assert response.status_code == 422
    assert sentence in response.content.decode()
    line.refresh_from_db()
    assert line.version == 1
    assert line.quantity == 15


def test_a_line_is_edited_on_its_page(draft, clerk_client):
    line = draft.lines.get(key="rotary-6")
    url = reverse("quoting:line", args=[draft.pk, line.pk])
    response = clerk_client.post(
        url, line_form(line, own_price="410.00", price_reason="as agreed", text="Fine heads")
    )
    assert response.status_code == 302
    line.refresh_from_db()
    assert (line.text, str(line.price), line.price_fixed) == ("Fine heads", "410.00", True)


def test_a_clash_on_a_line_shows_both_and_keeps_what_was_typed(draft, clerk_client):
    line = draft.lines.get(key="rotary-6")
    url = reverse("quoting:line", args=[draft.pk, line.pk])
    clerk_client.post(url, line_form(line, text="Theirs"))
    response = clerk_client.post(url, line_form(line, text="Mine"))
    text = response.content.decode()
    assert response.status_code == 409
    assert "Theirs" in text
    assert 'value="Mine"' in text
    assert f'name="began_from" value="{line.version + 1}"' in text


def test_a_line_is_added_and_taken_out(draft, clerk_client):
    fields = {
        "text": "Move the shed", "section": "other", "kind": "labour", "quantity": "2", "unit": "h",
        "choice": "included", "listed": "on",
    }  # fmt: skip
    assert clerk_client.post(reverse("quoting:line-add", args=[draft.pk]), fields).status_code == 302
    line = draft.lines.get(text="Move the shed")
    assert line.price > 0
    clerk_client.post(reverse("quoting:line-remove", args=[draft.pk, line.pk]))
    assert not draft.lines.filter(text="Move the shed").exists()


def test_a_line_that_somebody_changed_is_not_taken_out(draft, clerk_client):
    line = draft.lines.get(key="rotary-6")
    clerk_client.post(reverse("quoting:line", args=[draft.pk, line.pk]), line_form(line, text="Theirs"))
    url = reverse("quoting:line-remove", args=[draft.pk, line.pk])
    response = clerk_client.post(url, {"version": line.version}, follow=True)
    assert "changed this line meanwhile" in response.content.decode()
    assert draft.lines.filter(key="rotary-6").exists()
    clerk_client.post(url, {"version": line.version + 1})
    assert not draft.lines.filter(key="rotary-6").exists()


def test_an_adjustment_needs_its_price(draft, clerk_client):
    fields = {
        "text": "Discount",
        "section": "other",
        "kind": "adjustment",
        "quantity": "1",
        "unit": "each",
        "choice": "included",
    }
    response = clerk_client.post(reverse("quoting:line-add", args=[draft.pk]), fields)
    assert response.status_code == 422
    assert "below zero" in response.content.decode()


def test_editing_what_is_out_is_refused_on_the_page(issued, clerk_client):
    line = issued.lines.first()
    response = clerk_client.post(reverse("quoting:line", args=[issued.pk, line.pk]), line_form(line))
    assert response.status_code == 409
    assert "new revision" in response.content.decode()


def test_a_clash_on_the_title_keeps_what_was_typed(draft, clerk_client):
    url = reverse("quoting:edit", args=[draft.pk])
    began = draft.version
    assert clerk_client.post(url, {"began_from": began, "title": "Theirs"}).status_code == 302
    response = clerk_client.post(url, {"began_from": began, "title": "Mine"})
    assert response.status_code == 409
    assert 'value="Mine"' in response.content.decode()


# its life


def test_the_whole_way_on_the_pages(draft, clerk_client):
    issue = reverse("quoting:issue", args=[draft.pk])
    page = clerk_client.get(issue).content.decode()
    assert "What the customer will read" in page
    response = clerk_client.post(issue, {"began_from": draft.version})
    assert response.status_code == 302
    link = clerk_client.post(reverse("quoting:link", args=[draft.pk]))
    assert "http://testserver/o/" in link.content.decode()
    assert "no-store" in link["Cache-Control"]
    accept = reverse("quoting:accept", args=[draft.pk])
    assert clerk_client.post(accept, {"name": "", "signed_on": "2026-01-01"}).status_code == 422
    early = clerk_client.post(accept, {"name": "Ada Example", "signed_on": "2001-01-01"})
    assert early.status_code == 422
    assert "when the offer went out" in early.content.decode()
    from django.utils import timezone

    today = timezone.localdate().isoformat()
    assert clerk_client.post(accept, {"name": "Ada Example", "signed_on": today}).status_code == 302
    text = clerk_client.get(reverse("quoting:quote", args=[draft.pk])).content.decode()
    assert "recorded by Ola Test" in text
    again = clerk_client.post(accept, {"name": "Ada Example", "signed_on": today})
    assert again.status_code == 409


def test_issuing_a_changed_quote_asks_to_look_again(draft, clerk_client):
    response = clerk_client.post(reverse("quoting:issue", args=[draft.pk]), {"began_from": draft.version - 1})
    assert response.status_code == 409
    assert "meanwhile" in response.content.decode()
    assert (
        clerk_client.post(reverse("quoting:issue", args=[draft.pk]), {"began_from": "x"}).status_code == 422
    )


def test_declining_on_the_page(issued, clerk_client):
    url = reverse("quoting:decline", args=[issued.pk])
    assert clerk_client.post(url, {"reason": " "}).status_code == 422
    assert clerk_client.post(url, {"reason": "Too dear"}).status_code == 302
    assert "Too dear" in clerk_client.get(reverse("quoting:quote", args=[issued.pk])).content.decode()


def test_revising_leads_to_the_new_draft_with_its_differences(issued, clerk_client):
    response = clerk_client.post(reverse("quoting:revise", args=[issued.pk]))
    draft = Quote.objects.get(replaces=issued)
    assert response["Location"] == reverse("quoting:quote", args=[draft.pk])
    text = clerk_client.get(response["Location"]).content.decode()
    assert f"Nothing differs from {issued.reference} so far" in text
    again = clerk_client.post(reverse("quoting:revise", args=[issued.pk]), follow=True)
    assert "already" in again.content.decode()


def test_the_pdf_is_the_sealed_one_for_the_office_too(issued, clerk_client):
    response = clerk_client.get(reverse("quoting:pdf", args=[issued.pk]))
    assert response.content == bytes(issued.seal.pdf)
