"""Whether a paper may leave the house: a paper for a customer with stops behind it says so on every page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.findings import Severity

if TYPE_CHECKING:
    from pavewright.pipeline import Plan, PlanSoFar


@dataclass(frozen=True, slots=True)
class Readiness:
    """How many points have to be settled before a customer may get a paper.

    Attributes:
        open_points: Findings that say stop.
        of_price: How many of them are about the price alone.
    """

    open_points: int
    of_price: int = 0

    @property
    def words(self) -> str:
        """The mark for a paper; empty where nothing is open.

        >>> Readiness(3).words, Readiness(0).words
        ('Not ready to be sent: 3 open points stop this job.', '')
        >>> Readiness(1, of_price=1).words
        'Not ready to be sent: 1 open point stops this price.'
        """
        if not self.open_points:
            return ""
        said = "1 open point stops" if self.open_points == 1 else f"{self.open_points} open points stop"
        return f"Not ready to be sent: {said} this {'price' if self.of_price == self.open_points else 'job'}."


def readiness(plan: Plan | PlanSoFar, *, beside: int = 0) -> Readiness:
    """Return how many findings of a plan say stop, and how many beside it do: those of its payments.

    Args:
        plan: The plan.
        beside: Findings about money that say stop and are not the plan's. [-]
    """
    stops = [each for each in plan.findings if each.severity is Severity.STOP]
    return Readiness(len(stops) + beside, sum(each.of_money for each in stops) + beside)
