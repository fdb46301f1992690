"""Pages of the parts book: who may, what is refused, and that nothing typed is lost."""

import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from parts.forms import SheetForm
from parts.models import Part, Price, Supplier
from parts.technical import KIND_NAMES, USUAL_CATEGORY
from tests.parts.books import book

PAGES = [
    ("parts:list", []), ("parts:add", []), ("parts:import", []), ("parts:suppliers", []),
    ("parts:part", ["pvc-25"]), ("parts:edit", ["pvc-25"]),
]  # fmt: skip


def typed(part, **changed):
    """What a browser would send back from the edit page, with some fields changed."""
    form = SheetForm(part.kind, stored=part)
    data = {name: form[name].value() for name in form.fields}
    data = {
        name: ("on" if value is True else value) for name, value in data.items() if value not in (None, False)
    }
    return {**data, **changed}


@pytest.mark.parametrize(("name", "arguments"), PAGES)
def test_owner_and_office_open_the_page(small_book, owner_client, clerk_client, name, arguments):
    for client in (owner_client, clerk_client):
        assert client.get(reverse(name, args=arguments)).status_code == 200


@pytest.mark.parametrize(("name", "arguments"), PAGES)
def test_an_installer_never_sees_it(small_book, installer_client, name, arguments):
    assert installer_client.get(reverse(name, args=arguments)).status_code == 403


@pytest.mark.parametrize(("name", "arguments"), PAGES)
def test_a_stranger_is_sent_to_the_login(small_book, client, name, arguments):
    answer = client.get(reverse(name, args=arguments))
    assert answer.status_code == 302
    assert "/account/login/" in answer["Location"]


@pytest.mark.parametrize(("name", "arguments"), [*PAGES, ("parts:price-add", ["pvc-25"])])
def test_a_wrong_method_is_refused(small_book, owner_client, name, arguments):
    assert owner_client.delete(reverse(name, args=arguments)).status_code == 405


def test_adding_a_price_takes_a_post(small_book, owner_client, installer_client):
    address = reverse("parts:price-add", args=["pvc-25"])
    assert owner_client.get(address).status_code == 405
    assert installer_client.post(address, {}).status_code == 403


def test_an_unknown_part_is_a_404(small_book, owner_client):
    assert owner_client.get(reverse("parts:part", args=["nothing"])).status_code == 404


def test_search_finds_by_words_and_category(small_book, owner_client):
    found = owner_client.get(reverse("parts:list"), {"q": "PVC 25"}).content.decode()
    assert "pvc-25" in found
    assert "rotor-9" not in found
    assert "rotor-9" in owner_client.get(reverse("parts:list"), {"category": "heads"}).content.decode()
    nothing = owner_client.get(reverse("parts:list"), {"q": "\x00 no such thing"}).content.decode()
    assert "No part fits" in nothing


def test_search_as_one_types_sends_the_rows_only(small_book, owner_client):
    answer = owner_client.get(reverse("parts:list"), {"q": "pvc"}, headers={"HX-Request": "true"})
    assert "<html" not in answer.content.decode()
    assert "pvc-25" in answer.content.decode()


def test_the_list_takes_as_many_queries_for_fifty_parts_as_for_two(
    small_book, owner_client, django_assert_max_num_queries
):
    rows = Part.objects.get(code="pvc-25")
    for number in range(60):
        rows.pk, rows.code = None, f"copy-{number}"
        rows._state.adding = True
        rows.save()
    with django_assert_max_num_queries(7):
        owner_client.get(reverse("parts:list"))


def test_the_part_page_shows_data_and_price_history(small_book, owner_client):
    page = owner_client.get(reverse("parts:part", args=["pvc-25"])).content.decode()
    for text in ("Bore (mm)", "20.4", "North Pipe", "7.20", "9.00", "Best today: 1.4000"):
        assert text in page


def test_a_price_is_added_and_the_old_ones_stay(small_book, owner_client):
    supplier = Supplier.objects.get(code="north")
    data = {
        "supplier": supplier.pk,
        "price": "8.80",
        "pack": "6",
        "unit": "stick",
        "valid_from": "2026-08-01",
    }
    address = reverse("parts:price-add", args=["pvc-25"])
    assert owner_client.post(address, data).status_code == 302
    assert Price.objects.filter(part__code="pvc-25").count() == 4
    again = owner_client.post(address, data)
    assert again.status_code == 422
    assert "has a price from that day already" in again.content.decode()


@pytest.mark.parametrize(
    ("field", "value"),
    [("price", "-1"), ("price", "NaN"), ("price", "1e99"), ("price", ""), ("pack", "0"),
     ("valid_from", "soon"), ("supplier", "999"), ("unit", "x" * 11)],
)  # fmt: skip
def test_a_bad_price_gets_a_sentence_and_keeps_what_was_typed(small_book, owner_client, field, value):
    data = {"supplier": Supplier.objects.first().pk, "price": "8.80", "pack": "6", "unit": "stick"}
    data = {**data, "valid_from": "2026-08-01", field: value}
    answer = owner_client.post(reverse("parts:price-add", args=["pvc-25"]), data)
    assert answer.status_code == 422
    assert "errorlist" in answer.content.decode()
    assert Price.objects.count() == 3


def test_technical_data_are_edited_as_fields(small_book, owner_client):
    part = Part.objects.get(code="rotor-9")
    rows = "250 12 8,5\n350 14 9,4\n450; 15.5; 9.8"
    answer = owner_client.post(reverse("parts:edit", args=["rotor-9"]), typed(part, rows=rows, max_kpa="500"))
    assert answer.status_code == 302
    part.refresh_from_db()
    assert part.data["rows"][1]["throw_m"] == 9.4
    assert part.data["rows"][2] == {"pressure_kpa": 450, "flow_lpm": 15.5, "throw_m": 9.8}
    assert part.data["max_kpa"] == 500


def test_saving_the_page_unchanged_keeps_the_data_as_they_were(small_book, owner_client):
    for code in ("pvc-25", "rotor-9"):
        part = Part.objects.get(code=code)
        before = part.data
        owner_client.post(reverse("parts:edit", args=[code]), typed(part))
        part.refresh_from_db()
        assert (part.version, part.data) == (2, before)


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("min_kpa", "many", "This must be a number."),
        ("min_kpa", "nan", "This must be a finite number."),
        ("min_kpa", "-5", "this must be more than 0"),
        ("min_kpa", "", "This field is required."),
        ("rows", "250 12", "Line 1, throw_m: This is missing."),
        ("rows", "250 12 8\n350 x 9", "Line 2, flow_lpm: This must be a number."),
        ("rows", "1" * 6000, "at most 5000 characters"),
        ("family", "hose", "not one of the available choices"),
    ],
)
def test_bad_technical_data_get_a_sentence_and_stay_typed(small_book, owner_client, field, value, sentence):
    part = Part.objects.get(code="rotor-9")
    answer = owner_client.post(reverse("parts:edit", args=["rotor-9"]), typed(part, **{field: value}))
    assert answer.status_code == 422
    page = answer.content.decode()
    assert sentence in page
    assert part.version == Part.objects.get(pk=part.pk).version
    if value and field != "family":
        assert value.splitlines()[0] in page


def test_a_clash_shows_both_versions_and_loses_neither(small_book, owner_client, clerk_client):
    part = Part.objects.get(code="pvc-25")
    address = reverse("parts:edit", args=["pvc-25"])
    assert owner_client.post(address, typed(part, bore_mm="21.1")).status_code == 302
    answer = clerk_client.post(address, typed(part, bore_mm="22.2"))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "21.1" in page
    assert 'value="22.2"' in page
    assert Part.objects.get(pk=part.pk).data["bore_mm"] == 21.1
    assert 'name="began_from" value="2"' in page
    assert clerk_client.post(address, typed(part, bore_mm="22.2", began_from="2")).status_code == 302


def test_a_part_is_added_by_kind(small_book, owner_client):
    address = reverse("parts:add") + "?kind=meter"
    data = {"code": "meter-dn20", "label": "Meter", "category": "backflow", "active": "on", "size": "20",
            "safe_max_lpm": "83,3", "loss": "50 10\n80 25"}  # fmt: skip
    assert owner_client.post(address, data).status_code == 302
    assert Part.objects.get(code="meter-dn20").data["safe_max_lpm"] == 83.3
    assert owner_client.post(address, {**data, "code": "Bad Code"}).status_code == 422
    falling = owner_client.post(address, {**data, "code": "meter-2", "loss": "50 10\n40 12"})
    assert "loss rows must rise in flow" in falling.content.decode().lower()


def upload(content, name="book.json"):
    return {"file": SimpleUploadedFile(name, content)}


def test_a_price_book_file_is_taken_in(owner_client):
    file = upload(json.dumps(book()).encode())
    assert owner_client.post(reverse("parts:import"), file).status_code == 302
    assert Part.objects.count() == 2


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "That file is empty."),
        (b"\xff\xfe\x00", "not JSON text in UTF-8"),
        (b"{", "not JSON text in UTF-8"),
        (b"[" * 100_000, "not JSON text in UTF-8"),
        (b" " * 5_000_001, "larger than 5 MB"),
        (b'{"parts": [{"category": "pipe"}]}', "parts, row 1"),
    ],
    ids=["empty", "binary", "broken", "deep", "huge", "no data"],
)
def test_a_bad_price_book_file_gets_a_sentence(owner_client, content, sentence):
    answer = owner_client.post(reverse("parts:import"), upload(content))
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert not Part.objects.exists()


def test_a_supplier_is_added_once(small_book, owner_client):
    address = reverse("parts:suppliers")
    assert owner_client.post(address, {"code": "east", "name": "East Stores"}).status_code == 302
    assert owner_client.post(address, {"code": "east", "name": "Other"}).status_code == 422


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_a_new_part_is_filed_where_its_kind_usually_is(clerk_client, kind):
    page = clerk_client.get(reverse("parts:add"), {"kind": kind}).content.decode()
    assert f'<option value="{USUAL_CATEGORY[kind]}" selected>' in page
