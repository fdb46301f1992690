"""Finding customers by name, phone however written, street or town, theirs or their sites'."""

from django.db.models import Exists, OuterRef, Q, QuerySet

from sites.models import Customer, Site

COLUMNS = ("name", "street", "postcode", "town", "email")
LEAST_DIGITS = 3
MAX_WORDS = 8


def search_customers(customers: QuerySet[Customer], words: str) -> QuerySet[Customer]:
    """Customers in whom every word is found; a phone number counts as one word."""
    words = words.replace("\x00", " ")[:200]
    digits = "".join(character for character in words if character.isdigit())
    if len(digits) >= LEAST_DIGITS and not any(character.isalpha() for character in words):
        by_phone = Q(phone_digits__contains=digits.lstrip("0") or digits)
        return customers.filter(by_phone | _everywhere(words.strip()))
    for word in words.split()[:MAX_WORDS]:
        customers = customers.filter(_everywhere(word))
    return customers


def _everywhere(word: str) -> Q:
    own, at_site = Q(), Q()
    for spelling in _spellings(word):
        for column in COLUMNS:
            own |= Q(**{f"{column}__icontains": spelling})
        for column in ("name", "street", "postcode", "town"):
            at_site |= Q(**{f"{column}__icontains": spelling})
    return own | Q(Exists(Site.objects.filter(at_site, customer=OuterRef("pk"))))


def _spellings(word: str) -> set[str]:
    """SQLite compares letters beyond ASCII as they stand, so these are asked for in each case."""
    return {word} if word.isascii() else {word, word.lower(), word.upper(), word.capitalize()}
