"""The risk of a price: what the program found, for whoever asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.desk._verbs import make_plan_so_far
from pavewright.job import Fault, JobInvalid
from pavewright.pipeline import FOR_RISK, MOST_DRAWS, REPLICATES, USUAL_DRAWS, risk, risk_study

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import PlanSoFar, Risk, RiskStudy


def find_risk(document: str | bytes, report: Callable[[str], None] | None = None) -> Risk:
    """Return the risk of the price of a job document.

    Raises:
        JobInvalid: the document is not a job, or has no price yet; carries every fault.
    """
    return risk_of(make_plan_so_far(document, report), report)


def risk_of(made: PlanSoFar, report: Callable[[str], None] | None = None, draws: int = USUAL_DRAWS) -> Risk:
    """Return the risk of the price of a plan.

    Args:
        made: The plan.
        report: Takes what is being done; may raise to stop the work.
        draws: Draws in each replicate, a power of two. [-]

    Raises:
        JobInvalid: it has no price yet; says what is missing for one.
    """
    found = risk(made, rulebook.load(made.edition), report, draws)
    if found is None:
        raise _no_price(made)
    return found


def study_of(made: PlanSoFar, draws: int = USUAL_DRAWS) -> RiskStudy:
    """Return the study of the risk of a price in parts, for an engine.

    Args:
        made: The plan.
        draws: Draws in each replicate, a power of two. [-]

    Raises:
        JobInvalid: it has no price yet; says what is missing for one.
    """
    found = risk_study(made, rulebook.load(made.edition), draws)
    if found is None:
        raise _no_price(made)
    return found


def draws_for(cases: int) -> int:
    """Return how many draws each replicate has, so that together they are so many cases at least: a power of two.

    Args:
        cases: How many cases are wanted. [-]

    >>> draws_for(10_000)
    2048
    """
    each = -(-cases // REPLICATES)
    return min(max(1 << (each - 1).bit_length(), USUAL_DRAWS), MOST_DRAWS)


def _no_price(made: PlanSoFar) -> JobInvalid:
    missing = tuple(Fault(each.path, each.words) for each in made.why_not(FOR_RISK))
    nothing = Fault("rates", "Nothing has a price yet: enter prices, then ask for the risk.")
    return JobInvalid(made.faults or missing or (nothing,))
