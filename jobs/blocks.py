"""What a job still waits for."""

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from jobs.digging import digging_on, earliest_start
from jobs.models import Booking, Job, Result
from jobs.working_days import NoticeRule, day_words, place_by


@dataclass(frozen=True)
class Block:
    sentence: str
    urgent: bool


@dataclass(frozen=True)
class Today:
    """The day, and the notice rule that holds on it."""

    day: datetime.date
    rule: NoticeRule


def blocks_of(job: Job, today: Today, results: dict[int, str]) -> list[Block]:
    """In the order in which they should be taken up; ``results`` is the newest result by task."""
    if job.finished_at is not None:
        return []
    problems = sum(result in (Result.PROBLEM, Result.SHORT) for result in results.values())
    found = list(_locate_blocks(job, today))
    if problems:
        found.insert(0, Block(_problem_words(problems), True))
    if job.start_on is None:
        earliest = earliest_start(job, today.day, today.rule)
        found.append(Block(f"No start date yet; the earliest is {day_words(earliest)}", False))
    if not job.crew.all():
        found.append(Block("Nobody is assigned", job.start_on is not None))
    return found + [block for booking in job.bookings.all() for block in _booking_blocks(booking, job)]


def _locate_blocks(job: Job, today: Today) -> Iterator[Block]:
    digging = digging_on(job, today.day)
    locate = digging.locate
    if digging.state == "overridden":
        yield Block("Digging without a valid locate, by override", True)
    elif locate is None:
        yield _unplaced(job, today)
    elif digging.state == "waiting":
        yield Block(f"Digging may start on {day_words(locate.clear_from)}", False)
    elif digging.state == "unanswered":
        yield Block("Owners of buried lines have not all answered", True)
    elif digging.state == "expired":
        yield Block(f"The locate expired on {day_words(locate.expires_on)}: ask again", True)
    if locate is not None and job.start_on and today.day < job.start_on > locate.expires_on:
        yield Block("The locate will have expired before the start: ask again in time", True)


def _unplaced(job: Job, today: Today) -> Block:
    if job.start_on is None:
        return Block("No locate has been asked for", True)
    last = place_by(job.start_on, today.rule)
    if last < today.day:
        return Block("No locate has been asked for, and it is too late for the start date", True)
    return Block(f"No locate has been asked for: ask by {day_words(last)}", True)


def _booking_blocks(booking: Booking, job: Job) -> Iterator[Block]:
    name = booking.get_trade_display()
    if booking.done_on is not None:
        return
    if booking.booked_on is None:
        yield Block(f"{name} not booked", job.start_on is not None)
    elif not booking.licence_number:
        yield Block(f"{name}: licence number missing", False)
    else:
        yield Block(f"{name} comes on {day_words(booking.booked_on)}", False)


def _problem_words(count: int) -> str:
    return (
        "A problem is reported from the site"
        if count == 1
        else f"{count} problems are reported from the site"
    )
