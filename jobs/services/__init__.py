"""Every write of the jobs app."""

from jobs.services.checking import Entry, check_off
from jobs.services.holidays import add_holiday, remove_holiday
from jobs.services.locating import LocateTerms, amend_locate, override_dig, record_locate
from jobs.services.making import job_from_quote, make_job_after_accept
from jobs.services.planning import Schedule, finish_job, plan_job, reopen_job, save_booking

__all__ = [
    "Entry", "LocateTerms", "Schedule", "add_holiday", "amend_locate", "check_off", "finish_job",
    "job_from_quote", "make_job_after_accept", "override_dig", "plan_job", "record_locate", "remove_holiday",
    "reopen_job", "save_booking",
]  # fmt: skip
