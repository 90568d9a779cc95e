"""Order book: how far every job of the firm is, what is due today and why, and when money comes in and goes out.

How far a job is follows from what is written down in it: measured, quoted, accepted, dated, begun, complete, paid. What
a person sets by hand wins, and says so. What is due is worked out from days that the rooms of a plan know, against a
day that is given. What is not known is named; it is never zero.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.standing import JobState, NotTaken, VisitKind
    from pavewright.order_book._book import book_of
    from pavewright.order_book._due import ACCEPTED_DAYS, MOST_AHEAD_DAYS, SHOWN, SILENT_DAYS, due_items, place_in_list
    from pavewright.order_book._due_types import (
        MONEY_KINDS,
        DueFact,
        DueItem,
        DueKind,
        DueWhen,
        JobBook,
        JobDues,
        MoneyGap,
        MoneyWeek,
    )
    from pavewright.order_book._facts import facts_of
    from pavewright.order_book._kept import facts_back
    from pavewright.order_book._places import place_of
    from pavewright.order_book._states import (
        ENDS,
        OPEN_STATES,
        ORDER,
        PRICING_STATES,
        JobFacts,
        StateReason,
        Why,
        follows_from,
        state_of,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "ACCEPTED_DAYS",
    "ENDS",
    "MONEY_KINDS",
    "MOST_AHEAD_DAYS",
    "OPEN_STATES",
    "ORDER",
    "PRICING_STATES",
    "SHOWN",
    "SILENT_DAYS",
    "DueFact",
    "DueItem",
    "DueKind",
    "DueWhen",
    "JobBook",
    "JobDues",
    "JobFacts",
    "JobState",
    "MoneyGap",
    "MoneyWeek",
    "NotTaken",
    "StateReason",
    "VisitKind",
    "Why",
    "book_of",
    "due_items",
    "facts_back",
    "facts_of",
    "follows_from",
    "place_in_list",
    "place_of",
    "state_of",
]
