"""Reaching parts: what is missing and what is not yours to see are both a 404."""

from django.db.models import Q, QuerySet
from django.http import Http404
from rest_framework.exceptions import NotAuthenticated
from rest_framework.request import Request

from office.models import Person
from parts.models import Part


def caller(request: Request) -> Person:
    """The person behind an API request."""
    if not isinstance(request.user, Person):
        raise NotAuthenticated
    return request.user


def parts_for(person: Person) -> QuerySet[Part]:
    """The parts that this person may see: all for owner and office, none for an installer."""
    return Part.objects.all() if person.is_office else Part.objects.none()


def get_part_for(person: Person, code: str) -> Part:
    part = parts_for(person).filter(code=code).first() if "\x00" not in code else None
    if part is None:
        raise Http404("There is no such part.")
    return part


def search_parts(parts: QuerySet[Part], words: str, category: str) -> QuerySet[Part]:
    """Parts that hold every word in code or label, of that category if one is given."""
    for word in words.replace("\x00", " ").split()[:8]:
        parts = parts.filter(Q(code__icontains=word) | Q(label__icontains=word))
    return parts.filter(category=category) if category else parts
