"""The check of finished paving as papers tell it: with standing water in its verdict, worked out once for a plan."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.as_laid import with_standing
from pavewright.as_laid.standing import standing
from pavewright.papers._words import day

if TYPE_CHECKING:
    from pavewright.as_laid import AsLaidReport
    from pavewright.as_laid.standing import AreaStanding
    from pavewright.pipeline import Plan


class _Same:
    """A plan that is the same only as itself."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.plan is self.plan

    def __hash__(self) -> int:
        return id(self.plan)


@lru_cache(maxsize=1)
def _standing(same: _Same) -> tuple[AreaStanding, ...]:
    plan = same.plan
    return standing(plan.job, plan.survey, plan.levels, rulebook.load(plan.edition))


def standing_of(plan: Plan) -> tuple[AreaStanding, ...]:
    """Return what stands on every area that was read."""
    return _standing(_Same(plan))


def judged_of(plan: Plan) -> AsLaidReport | None:
    """Return the check of the finished paving with standing water in its verdict; None where nothing was read."""
    return None if plan.as_laid is None else with_standing(plan.as_laid, standing_of(plan))


def read_on(plan: Plan) -> str:
    """Return the day on which the finished paving was read, or first looked at; nothing where it was not."""
    taken = plan.job.as_laid
    if taken is not None:
        return day(taken.date)
    dates = [*(each.date for each in plan.job.hose_tests), *(each.date for each in plan.job.drain_marks)]
    return day(min(dates)) if dates else ""
