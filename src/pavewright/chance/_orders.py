"""Orders under chance: how much to order where too little costs one thing and too much another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

_WHOLE = 1e-9


@dataclass(frozen=True, slots=True)
class OrderCosts:
    """What an order costs in the mean.

    Attributes:
        ordered: How many steps are ordered. [packs]
        short: Chance that it runs short. [-]
        mean: What it costs in the mean: what is ordered, and what running short costs. [money]
    """

    ordered: int
    short: float
    mean: float


def order_at_chance(short_cost: float, over_cost: float) -> float:
    """Return the chance at which an order costs least in the mean, each missing one costing alike and each spare one.

    Args:
        short_cost: What one too few costs. [money]
        over_cost: What one too many costs. [money]

    Source: newsvendor, chance = short / (short + over)

    >>> round(order_at_chance(8.0, 4.0), 4)
    0.6667
    """
    return short_cost / (short_cost + over_cost)


def order_costs(
    needs: NDArray[np.float64], ordered: int, each: float, again: float, each_again: float | None = None
) -> OrderCosts:
    """Return what an order costs in the mean over draws of what is needed.

    Args:
        needs: What each draw needs, in steps, shape (draws,); not rounded. [packs]
        ordered: How many are ordered. [packs]
        each: Price of one step. [money]
        again: What running short costs once, whatever the number: a second delivery and what waits for it. [money]
        each_again: Price of one step when it is ordered later; ``each`` where it is None. [money]

    Source: definition, mean of price · ordered + again · (short at all) + later price · (missing, rounded up)
    """
    missing = np.maximum(np.ceil(needs - ordered - _WHOLE), 0.0)
    short = missing > 0.0
    later = each if each_again is None else each_again
    return OrderCosts(
        ordered, float(short.mean()), each * ordered + again * float(short.mean()) + later * float(missing.mean())
    )


def best_order(needs: NDArray[np.float64], each: float, again: float, each_again: float | None = None) -> OrderCosts:
    """Return the order that costs least in the mean; of several, the smallest.

    Args:
        needs: What each draw needs, in steps, shape (draws,). [packs]
        each: Price of one step. [money]
        again: What running short costs once. [money]
        each_again: Price of one step when it is ordered later; ``each`` where it is None. [money]
    """
    low, high = (int(np.ceil(end - _WHOLE)) for end in (needs.min(), needs.max()))
    stride = max(1, (high - low) // 256)
    tried = [order_costs(needs, count, each, again, each_again) for count in range(low, high + stride, stride)]
    best = min(tried, key=lambda found: (found.mean, found.ordered))
    if stride == 1:
        return best
    near = range(max(low, best.ordered - stride), best.ordered + stride + 1)
    tried = [order_costs(needs, count, each, again, each_again) for count in near]
    return min(tried, key=lambda found: (found.mean, found.ordered))
