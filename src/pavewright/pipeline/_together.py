"""Options that a customer takes together: the job is planned and priced with all of them, never added up."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations
from typing import TYPE_CHECKING

from pavewright.cost import added_shares
from pavewright.findings import FieldChange
from pavewright.job import JobInvalid, changed
from pavewright.laying import LaidBefore
from pavewright.pipeline._days_later import days_later
from pavewright.pipeline._offered import refused
from pavewright.pipeline._offered_types import NotOffered
from pavewright.pipeline._plan import priced

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.cost import TaxShare
    from pavewright.job import Job, OfferedOption
    from pavewright.pipeline._rooms import Rooms
    from pavewright.pipeline._types import Plan
    from pavewright.rules import Rulebook


class NotTogether(StrEnum):
    """Why options cannot be taken together."""

    SAME_THING = "same_thing"
    NO_PLAN = "no_plan"
    NO_PRICE = "no_price"
    STOPS = "stops"


@dataclass(frozen=True, slots=True)
class Together:
    """What comes of options that are taken together.

    Attributes:
        options: Their numbers in the terms of the job, in order; none is the job as it is quoted.
        total_minor: What is to pay with them, with tax; None where they cannot be had together. [minor units]
        extra_days: How many working days later the job is then done; None where one of the two has no dates. [days]
        refused: Why they cannot be had together; None where they can.
        shares: What they add to the price together, by the way in which it is taxed.
    """

    options: tuple[int, ...]
    total_minor: int | None
    extra_days: int | None
    refused: NotTogether | None
    shares: tuple[TaxShare, ...] = ()


def taken_together(
    plan: Plan,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    only: tuple[int, ...] | None = None,
) -> tuple[Together, ...]:
    """Return what comes of every set of the options that are offered, the smallest sets first.

    Args:
        plan: The plan of the job; its job holds what came from the book of the firm.
        rules: The rulebook of the plan.
        report: Takes how far it is; may raise to stop the work.
        only: The one set of several that is wanted beside the single options; None for every set.
    """
    tell = report or (lambda _: None)
    offers = {number: each for number, each in enumerate(plan.offered) if each.refused is None}
    found = [Together((), plan.cost.total_minor, 0, None)]
    for number, each in offers.items():
        extra = each.extra_minor or 0
        found.append(Together((number,), plan.cost.total_minor + extra, each.extra_days, None, each.shares))
    if len(offers) < _SEVERAL:
        return tuple(found)
    before = LaidBefore()

    def again(job: Job) -> Rooms:
        return priced(job, rules, before, lambda _: None, options=False)[0]

    here = again(plan.job)
    sets = [each for each in _sets(tuple(offers)) if only is None or each == only]
    for done, chosen in enumerate(sets, start=1):
        tell(f"options together, {done} of {len(sets)}")
        found.append(
            _of_set(here, chosen, lambda other: priced(other, rules, before, lambda _: None, options=False)[0])
        )
    return tuple(found)


_SEVERAL = 2


def _sets(numbers: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    for size in range(_SEVERAL, len(numbers) + 1):
        yield from combinations(numbers, size)


def _of_set(here: Rooms, chosen: tuple[int, ...], again: Callable[[Job], Rooms]) -> Together:
    options = [here.job.terms.options[number] for number in chosen]
    if _meet(options):
        return Together(chosen, None, None, NotTogether.SAME_THING)
    changes = [FieldChange(each.path, each.value) for option in options for each in option.changes]
    try:
        other = again(changed(here.job, changes))
    except (JobInvalid, LookupError, TypeError, AttributeError):  # together they make no job
        return Together(chosen, None, None, NotTogether.NO_PLAN)
    why = refused(here, other)
    if why is not None or other.cost is None:
        return Together(chosen, None, None, _WHY[why or NotOffered.NO_PLAN])
    days = days_later(here.job.calendar, here.programme, other.programme)
    shares = () if here.cost is None else added_shares(here.cost, other.cost)
    return Together(chosen, other.cost.total_minor, days, None, shares)


def _meet(options: list[OfferedOption]) -> bool:
    """Return whether two of the options say what the same field becomes: then one of them would be lost."""
    paths = [{each.path for each in option.changes} for option in options]
    return len(set().union(*paths)) < sum(len(each) for each in paths)


_WHY = {
    NotOffered.NO_PLAN: NotTogether.NO_PLAN,
    NotOffered.NO_PRICE: NotTogether.NO_PRICE,
    NotOffered.STOPS: NotTogether.STOPS,
}
