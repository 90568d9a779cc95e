"""Whether a paper may leave the house: a paper for a customer with stops behind it says so on every page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.findings import Severity
from pavewright.quantities import GapReason

if TYPE_CHECKING:
    from pavewright.pipeline import Plan, PlanSoFar


@dataclass(frozen=True, slots=True)
class Readiness:
    """What has to be settled before a customer may get a paper.

    Attributes:
        open_points: How many findings say stop.
        of_price: How many of them are about the price alone.
        unpriced: How many things that stay with the customer have no price.
    """

    open_points: int
    of_price: int = 0
    unpriced: int = 0

    @property
    def words(self) -> str:
        """The mark for a paper; empty where nothing is open.

        >>> Readiness(3).words, Readiness(0).words
        ('Not ready to be sent: 3 open points stop this job.', '')
        >>> Readiness(1, of_price=1).words
        'Not ready to be sent: 1 open point stops this price.'
        >>> Readiness(0, unpriced=2).words
        'Not ready to be sent: 2 things that are built have no price.'
        """
        said = []
        if self.open_points:
            points = "1 open point stops" if self.open_points == 1 else f"{self.open_points} open points stop"
            said.append(f"{points} this {'price' if self.of_price == self.open_points else 'job'}")
        if self.unpriced:
            said.append(
                "1 thing that is built has no price"
                if self.unpriced == 1
                else f"{self.unpriced} things that are built have no price"
            )
        return f"Not ready to be sent: {'; '.join(said)}." if said else ""


def readiness(plan: Plan | PlanSoFar, *, beside: int = 0) -> Readiness:
    """Return how many findings of a plan say stop, how many of its payments do, and what is built without a price.

    Args:
        plan: The plan.
        beside: Findings about money that say stop and are not the plan's. [-]
    """
    stops = [each for each in plan.findings if each.severity is Severity.STOP]
    gaps = plan.cost.gaps if plan.cost is not None else ()
    unpriced = [gap for gap in gaps if gap.reason is GapReason.NO_PRICE and gap.item is not None and not gap.ours]
    return Readiness(len(stops) + beside, sum(each.of_money for each in stops) + beside, len(unpriced))
