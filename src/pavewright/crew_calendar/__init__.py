"""Crew calendar: all jobs, people and machines of the firm on one calendar.

Each job brings its stretches of work with their waits; people bring their skills and the days on which they are away.
An arrangement says which stretch is on which days by whom, how good it is at the least, and what has no place and why.
Whoever moves a stretch by hand is told what breaks and what it costs.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.crew_calendar._arrange import ArrangingStep, Searching, arrange
    from pavewright.crew_calendar._arrangement import Arrangement, Weighed
    from pavewright.crew_calendar._breaks import Break, BreakKind, breaks_of
    from pavewright.crew_calendar._costs import CalendarCost, CurrencySum, HireCost, cost_of
    from pavewright.crew_calendar._document import (
        EMPTY_CALENDAR,
        Booking,
        CalendarDocument,
        read,
        to_text,
    )
    from pavewright.crew_calendar._moving import Moved, NoSuchStretchError, Sending, Shift, move
    from pavewright.crew_calendar._types import (
        CalendarAsked,
        CalendarJob,
        CrewMember,
        DayNeed,
        DaySpan,
        DeliveryNeed,
        HireNeed,
        NotPlaced,
        Pin,
        Placed,
        Stretch,
        WaitLink,
        WhyNot,
    )
    from pavewright.crew_calendar._words import break_words, not_placed_words, sent_words, shift_words
else:
    __getattr__ = face(__name__)

__all__ = [
    "EMPTY_CALENDAR",
    "Arrangement",
    "ArrangingStep",
    "Booking",
    "Break",
    "BreakKind",
    "CalendarAsked",
    "CalendarCost",
    "CalendarDocument",
    "CalendarJob",
    "CrewMember",
    "CurrencySum",
    "DayNeed",
    "DaySpan",
    "DeliveryNeed",
    "HireCost",
    "HireNeed",
    "Moved",
    "NoSuchStretchError",
    "NotPlaced",
    "Pin",
    "Placed",
    "Searching",
    "Sending",
    "Shift",
    "Stretch",
    "WaitLink",
    "Weighed",
    "WhyNot",
    "arrange",
    "break_words",
    "breaks_of",
    "cost_of",
    "move",
    "not_placed_words",
    "read",
    "sent_words",
    "shift_words",
    "to_text",
]
