"""The risk of a price: what the program found, for whoever asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.desk._verbs import make_plan_so_far
from pavewright.job import Fault, JobInvalid
from pavewright.pipeline import FOR_RISK, risk

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import PlanSoFar, Risk


def find_risk(document: str | bytes, report: Callable[[str], None] | None = None) -> Risk:
    """Return the risk of the price of a job document.

    Raises:
        JobInvalid: the document is not a job, or has no price yet; carries every fault.
    """
    return risk_of(make_plan_so_far(document, report), report)


def risk_of(made: PlanSoFar, report: Callable[[str], None] | None = None) -> Risk:
    """Return the risk of the price of a plan.

    Raises:
        JobInvalid: it has no price yet; says what is missing for one.
    """
    found = risk(made, rulebook.load(made.edition), report)
    if found is None:
        missing = tuple(Fault(each.path, each.words) for each in made.why_not(FOR_RISK))
        nothing = Fault("rates", "Nothing has a price yet: enter prices, then ask for the risk.")
        raise JobInvalid(made.faults or missing or (nothing,))
    return found
