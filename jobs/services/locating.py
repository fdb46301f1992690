"""Locate requests, and digging without one."""

import datetime
from dataclasses import asdict, dataclass

from django.db import transaction
from django.utils import timezone

from jobs.digging import notice_rule
from jobs.errors import Refused
from jobs.models import DigOverride, Job, Locate, TaskKind
from jobs.services.checking import tick
from jobs.working_days import NoticeRule, clear_from, day_words, expires_on
from office import audit
from office.models import Person
from office.versions import save_version

# common practice, no source
_OLDEST_DAYS = 60
_LONGEST_OVERRIDE_DAYS = 7


@dataclass(frozen=True)
class LocateTerms:
    """As the office types it; dates left out are worked out from the day of the request."""

    reference: str
    placed_on: datetime.date
    clear_from: datetime.date | None = None
    expires_on: datetime.date | None = None
    members: str = ""
    answers_complete: bool = False


@transaction.atomic
def record_locate(*, job: Job, terms: LocateTerms, by: Person) -> Locate:
    """Keep a request and check the task off. Raises Refused with the field at fault."""
    fields = _dated(terms, notice_rule())
    locate = Locate(job=job, recorded_by=by, **fields)
    locate.full_clean()
    locate.save()
    for task in job.tasks.filter(kind=TaskKind.LOCATE):
        tick(task=task, by=by, note=f"Reference {locate.reference}")
    audit.record(by=by, verb="locate.recorded", subject=job, detail=_plain(fields))
    return locate


@transaction.atomic
def amend_locate(*, locate: Locate, terms: LocateTerms, began_from: int, by: Person) -> Locate:
    """Raises Refused, or Clash where somebody else saved it in the meantime."""
    fields = _dated(terms, notice_rule())
    saved = save_version(locate, began_from=began_from, fields=fields)
    audit.record(by=by, verb="locate.amended", subject=saved.job, detail=_plain(fields))
    return saved


@transaction.atomic
def override_dig(*, job: Job, name: str, reason: str, last_day: datetime.date, by: Person) -> DigOverride:
    """Open digging without a valid locate. Raises Refused with the field at fault."""
    today = timezone.localdate()
    if not today <= last_day <= today + datetime.timedelta(days=_LONGEST_OVERRIDE_DAYS):
        sentence = (
            f"An override ends today or within {_LONGEST_OVERRIDE_DAYS} days. Renew it then if it must be."
        )
        raise Refused(sentence, "last_day")
    override = DigOverride(job=job, name=name, reason=reason, last_day=last_day, recorded_by=by)
    override.full_clean()
    override.save()
    detail = {"name": name, "reason": reason, "last_day": str(last_day)}
    audit.record(by=by, verb="job.dig_overridden", subject=job, detail=detail)
    return override


def _dated(terms: LocateTerms, rule: NoticeRule) -> dict[str, object]:
    """All fields of the row, the dates filled in and checked."""
    today = timezone.localdate()
    if terms.placed_on > today:
        raise Refused("The request cannot have been placed in the future.", "placed_on")
    if terms.placed_on < today - datetime.timedelta(days=_OLDEST_DAYS):
        raise Refused(f"That is more than {_OLDEST_DAYS} days ago. Place a new request.", "placed_on")
    earliest = clear_from(terms.placed_on, rule)
    clear = terms.clear_from or earliest
    if clear < earliest:
        sentence = (
            f"With {rule.working_days} full working days of notice, digging may start on "
            f"{day_words(earliest)}. If your locate service asks for less, the owner changes the notice "
            "in the company profile."
        )
        raise Refused(sentence, "clear_from")
    end = terms.expires_on or expires_on(terms.placed_on, rule)
    if end < clear:
        raise Refused(
            "It would expire before digging may start. Type the last day from the ticket.", "expires_on"
        )
    return asdict(terms) | {"clear_from": clear, "expires_on": end}


def _plain(fields: dict[str, object]) -> dict[str, object]:
    return {name: str(value) if isinstance(value, datetime.date) else value for name, value in fields.items()}
