"""The small price book, taken in."""

import pytest

from tests.parts.books import book


@pytest.fixture
def small_book(db):
    from parts.services import import_price_book

    return import_price_book(book(), None)
