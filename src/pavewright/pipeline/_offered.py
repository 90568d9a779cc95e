"""Options that are offered to the customer: each planned and priced by itself, as a difference to the price."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import RangeKind, added_shares
from pavewright.findings import FieldChange, Severity
from pavewright.job import JobInvalid, changed
from pavewright.pipeline._days_later import days_later
from pavewright.pipeline._offered_types import NotOffered, Offered

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.job import Job, OfferedOption
    from pavewright.pipeline._rooms import Rooms


def offered(here: Rooms, again: Callable[[Job], Rooms]) -> Iterator[Offered]:
    """Give the options of the terms, each planned by itself with its changes; nothing where the job has no price.

    Nothing either where the quotation was accepted: what was taken then is in the job, and what changes now is a
    variation.

    Args:
        here: Rooms as far as the price.
        again: Makes the same rooms of a changed job.
    """
    if here.cost is None or here.job.accepted is not None:
        return
    for option in here.job.terms.options:
        other = _planned(here.job, option, again)
        why = refused(here, other)
        if other is None or other.cost is None or why is not None:
            yield Offered(option.name, None, None, why)
        else:
            days = days_later(here.job.calendar, here.programme, other.programme)
            extra = other.cost.total_minor - here.cost.total_minor
            yield Offered(option.name, extra, days, None, added_shares(here.cost, other.cost))


def _planned(job: Job, option: OfferedOption, again: Callable[[Job], Rooms]) -> Rooms | None:
    """Return the rooms of a job with an option; None where its changes make no job."""
    changes = [FieldChange(each.path, each.value) for each in option.changes]
    try:
        return again(changed(job, changes))
    except (JobInvalid, LookupError, TypeError, AttributeError):  # a path that leads nowhere in the document
        return None


def refused(here: Rooms, other: Rooms | None) -> NotOffered | None:
    """Return why an option is not offered: no plan, something more without a price, or a stop that was not there."""
    if other is None or (other.cost is None and other.levels is None):
        return NotOffered.NO_PLAN
    if here.cost is None or other.cost is None or other.cost.range_kind is RangeKind.NOT_KNOWN:
        return NotOffered.NO_PRICE
    if {gap.words for gap in other.cost.gaps} - {gap.words for gap in here.cost.gaps}:
        return NotOffered.NO_PRICE
    return NotOffered.STOPS if _stops(other) - _stops(here) else None


def _stops(made: Rooms) -> set[tuple[str, str]]:
    return {(each.code, each.place) for each in made.findings if each.severity is Severity.STOP}
