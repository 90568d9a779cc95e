"""Chance: how far an answer may be off, from how far each thing that goes into it may be off.

Everything that is not certain is drawn many times from a fixed row of even numbers, so that the same question brings
the same answer on every machine. From the draws come quantiles with their error, the share that each cause has in the
spread, the order that costs least in the mean, and what a crew's own jobs say about its output.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.chance._draws import MAX_CAUSES, MAX_DRAWS, even_draws, leaning
    from pavewright.chance._learning import Learnt, credible, learnt_output, shrunk
    from pavewright.chance._orders import OrderCosts, best_order, order_at_chance, order_costs
    from pavewright.chance._quantiles import Quantile, chance_of, quantile_of
    from pavewright.chance._shapes import Breakages, Even, Fixed, Normal, Shape, Triangle
    from pavewright.chance._shares import Share, shares_of, swapped, variance_shares
    from pavewright.chance._sums_chance import SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "MAX_CAUSES",
    "MAX_DRAWS",
    "SUMS",
    "Breakages",
    "Even",
    "Fixed",
    "Learnt",
    "Normal",
    "OrderCosts",
    "Quantile",
    "Shape",
    "Share",
    "Triangle",
    "best_order",
    "chance_of",
    "credible",
    "even_draws",
    "leaning",
    "learnt_output",
    "order_at_chance",
    "order_costs",
    "quantile_of",
    "shares_of",
    "shrunk",
    "swapped",
    "variance_shares",
]
