"""The facts of a job from which its state follows, as the job writes them down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.account import account
from pavewright.job.agreed import BillKind
from pavewright.job.handover import warranty_until
from pavewright.job.on_site import SnagState
from pavewright.job.standing import VisitKind
from pavewright.order_book._states import JobFacts

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from pavewright.job import Job


def facts_of(job: Job, *, link_out: bool = False) -> JobFacts:
    """Return the facts of a job from which its state follows.

    Args:
        job: The job.
        link_out: Whether a link to its quotation was given to the customer: the document does not say so.
    """
    hand, told = job.standing.by_hand, job.handed_over
    days = tuple(_site_days(job))
    return JobFacts(
        visit_on=min((each.on for each in job.standing.visits if each.kind is not VisitKind.LATER), default=None),
        measured=_measured(job),
        quoted_on=None if job.quoted is None else job.quoted.on,
        link_out=link_out,
        accepted_on=None if job.accepted is None else job.accepted.at.date(),
        starts_on=_starts_on(job),
        begun_on=min((each for each in days if each is not None), default=None),
        begun=bool(days),
        completed_on=None if told is None else (told.completed_on or told.handed_on),
        final_bill_sent=any(each.kind is BillKind.FINAL for each in job.bills),
        snags_open=sum(each.state is SnagState.OPEN for each in job.snags),
        settled=_settled(job),
        warranty_until=warranty_until(told, job.terms.warranty_months),
        later_on=min(_later(job), default=None),
        by_hand=None if hand is None else hand.state,
        by_hand_on=None if hand is None else hand.on,
        not_taken=None if hand is None else hand.why,
    )


def _measured(job: Job) -> bool:
    """Return whether anything was read on a visit; an outline that was drawn on a sketch alone is none."""
    read = job.measurements
    readings = (read.points, read.offsets, read.curves, read.level_books, read.heights_over, job.photo_planes)
    return any(readings) or read.tape_plan is not None


def _starts_on(job: Job) -> dt.date | None:
    """Return the first day of work, as entered: the start, or the first task that is pinned where no start is."""
    return job.calendar.start or min((each.on for each in job.pins), default=None)


def _site_days(job: Job) -> Iterator[dt.date | None]:
    """Give the day of everything that was logged, read or laid while the work went on; None where it has none."""
    yield from (each.date for each in job.site_days)
    yield from (each.date for each in job.hold_checks)
    yield from (each.found_on for each in job.dig_found)
    yield from (each.since or each.on for each in job.done)
    if job.units_read or job.bags_used or (job.as_laid is not None and job.as_laid.readings):
        yield None


def _settled(job: Job) -> bool:
    """Return whether everything that was agreed is billed and paid, nothing held back."""
    if job.accepted is None or not job.bills:
        return False
    found = account(job)
    return found.is_final and found.owing_minor <= 0 and found.held_minor <= 0


def _later(job: Job) -> Iterator[dt.date]:
    """Give the days of looks at work handed over: promised, and made."""
    yield from (each.on for each in job.standing.visits if each.kind is VisitKind.LATER)
    if job.as_laid is not None:
        yield from (each.date for each in job.as_laid.later_visits)
