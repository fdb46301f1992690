"""What the owner changes: the company's profile and its people."""

from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.crypto import salted_hmac

from office import audit
from office.company import get_company
from office.models import Company, Person, Role
from office.versions import save_version


@transaction.atomic
def update_company(*, by: Person, began_from: int, fields: dict[str, Any]) -> Company:
    """Save the profile; Clash where somebody saved it since version ``began_from``."""
    company = save_version(get_company(), began_from=began_from, fields=fields)
    audit.record(by=by, verb="company.changed", subject=company, detail={"fields": sorted(fields)})
    return company


@transaction.atomic
def add_person(*, by: Person, name: str, email: str, role: str, password: str) -> Person:
    person = Person.objects.create_user(email, password, name=name, role=role)
    audit.record(by=by, verb="person.added", subject=person, detail={"email": person.email, "role": role})
    return person


@transaction.atomic
def update_person(
    *, by: Person, person: Person, fields: dict[str, Any], password: str = "", began_from: str | None = None
) -> Person:
    """Change a person; the last owner who can log in stays one.

    ``began_from`` is the ``person_mark`` of what was looked at; ValidationError where somebody saved since.
    """
    list(Person.objects.select_for_update().filter(role=Role.OWNER).order_by("pk"))  # two owners at once
    stored = Person.objects.select_for_update().get(pk=person.pk)
    if began_from is not None and began_from != person_mark(stored):
        raise ValidationError(
            "Somebody else changed this person in the meantime. What you typed is still here:"
            " open the page anew beside it, compare, then save again."
        )
    for name, value in fields.items():
        setattr(stored, name, value)
    if not (stored.role == Role.OWNER and stored.is_active) and not _another_owner(stored):
        raise ValidationError("One owner must remain who can log in. Make somebody else owner first.")
    if password:
        stored.set_password(password)
    stored.full_clean(exclude=["password"])
    stored.save()
    audit.record(
        by=by, verb="person.changed", subject=stored, detail={**fields, "password_set": bool(password)}
    )
    return stored


def person_mark(person: Person) -> str:
    """Changes whenever something about the person does that the form shows."""
    shown = (person.name, person.email, person.role, person.is_active, person.password)
    return salted_hmac("office.person", repr(shown)).hexdigest()[:32]


def _another_owner(person: Person) -> bool:
    return Person.objects.filter(role=Role.OWNER, is_active=True).exclude(pk=person.pk).exists()
