"""Working days, and the dates of a locate request."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.working_days import NoticeRule, add_working_days, clear_from, expires_on, is_working_day, place_by

# 2026: 25 December is a Friday. Checked against the ISO calendar of Python's standard library.
CHRISTMAS = frozenset({date(2026, 12, 25)})
BOTH = frozenset({date(2026, 12, 25), date(2026, 12, 26)})


def test_the_calendar_is_as_we_think():
    assert date(2026, 12, 25).isoweekday() == 5


def test_days_are_counted_over_a_weekend():
    friday = date(2026, 11, 6)
    assert add_working_days(friday, 1, ()) == date(2026, 11, 9)
    assert add_working_days(friday, 5, ()) == date(2026, 11, 13)
    assert add_working_days(friday, 0, ()) == friday


def test_a_holiday_before_a_weekend_is_not_counted():
    wednesday = date(2026, 12, 23)
    # Thursday 24, then Friday is a holiday, Saturday and Sunday, Monday 28
    assert add_working_days(wednesday, 2, CHRISTMAS) == date(2026, 12, 28)
    # a holiday that falls on the Saturday costs nothing more
    assert add_working_days(wednesday, 2, BOTH) == date(2026, 12, 28)


def test_two_full_working_days_lie_between_request_and_digging():
    # Kansas: two full working days of notice; the day of the request does not count.
    rule = NoticeRule(2, 15)
    assert clear_from(date(2026, 11, 2), rule) == date(2026, 11, 5)  # Monday: Tue and Wed in full, dig Thu
    assert clear_from(date(2026, 11, 5), rule) == date(2026, 11, 10)  # Thursday: Fri and Mon, dig Tue


def test_a_request_on_a_saturday_counts_from_monday():
    assert clear_from(date(2026, 11, 7), NoticeRule(2, 15)) == date(2026, 11, 11)


def test_clear_date_passes_over_christmas():
    rule = NoticeRule(4, 21, CHRISTMAS)
    # Mon 21: Tue 22, Wed 23, Thu 24, (Fri 25, Sat, Sun), Mon 28 in full; dig on Tue 29
    assert clear_from(date(2026, 12, 21), rule) == date(2026, 12, 29)


def test_expiry_is_counted_in_calendar_days_from_the_request():
    # Iowa: valid 25 days.
    assert expires_on(date(2026, 11, 2), NoticeRule(2, 25)) == date(2026, 11, 27)


def test_last_day_to_ask_before_a_start():
    rule = NoticeRule(2, 15)
    assert place_by(date(2026, 11, 5), rule) == date(2026, 11, 2)
    assert place_by(date(2026, 11, 9), rule) == date(2026, 11, 4)


@given(
    start=st.dates(date(2024, 1, 1), date(2030, 1, 1)),
    lead=st.integers(0, 10),
    off=st.sets(st.integers(0, 30), max_size=5),
)
def test_notice_holds_so_many_working_days_whatever_the_calendar(start, lead, off):
    holidays = frozenset(start + timedelta(days=n) for n in off)
    rule = NoticeRule(lead, 21, holidays)
    clear = clear_from(start, rule)
    between = [start + timedelta(days=n) for n in range(1, (clear - start).days)]
    assert sum(is_working_day(day, holidays) for day in between) == lead
    assert is_working_day(clear, holidays)
    asked = place_by(clear, rule)
    assert start <= asked < clear
    assert clear_from(asked, rule) <= clear < clear_from(asked + timedelta(days=1), rule)


@pytest.mark.parametrize("days", [-1, 61])
def test_absurd_leads_are_refused(days):
    with pytest.raises(ValueError, match="working days"):
        add_working_days(date(2026, 11, 2), days, ())
