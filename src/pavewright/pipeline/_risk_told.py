"""What a risk study found, put together of the draws."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import best_order, chance_of, order_costs, quantile_of
from pavewright.cost import RangeKind
from pavewright.pipeline._risk_short import again_minor
from pavewright.pipeline._risk_types import Driver, OrderChance, OrderStep, PriceAt, Risk
from pavewright.pipeline._risk_words import cause_words

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.chance import Quantile, Share
    from pavewright.cost import Cost, CostLine, LineKey
    from pavewright.pipeline._risk_model import RiskModel
    from pavewright.pipeline._risk_types import CauseKey, FactChange
    from pavewright.pipeline._types import Plan
    from pavewright.quantities import Item

    Row = NDArray[np.float64]

_CHANCES = (0.1, 0.5, 0.8, 0.9)
_ORDER_CHANCES = (0.5, 0.8, 0.9)
_TENTHS = (0.1, 0.9)
_WHOLE = 1e-9


def risk_told(
    model: RiskModel,
    replicates: list[list[Row]],
    drawn: tuple[int, int],
    drivers: tuple[Driver, ...],
    facts: tuple[FactChange, ...],
) -> Risk:
    """Return the risk of a price.

    Args:
        model: The price as a function of what nobody knows.
        replicates: Of each replicate which lines moved, shape (lines,), then price, cost with overhead and the need of
            each item that comes in packs, shape (draws,), float64.
        drawn: How many draws each replicate has, and the seed of the first.
        drivers: What moves the price.
        facts: What one other fact would do.
    """
    cost = model.made.cost
    moved, totals, burdened = ([rows[place] for rows in replicates] for place in range(3))
    losing = _losing(cost, burdened)
    needs = {key: np.concatenate([rows[place] for rows in replicates]) for place, key in enumerate(model.needs, 3)}
    every = np.concatenate(totals)
    return Risk(
        draws=drawn[0],
        replicates=len(replicates),
        seed=drawn[1],
        likely_minor=cost.total_minor,
        mean_minor=round(float(every.mean())),
        sd_minor=round(float(every.std())),
        quantiles=tuple(_price_at(totals, chance) for chance in _CHANCES),
        break_even=() if losing is None else _break_even(burdened, cost),
        dearer=float(np.mean(every > cost.total_minor)),
        losing=None if losing is None else losing.value,
        losing_error=None if losing is None else losing.error,
        drivers=drivers,
        orders=tuple(_order(model, item, needs[item.key]) for item in model.made.quantities.items if item.key in needs),
        facts=facts,
        assumed=tuple(each.fact for each in cost.assumed if each.low_minor is not None),
        not_drawn=tuple(each.fact for each in cost.assumed if each.low_minor is None),
        wholly_fixed=tuple(model.fixed),
        unmoved=_unmoved(model, moved),
        gaps=cost.gaps,
        figures=tuple(getattr(model.figures, each.name) for each in fields(model.figures)),
    )


def driver_of(made: Plan, key: CauseKey, share: Share, alone: Row) -> Driver | None:
    """Return what a cause does to a price; None where it moves nothing.

    Args:
        made: The plan.
        key: The cause.
        share: Its share of the variance.
        alone: Price where it alone is drawn, shape (draws,), float64. [minor units]
    """
    low, high = (round(float(each)) for each in np.quantile(alone - made.cost.total_minor, _TENTHS))
    if not low and not high and not share.total > 0.0:
        return None
    return Driver(key, cause_words(key, made), share.first, share.total, share.first_error, low, high)


def _unmoved(model: RiskModel, moved: list[Row]) -> tuple[LineKey, ...]:
    """Return the lines that cost the same in every draw though the model knows them."""
    still = ~np.any(moved, axis=0)
    lines = zip(model.made.cost.lines, still, strict=True)
    return tuple(line.key for line, stays in lines if stays and line.key not in model.fixed)


def _losing(cost: Cost, burdened: list[Row]) -> Quantile | None:
    """Return the chance that cost and overhead are more than the price; None where that is no price to lose at."""
    if cost.range_kind is RangeKind.NOT_KNOWN:
        return None
    return chance_of([each > cost.net_minor for each in burdened])


def _price_at(totals: list[Row], chance: float) -> PriceAt:
    found = quantile_of(totals, chance)
    return PriceAt(chance, round(found.value), math.ceil(found.error))


def _break_even(burdened: list[Row], cost: Cost) -> tuple[int, ...]:
    """Return the price with tax that just covers cost and overhead, at each whole per cent from 1 to 99."""
    with_tax = cost.total_minor / cost.net_minor if cost.net_minor else 1.0
    found = np.quantile(np.concatenate(burdened), np.arange(1, 100) / 100.0) * with_tax
    return tuple(int(each) for each in np.ceil(found))


def _order(model: RiskModel, item: Item, needs: Row) -> OrderChance:
    """Return how much to order of an item."""
    line: CostLine = next(each for each in model.made.cost.lines if each.key == item.key)
    again, each = again_minor(model.made, model.figures, line), float(line.rate_minor)
    cheapest = None if again is None else best_order(needs, each, float(again)).ordered
    at = {chance: math.ceil(float(np.quantile(needs, chance, method="higher")) - _WHOLE) for chance in _ORDER_CHANCES}
    planned = round(item.ordered)
    sizes = sorted({planned, planned + 1, *at.values(), *(() if cheapest is None else (cheapest,))})
    steps = []
    for size in sizes:
        costs = order_costs(needs, size, each, float(again or 0))
        chances = tuple(chance for chance, ordered in at.items() if ordered == size)
        steps.append(OrderStep(size, costs.short, None if again is None else round(costs.mean), chances))
    return OrderChance(
        item.key, item.description, item.sold_as, planned, line.rate_minor, again, tuple(steps), cheapest
    )
