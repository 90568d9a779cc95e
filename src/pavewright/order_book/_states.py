"""How far a job is, as it follows from what is written down in it, and why."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job.standing import JobState, NotTaken

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

ORDER = (
    JobState.ENQUIRY,
    JobState.VISIT,
    JobState.QUOTED,
    JobState.ACCEPTED,
    JobState.PLANNED,
    JobState.ON_SITE,
    JobState.SNAGGING,
    JobState.PAID,
    JobState.WATCHED,
)
"""The states in the order of a job."""
ENDS = frozenset({JobState.LOST, JobState.DECLINED})
"""States of jobs that are not done: a person alone sets them."""
OPEN_STATES = frozenset({JobState.ACCEPTED, JobState.PLANNED, JobState.ON_SITE})
"""States of jobs that take days of the crew."""
PRICING_STATES = frozenset({JobState.ENQUIRY, JobState.VISIT, JobState.QUOTED})
"""States of jobs whose price is still open."""


class Why(StrEnum):
    """What a state rests on."""

    NOTHING_YET = "nothing_yet"
    VISIT_PROMISED = "visit_promised"
    MEASURED = "measured"
    QUOTED = "quoted"
    LINK_OUT = "link_out"
    ACCEPTED = "accepted"
    DATED = "dated"
    BEGUN = "begun"
    COMPLETE = "complete"
    FINAL_BILL = "final_bill"
    SETTLED = "settled"
    WARRANTY = "warranty"
    LATER_VISIT = "later_visit"
    BY_HAND = "by_hand"


@dataclass(frozen=True, slots=True)
class JobFacts:
    """Facts of a job from which its state follows; what is left out is not written down.

    Attributes:
        visit_on: First day on which a visit was promised.
        measured: Whether anything of the site was measured.
        quoted_on: Day of the quotation.
        link_out: Whether a link to the quotation was given to the customer.
        accepted_on: Day on which the customer accepted.
        starts_on: First day of work, where one is entered.
        begun_on: First day on which something was logged, read or laid on site; None where no day of it is known.
        begun: Whether something was logged, read or laid on site.
        completed_on: Day on which the work was complete, or handed over.
        final_bill_sent: Whether the last bill was sent.
        snags_open: Snags that are still to be put right.
        settled: Whether everything that was agreed is billed and paid.
        warranty_until: Last day of the warranty, where one was promised.
        later_on: First day on which a look at work handed over was promised or made.
        by_hand: State that a person set; None where nobody did.
        by_hand_on: Day on which it was set.
        not_taken: Why the job is not done, where a person said so.
    """

    visit_on: dt.date | None = None
    measured: bool = False
    quoted_on: dt.date | None = None
    link_out: bool = False
    accepted_on: dt.date | None = None
    starts_on: dt.date | None = None
    begun_on: dt.date | None = None
    begun: bool = False
    completed_on: dt.date | None = None
    final_bill_sent: bool = False
    snags_open: int = 0
    settled: bool = False
    warranty_until: dt.date | None = None
    later_on: dt.date | None = None
    by_hand: JobState | None = None
    by_hand_on: dt.date | None = None
    not_taken: NotTaken | None = None


@dataclass(frozen=True, slots=True)
class StateReason:
    """Why a job is in its state.

    Attributes:
        why: What the state rests on.
        on: Its day, where one is known.
        follows: State that follows from the job by itself; another one than the state where a person set that by hand.
        not_taken: Why the job is not done, where a person said so.
        snags_open: Snags that are still to be put right.
    """

    why: Why
    on: dt.date | None
    follows: JobState
    not_taken: NotTaken | None = None
    snags_open: int = 0


def state_of(facts: JobFacts) -> tuple[JobState, StateReason]:
    """Return how far a job is, and why: what a person set by hand, otherwise what follows from the job.

    Args:
        facts: Facts of the job.

    >>> state_of(JobFacts(measured=True))[0].value
    'visit'
    >>> state, reason = state_of(JobFacts(measured=True, by_hand=JobState.LOST))
    >>> state.value, reason.why.value, reason.follows.value
    ('lost', 'by_hand', 'visit')
    """
    follows, why, on = follows_from(facts)
    if facts.by_hand is not None:
        said = facts.not_taken if facts.by_hand in ENDS else None
        return facts.by_hand, StateReason(Why.BY_HAND, facts.by_hand_on, follows, said, facts.snags_open)
    return follows, StateReason(why, on, follows, None, facts.snags_open)


def follows_from(facts: JobFacts) -> tuple[JobState, Why, dt.date | None]:
    """Return the state that follows from a job by itself: the furthest of which something is written down.

    Something more that is written down never moves a job back.

    Args:
        facts: Facts of the job.
    """
    return max(_shown(facts), key=lambda each: ORDER.index(each[0]))


def _shown(facts: JobFacts) -> Iterator[tuple[JobState, Why, dt.date | None]]:
    """Give every state of which something is written down; of two reasons for one the first is told."""
    yield JobState.ENQUIRY, Why.NOTHING_YET, None
    if facts.measured:
        yield JobState.VISIT, Why.MEASURED, None
    if facts.visit_on is not None:
        yield JobState.VISIT, Why.VISIT_PROMISED, facts.visit_on
    if facts.quoted_on is not None:
        yield JobState.QUOTED, Why.QUOTED, facts.quoted_on
    if facts.link_out:
        yield JobState.QUOTED, Why.LINK_OUT, None
    yield from _shown_since_accepted(facts)


def _shown_since_accepted(facts: JobFacts) -> Iterator[tuple[JobState, Why, dt.date | None]]:
    if facts.accepted_on is not None:
        yield JobState.ACCEPTED, Why.ACCEPTED, facts.accepted_on
        if facts.starts_on is not None:
            yield JobState.PLANNED, Why.DATED, facts.starts_on
    if facts.begun:
        yield JobState.ON_SITE, Why.BEGUN, facts.begun_on
    if facts.completed_on is not None:
        yield JobState.SNAGGING, Why.COMPLETE, facts.completed_on
    if facts.final_bill_sent:
        yield JobState.SNAGGING, Why.FINAL_BILL, None
    if facts.settled:
        yield JobState.PAID, Why.SETTLED, None
        if facts.warranty_until is not None:
            yield JobState.WATCHED, Why.WARRANTY, facts.warranty_until
        if facts.later_on is not None:
            yield JobState.WATCHED, Why.LATER_VISIT, facts.later_on
