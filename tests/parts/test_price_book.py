"""Taking in a price book: all of it or nothing, with the row named."""

from datetime import date
from decimal import Decimal

import pytest

from parts.models import Part, Price, Supplier
from parts.services import PriceBookInvalid, best_prices, import_price_book
from tests.parts.books import book

pytestmark = pytest.mark.django_db


def test_everything_is_taken_in(small_book):
    assert (small_book.added, small_book.changed, small_book.prices) == (2, 0, 3)
    assert Part.objects.get(code="pvc-25").data["bore_mm"] == 20.4
    assert Supplier.objects.count() == 2


def test_taking_the_same_book_in_again_changes_nothing(small_book):
    again = import_price_book(book(), None)
    assert (again.added, again.changed) == (0, 0)
    assert Price.objects.count() == 3
    assert Part.objects.get(code="pvc-25").version == 1


def test_a_changed_part_gets_a_new_version_and_a_corrected_price_is_corrected(small_book):
    changed = book()
    changed["parts"][0]["data"]["bore_mm"] = 21.0
    changed["parts"][0]["prices"][0]["price"] = "7.30"
    assert import_price_book(changed, None).changed == 1
    assert Part.objects.get(code="pvc-25").version == 2
    assert Price.objects.get(valid_from="2026-01-01").price == Decimal("7.30")


def wrong(path, value):
    data = book()
    here = data
    for step in path[:-1]:
        here = here[step]
    here[path[-1]] = value
    return data


PRICE = ["parts", 0, "prices", 0]


@pytest.mark.parametrize(
    ("data", "place"),
    [
        ([], "price book: A price book is one JSON object"),
        ({"parts": 3}, "price book, parts: This must be a list"),
        (wrong(["suppliers", 0], "north"), "suppliers, row 1: This must be an object"),
        (
            wrong(["suppliers", 1, "code"], "north"),
            "suppliers, row 2, code: The supplier “north” stands here twice",
        ),
        (wrong(["suppliers", 0, "name"], ""), "suppliers, row 1, name: Give a name"),
        (wrong(["parts", 0, "category"], "pipes"), "parts, row 1, category: Use one of"),
        (wrong(["parts", 0, "data"], None), "parts, row 1, data: The technical data must be"),
        (wrong(["parts", 0, "data", "bore_mm"], -3), "parts, row 1 (pvc-25), bore_mm: -3 is out of range"),
        (wrong(["parts", 0, "data", "bore_mm"], float("nan")), "bore_mm: This must be a finite number"),
        (
            wrong(["parts", 0, "data", "colour"], "red"),
            "parts, row 1 (pvc-25), colour: There is no such field",
        ),
        (
            wrong(["parts", 1, "data", "rows", 1, "throw_m"], 0),
            "row 2 (rotor-9), rows[1].throw_m: 0 is out of",
        ),
        (wrong(["parts", 1, "data", "code"], "pvc-25"), "The technical"),
        (wrong([*PRICE, "price"], "-1"), "parts, row 1 (pvc-25), price 1, price: Give price"),
        (wrong([*PRICE, "price"], "NaN"), "price 1, price: Give price"),
        (wrong([*PRICE, "price"], 7.2), "price 1, price: Give price"),
        (wrong([*PRICE, "price"], "1.00001"), "At most 4 decimal places"),
        (wrong([*PRICE, "price"], "9" * 30), "price 1, price: Give price"),
        (wrong([*PRICE, "pack"], 0), "price 1, pack: Give pack"),
        (wrong([*PRICE, "supplier"], "east"), "There is no supplier “east”"),
        (wrong([*PRICE, "valid_from"], "2026-02-31"), "price 1, valid_from: Give the first day"),
        (wrong([*PRICE, "valid_from"], "2026-06-01"), "“north” has two prices from 2026-06-01"),
    ],
)
def test_a_wrong_row_is_named_and_nothing_is_stored(data, place):
    if place == "The technical":  # a part named twice
        data["parts"][1]["data"] = book()["parts"][0]["data"]
        place = "parts, row 2 (pvc-25), code: The part “pvc-25” stands here twice"
    with pytest.raises(PriceBookInvalid) as refusal:
        import_price_book(data, None)
    assert place in str(refusal.value)
    assert not Part.objects.exists()
    assert not Supplier.objects.exists()


def test_the_best_price_is_the_lowest_per_metre_of_each_suppliers_latest(small_book):
    # 9.00 for 6 m is 1.50 a metre, so the 1.40 of the other supplier wins from June on
    best = best_prices(date(2026, 7, 1))["pvc-25"]
    assert (best.supplier, best.unit_price) == ("south", Decimal("1.40"))
    assert best.age_days == 122
    # before that, 7.20 for 6 m is 1.20 a metre
    assert best_prices(date(2026, 4, 1))["pvc-25"].unit_price == Decimal("1.20")


def test_no_price_before_its_first_day(small_book):
    assert best_prices(date(2025, 12, 31)) == {}
    assert "rotor-9" not in best_prices(date(2026, 7, 1))


def test_best_prices_is_one_query(small_book, django_assert_num_queries):
    with django_assert_num_queries(1):
        best_prices(date(2026, 7, 1))
