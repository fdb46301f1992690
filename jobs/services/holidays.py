"""The days that do not count as notice."""

import datetime

from django.db import transaction

from jobs.models import Holiday
from office import audit
from office.models import Person


@transaction.atomic
def add_holiday(*, date: datetime.date, name: str, by: Person) -> Holiday:
    """Raises ValidationError where the day is there already."""
    holiday = Holiday(date=date, name=name)
    holiday.full_clean()
    holiday.save()
    audit.record(by=by, verb="holiday.added", subject=holiday, detail={"date": str(date), "name": name})
    return holiday


@transaction.atomic
def remove_holiday(*, holiday: Holiday, by: Person) -> None:
    audit.record(
        by=by,
        verb="holiday.removed",
        subject=holiday,
        detail={"date": str(holiday.date), "name": holiday.name},
    )
    holiday.delete()
