"""May anybody dig today? The one place that answers."""

import datetime
from dataclasses import dataclass
from typing import Literal

from django.utils import timezone

from jobs.models import DigOverride, Holiday, Job, Locate
from jobs.working_days import NoticeRule, clear_from, day_words
from office.company import get_company

State = Literal["none", "waiting", "unanswered", "valid", "expired", "overridden"]


@dataclass(frozen=True)
class Digging:
    """``sentence`` says what holds, and what to do where digging is closed."""

    state: State
    sentence: str
    locate: Locate | None
    override: DigOverride | None = None

    @property
    def is_open(self) -> bool:
        return self.state in ("valid", "overridden")


def notice_rule() -> NoticeRule:
    """The company's rule with the holidays that the office keeps."""
    company = get_company()
    holidays = frozenset(Holiday.objects.values_list("date", flat=True))
    return NoticeRule(company.locate_working_days, company.locate_valid_days, holidays)


def digging_on(job: Job, day: datetime.date) -> Digging:
    """Whether this job may dig on that day. Reads prefetched rows where there are some."""
    locate = next(iter(job.locates.all()), None)
    plain = _by_locate(locate, day)
    if plain.is_open:
        return plain
    override = next((o for o in job.overrides.all() if _covers(o, day)), None)
    if override is None:
        return plain
    sentence = f"Digging is open without a valid locate, on the word of {override.name}: {override.reason}"
    return Digging("overridden", sentence, locate, override)


def earliest_start(job: Job, today: datetime.date, rule: NoticeRule) -> datetime.date:
    """First day of digging: the newest locate's, or the one that a request placed today would give."""
    locate = next(iter(job.locates.all()), None)
    if locate is None or locate.expires_on < today:
        return clear_from(today, rule)
    return locate.clear_from


def _covers(override: DigOverride, day: datetime.date) -> bool:
    return timezone.localtime(override.recorded_at).date() <= day <= override.last_day


def _by_locate(locate: Locate | None, day: datetime.date) -> Digging:
    if locate is None:
        return Digging("none", "No locate has been asked for. Nobody digs: call the office.", None)
    if day < locate.clear_from:
        sentence = f"Digging may start on {day_words(locate.clear_from)}. Until then nobody digs."
        return Digging("waiting", sentence, locate)
    if day > locate.expires_on:
        sentence = f"The locate expired on {day_words(locate.expires_on)}. Stop digging and call the office."
        return Digging("expired", sentence, locate)
    if not locate.answers_complete:
        sentence = "Not every owner of buried lines has marked or answered. Nobody digs: call the office."
        return Digging("unanswered", sentence, locate)
    return Digging("valid", f"The locate is valid until {day_words(locate.expires_on)}.", locate)
