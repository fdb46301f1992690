"""Writing the audit trail."""

from typing import Any

from django.db import models

from office.models import AuditEvent, Person


def record(
    *, by: Person | None, verb: str, subject: models.Model, detail: dict[str, Any] | None = None
) -> AuditEvent:
    """Keep that ``by`` (none: the customer, or the clock) did ``verb`` to ``subject``."""
    name = f"{subject._meta.model_name}:{subject.pk}"
    return AuditEvent.objects.create(person=by, verb=verb, subject=name, detail=detail or {})
