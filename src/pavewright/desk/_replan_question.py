"""What a re-planning of all jobs asks: what changed, since when, and of which jobs."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.firm import read, to_text
from pavewright.order_book import OPEN_STATES, PRICING_STATES

if TYPE_CHECKING:
    from pavewright.job.standing import JobState
    from pavewright.store import Store

STATES = OPEN_STATES | PRICING_STATES
"""States of the jobs that are planned again where nobody says others."""


class Of(StrEnum):
    """What changed."""

    PRICES = "prices"
    OUTPUTS = "outputs"
    EDITION = "edition"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class ReplanQuestion:
    """What is asked.

    Attributes:
        of: What changed: everything else is as it was before.
        since: Revision of the book to which the one of today is compared; None for the one before it.
        states: States of the jobs that are planned again.
    """

    of: Of = Of.ALL
    since: int | None = None
    states: frozenset[JobState] = STATES


@dataclass(frozen=True, slots=True)
class Books:
    """The two books of a question.

    Attributes:
        old: The book as it was; None where there was none.
        new: The book by which jobs are planned again.
    """

    old: str | None
    new: str | None


@dataclass(slots=True)
class ReplanCounts:
    """What a run did.

    Attributes:
        jobs: Jobs of the run.
        planned: Sides that were planned.
        kept: Sides that were known from before.
        twins: Sides that are the same as the other one of their job.
    """

    jobs: int = 0
    planned: int = 0
    kept: int = 0
    twins: int = 0


def books_of(store: Store, question: ReplanQuestion) -> Books:
    """Return the two books that a question compares.

    Args:
        store: Where they are kept.
        question: What is asked.
    """
    kept = store.firm.book()
    if not kept.rev:
        return Books(None, None)
    since = kept.rev - 1 if question.since is None else question.since
    then = None if since < 1 else store.firm.revision(since)
    old = kept.document if then is None else then.document
    if question.of is Of.EDITION:
        return Books(kept.document, kept.document)
    if question.of is Of.ALL:
        return Books(old, kept.document)
    return Books(old, _mixed(old, kept.document, outputs=question.of is Of.OUTPUTS))


def _mixed(old: str, new: str, *, outputs: bool) -> str:
    """Return a book with the prices of one revision and the outputs of another."""
    before, after = read(old), read(new)
    priced, worked = (before, after) if outputs else (after, before)
    crew = priced.crew.model_copy(update={"outputs": worked.crew.outputs})
    return to_text(priced.model_copy(update={"outputs": worked.outputs, "past": worked.past, "crew": crew}))
