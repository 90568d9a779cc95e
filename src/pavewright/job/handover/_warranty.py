"""Until when the firm answers for its work."""

from __future__ import annotations

import calendar
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job.handover._record import HandedOver

_MONTHS = 12


def warranty_until(told: HandedOver | None, months: int | None) -> dt.date | None:
    """Return the last day of the warranty: as entered, else so many months of the terms after completion.

    Args:
        told: What was written down at the handover; without it no last day is known.
        months: Months of the warranty by the terms; none where they state none. [months]

    Source: definition, so many months of the calendar, the last day of a shorter month
    """
    if told is None:
        return None
    if told.warranty_until is not None or told.completed_on is None or not months:
        return told.warranty_until
    done, count = told.completed_on, told.completed_on.month - 1 + months
    year, month = done.year + count // _MONTHS, count % _MONTHS + 1
    return done.replace(year=year, month=month, day=min(done.day, calendar.monthrange(year, month)[1]))
