"""What the order book of a store is asked, and what it answers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.order_book import DueItem, JobFacts, JobState
    from pavewright.store._types import JobRow


class Shelf(StrEnum):
    """Where jobs lie."""

    JOBS = "jobs"
    ARCHIVED = "archived"
    DELETED = "deleted"


class SortedBy(StrEnum):
    """By what a list is sorted."""

    CHANGED = "changed"
    TITLE = "title"
    STAGE = "stage"
    STOPS = "stops"
    PRICE = "price"


@dataclass(frozen=True, slots=True)
class JobsAsked:
    """Which jobs are wanted.

    Attributes:
        words: Words that all have to be in title, number, client or address.
        shelf: Where they lie.
        state: Only those in this state; None for all.
        unsaid: Only those whose state is not worked out yet.
        place: Only those of this place; None for all, empty for those whose address names none.
        person: Only those in which this name is among the people; empty for all.
        owing: Only those with money owing.
        lapsing_until: Only open prices that lapse until this day, today or later; None for all.
        today: The day against which prices lapse.
        sort: By what they are sorted.
        start: So many are left out before. [-]
        limit: At most so many. [-]
    """

    today: dt.date
    words: str = ""
    shelf: Shelf = Shelf.JOBS
    state: JobState | None = None
    unsaid: bool = False
    place: str | None = None
    person: str = ""
    owing: bool = False
    lapsing_until: dt.date | None = None
    sort: SortedBy = SortedBy.CHANGED
    start: int = 0
    limit: int = 100


@dataclass(frozen=True, slots=True)
class ListedJob:
    """A job of a list with what the order book keeps of it.

    Attributes:
        row: Its line of the list.
        facts: Facts from which its state follows, its links among them; None while they are not worked out.
        place: Where it is; empty where its address names no place, or that is not worked out.
        holds_until: Last day on which its price holds; None where that is not known.
        owing_minor: What is owing; None while that is not worked out. [minor units]
    """

    row: JobRow
    facts: JobFacts | None
    place: str
    holds_until: dt.date | None
    owing_minor: int | None


@dataclass(frozen=True, slots=True)
class JobsPage:
    """A page of a list of jobs.

    Attributes:
        jobs: The jobs of the page.
        total: How many there are in all that were asked for.
        states: How many there are in each state, whatever state was asked for; None for those not worked out.
    """

    jobs: tuple[ListedJob, ...]
    total: int
    states: dict[JobState | None, int]


@dataclass(frozen=True, slots=True)
class DueList:
    """What is due in all jobs.

    Attributes:
        total: How many things are due.
        items: The first of them.
    """

    total: int
    items: tuple[DueItem, ...]


@dataclass(frozen=True, slots=True)
class FirmWeek:
    """Money of all jobs in one week, in one currency.

    Attributes:
        week: Its Monday.
        currency: Money of the amounts.
        owing_minor: What unpaid bills ask for. [minor units]
        expected_minor: What is still to be billed and then paid. [minor units]
        out_minor: What goes out. [minor units]
    """

    week: dt.date
    currency: str
    owing_minor: int
    expected_minor: int
    out_minor: int


@dataclass(frozen=True, slots=True)
class FirmMoney:
    """Money of all jobs by weeks.

    Attributes:
        weeks: Weeks in which money moves, each once for each currency.
        unknown: Jobs of which not all money is known, with why.
    """

    weeks: tuple[FirmWeek, ...]
    unknown: tuple[tuple[str, str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class SavedView:
    """Filters of the list under a name.

    Attributes:
        id: Its name in the store.
        name: What people call it.
        body: The filters, as the page sends them.
    """

    id: str
    name: str
    body: dict[str, str]


@dataclass(frozen=True, slots=True)
class JobTemplate:
    """A job to begin from.

    Attributes:
        id: Its name in the store.
        name: What people call it.
        made: When it was kept, UTC.
        document: The job document; empty in a list.
    """

    id: str
    name: str
    made: str
    document: str = ""
