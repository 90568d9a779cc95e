"""A stretch moved by hand, to another day or to other people: what goes along, what breaks, and what it costs."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.crew_calendar._breaks import breaks_of
from pavewright.crew_calendar._costs import cost_of
from pavewright.crew_calendar._days import board_of, links_into
from pavewright.crew_calendar._types import Placed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.crew_calendar._breaks import Break
    from pavewright.crew_calendar._costs import CalendarCost
    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarAsked, CalendarJob


class NoSuchStretchError(LookupError):
    """There is no such stretch in the arrangement, or no day of work from there on."""


@dataclass(frozen=True, slots=True)
class Sending:
    """Who is sent to a stretch instead.

    Attributes:
        comes: Who goes there.
        leaves: Who no longer goes, on the days on which they would have; None for everybody.
    """

    comes: tuple[str, ...]
    leaves: tuple[str, ...] | None = None

    def crew(self, before: tuple[str, ...]) -> tuple[str, ...]:
        """Return who is there on a day, of who was there."""
        if self.leaves is None:
            return tuple(sorted(set(self.comes)))
        left = set(self.leaves)
        return tuple(sorted({*before} - left | set(self.comes))) if left & set(before) else before


@dataclass(frozen=True, slots=True)
class Shift:
    """A stretch that goes along.

    Attributes:
        job: Which job.
        stretch: Which stretch, from 0.
        before: Its first day as it was.
        after: Its first day now.
    """

    job: str
    stretch: int
    before: dt.date
    after: dt.date

    @property
    def days(self) -> int:
        """By how many days it is later; below zero where it is earlier. [days]."""
        return (self.after - self.before).days


@dataclass(frozen=True, slots=True)
class Moved:
    """An arrangement after a move by hand.

    Attributes:
        placed: The arrangement.
        shifts: What moved, the stretch itself first, then what has to wait for it.
        broken: What breaks now and did not before.
        mended: What was broken before and is not now.
        before: What it cost before.
        after: What it costs now.
        sent_days: On how many of its days other people are sent. [days]
    """

    placed: tuple[Placed, ...]
    shifts: tuple[Shift, ...]
    broken: tuple[Break, ...]
    mended: tuple[Break, ...]
    before: CalendarCost
    after: CalendarCost
    sent_days: int = 0


def move(
    asked: CalendarAsked,
    placed: Sequence[Placed],
    job: str,
    stretch: int,
    to: dt.date,
    sending: Sending | None = None,
) -> Moved:
    """Return an arrangement with a stretch on other days, with the same people or with others.

    What comes later in the same job goes along as far as it has to wait for it; nothing else gives way: what is in its
    way is told.

    Args:
        asked: What is asked.
        placed: The arrangement as it stands.
        job: Which job.
        stretch: Which stretch, from 0.
        to: Its first day; the next day of work where there is no work on it.
        sending: Who is sent instead; None for those who are sent now.

    Raises:
        NoSuchStretchError: there is no such stretch or person, or no day of work from there on.
    """
    board = board_of(asked)
    stands = {(each.job, each.stretch): each for each in placed}
    if (job, stretch) not in stands or job not in board.jobs or stretch >= len(board.jobs[job].stretches):
        raise NoSuchStretchError(job)
    now = dict(stands)
    now[job, stretch] = _shifted(board, board.jobs[job], stands[job, stretch], to)
    as_sent = now[job, stretch]
    if sending is not None:
        now[job, stretch] = _sent_to(asked, as_sent, sending)
    links = links_into(board.jobs[job])
    for later in range(stretch + 1, len(board.jobs[job].stretches)):
        if (job, later) in now:
            due = _due(now, job, later, links[later])
            if now[job, later].days[0] < due:
                now[job, later] = _shifted(board, board.jobs[job], now[job, later], due)
    after = tuple(sorted(now.values(), key=lambda each: (each.days[0], each.job, each.stretch)))
    had, has = breaks_of(asked, placed), breaks_of(asked, after)
    shifts = tuple(
        Shift(job, number, stands[job, number].days[0], now[job, number].days[0])
        for number in range(stretch, len(board.jobs[job].stretches))
        if (job, number) in now and now[job, number].days != stands[job, number].days
    )
    return Moved(
        placed=after,
        shifts=shifts,
        broken=tuple(each for each in has if each not in had),
        mended=tuple(each for each in had if each not in has),
        before=cost_of(asked, placed),
        after=cost_of(asked, after),
        sent_days=sum(here != was for here, was in zip(now[job, stretch].crew, as_sent.crew, strict=True)),
    )


def _sent_to(asked: CalendarAsked, each: Placed, sending: Sending) -> Placed:
    """Return a stretch with other people on it."""
    if not set(sending.comes) <= {one.id for one in asked.people}:
        raise NoSuchStretchError(each.job)
    return replace(each, crew=tuple(sending.crew(crew) for crew in each.crew))


def _due(
    now: dict[tuple[str, int], Placed], job: str, stretch: int, links: Sequence[tuple[int, int, int, int]]
) -> dt.date:
    """Return the first day that a stretch may begin on, as what it waits for stands."""
    own = now[job, stretch].days
    due = dt.date.min
    for other, at, place, apart in links:
        if (job, other) in now and at < len(now[job, other].days) and place < len(own):
            ready = now[job, other].days[at] + dt.timedelta(days=apart)
            due = max(due, ready - (own[place] - own[0]))
    return due


def _shifted(board: Board, job: CalendarJob, each: Placed, to: dt.date) -> Placed:
    """Return a stretch from a day on, on days on which there is work on its job."""
    length = len(job.stretches[each.stretch].days)
    usable = [day for day in board.days if day >= to and job.open_on(day)][:length]
    if len(usable) < length:
        raise NoSuchStretchError(each.job)
    crew = tuple(each.crew[min(place, len(each.crew) - 1)] for place in range(length))
    return Placed(each.job, each.stretch, tuple(usable), crew)
