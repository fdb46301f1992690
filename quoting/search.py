"""Filtering and searching the quote list."""

import re

from django.db.models import Q, QuerySet

from quoting.models import Quote, Status

_YEARLY = re.compile(r"^(\d{4})-(\d{1,9})(?:/(\d{1,5}))?$")


def search_quotes(quotes: QuerySet[Quote], words: str, status: str) -> QuerySet[Quote]:
    """Quotes of that status, if it is one, whose number, customer, site or town holds every word."""
    if status in Status.values:
        quotes = quotes.filter(status=status)
    for word in words.replace("\x00", " ").split()[:6]:
        quotes = quotes.filter(_holds(word))
    return quotes


def _holds(word: str) -> Q:
    site = Q(site__town__icontains=word) | Q(site__name__icontains=word)
    found = Q(site__customer__name__icontains=word) | Q(site__customer__town__icontains=word) | site
    if match := _YEARLY.match(word):
        year, number, revision = match.groups()
        exact = Q(number_year=int(year), number=int(number))
        return found | (exact & Q(revision=int(revision)) if revision else exact)
    if word.isdecimal() and word.isascii() and len(word) <= 9:
        return found | Q(number=int(word))
    return found
