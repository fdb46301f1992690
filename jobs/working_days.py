"""Counting working days, and the dates that bind a locate request."""

import datetime
from collections.abc import Collection
from dataclasses import dataclass

_DAY = datetime.timedelta(days=1)
_LONGEST_LEAD = 60
_WEEKEND = (5, 6)  # Saturday and Sunday


def day_words(day: datetime.date) -> str:
    """Such as ``Wed 2 Dec 2026``."""
    return f"{day:%a} {day.day} {day:%b %Y}"


@dataclass(frozen=True)
class NoticeRule:
    """How long before digging a locate is asked for, and how long it stays valid.

    Both differ from place to place (Kansas: two full working days; Iowa: valid 25 days).
    """

    working_days: int
    valid_days: int
    holidays: frozenset[datetime.date] = frozenset()


def is_working_day(day: datetime.date, holidays: Collection[datetime.date]) -> bool:
    return day.weekday() not in _WEEKEND and day not in holidays


def add_working_days(start: datetime.date, days: int, holidays: Collection[datetime.date]) -> datetime.date:
    """The ``days``-th working day after ``start``, which itself does not count."""
    if not 0 <= days <= _LONGEST_LEAD:
        raise ValueError(f"between 0 and {_LONGEST_LEAD} working days")
    day = start
    while days:
        day += _DAY
        days -= is_working_day(day, holidays)
    return day


def clear_from(placed_on: datetime.date, rule: NoticeRule) -> datetime.date:
    """First day of digging after a request: the working day that follows the full days of notice.

    The day of the request never counts, whatever the hour: the cautious reading of "two full
    working days".
    """
    return add_working_days(placed_on, rule.working_days + 1, rule.holidays)


def expires_on(placed_on: datetime.date, rule: NoticeRule) -> datetime.date:
    """Last day of validity, counted from the request: the cautious end. The ticket may say more."""
    return placed_on + _DAY * rule.valid_days


def place_by(start_on: datetime.date, rule: NoticeRule) -> datetime.date:
    """The last day on which a request still clears by the start."""
    day = start_on
    while clear_from(day, rule) > start_on:
        day -= _DAY
    return day
