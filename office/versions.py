"""Optimistic locking: a save names the version that it began from, or is refused."""

from typing import TypeVar

from django.core.exceptions import ValidationError
from django.db import transaction

from office.models import Versioned

V = TypeVar("V", bound=Versioned)


class Clash(ValidationError):
    """Somebody else saved the same row in the meantime; ``current`` is what stands now."""

    def __init__(self, current: Versioned) -> None:
        self.current = current
        super().__init__(
            "Somebody else saved this in the meantime."
            " What you typed is still here: compare, then save again.",
            code="clash",
        )


def save_version(row: V, *, began_from: int, fields: dict[str, object]) -> V:
    """Set ``fields`` and save if the stored row still has version ``began_from``; else Clash."""
    with transaction.atomic():
        stored = type(row)._default_manager.select_for_update().get(pk=row.pk)
        if stored.version != began_from:
            raise Clash(stored)
        for name, value in fields.items():
            setattr(stored, name, value)
        stored.version = began_from + 1
        stored.full_clean()
        stored.save()
    return stored
