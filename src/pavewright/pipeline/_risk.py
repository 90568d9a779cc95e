"""The risk of a price: the job is drawn many times, everything that nobody knows with it."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import MAX_CAUSES, best_order, chance_of, even_draws, order_costs, quantile_of, variance_shares
from pavewright.cost import RangeKind
from pavewright.pipeline._risk_facts import fact_changes
from pavewright.pipeline._risk_model import RiskModel
from pavewright.pipeline._risk_short import again_minor
from pavewright.pipeline._risk_types import Driver, OrderChance, OrderStep, PriceAt, Risk
from pavewright.pipeline._risk_words import cause_words
from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from pavewright.chance import Quantile
    from pavewright.cost import Cost, CostLine, LineKey
    from pavewright.pipeline._risk_draws import Drawn
    from pavewright.pipeline._risk_types import CauseKey
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.quantities import Item
    from pavewright.rules import Rulebook

    Row = NDArray[np.float64]

_CHANCES = (0.1, 0.5, 0.8, 0.9)
_ORDER_CHANCES = (0.5, 0.8, 0.9)
_TENTHS = (0.1, 0.9)
_REPLICATES = 8
_SHARE_DRAWS = 2048
_WHOLE = 1e-9
FOR_RISK = (Room.COST, Room.WATER, Room.BUILD_UPS, Room.EARTHWORKS)
"""The rooms without which nothing is drawn."""


def risk(
    made: Plan | PlanSoFar,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    draws: int = 1024,
    seed: int = 1,
    *,
    facts: bool = True,
) -> Risk | None:
    """Return the risk of the price of a plan; None where it has no price.

    Same job, same rulebook, same seed: the same risk. Levels of dig and layers, bulking, breakages, outputs, yields,
    topsoil and assumed facts are drawn together; packs and loads are rounded in every draw.

    Args:
        made: The plan.
        rules: Its rulebook.
        report: Takes what is being done; may raise to stop the work.
        draws: Draws in each replicate, a power of two. [-]
        seed: Seed of the first replicate. [-]
        facts: Whether the job is planned again with single facts changed.
    """
    tell = report or (lambda _: None)
    whole = made.with_rooms(FOR_RISK)
    if whole is None or not whole.cost.lines:
        return None
    tell("what the levels do")
    model = RiskModel(whole, () if made.programme is None else made.programme.hires, rules)
    causes = model.causes[: MAX_CAUSES // 2]
    rows = []
    for number in range(_REPLICATES):
        tell(f"drawing, {number + 1} of {_REPLICATES}")
        rows.append(_drawn(model, causes, draws, seed + number))
    totals = [model.total(each) for each in rows]
    burdened = [model.burdened(each) for each in rows]
    losing = _losing(whole.cost, burdened)
    covered = () if losing is None else _break_even(burdened, whole.cost)
    needs = {key: np.concatenate([need(each) for each in rows]) for key, need in model.needs.items()}
    every = np.concatenate(totals)
    return Risk(
        draws=draws,
        replicates=_REPLICATES,
        seed=seed,
        likely_minor=whole.cost.total_minor,
        mean_minor=round(float(every.mean())),
        sd_minor=round(float(every.std())),
        quantiles=tuple(_price_at(totals, chance) for chance in _CHANCES),
        break_even=covered,
        dearer=float(np.mean(every > whole.cost.total_minor)),
        losing=None if losing is None else losing.value,
        losing_error=None if losing is None else losing.error,
        drivers=_drivers(model, causes, seed, tell),
        orders=tuple(_order(model, item, needs[item.key]) for item in whole.quantities.items if item.key in needs),
        facts=fact_changes(whole, made.programme, rules, tell) if facts else (),
        assumed=tuple(each.fact for each in whole.cost.assumed if each.low_minor is not None),
        not_drawn=tuple(each.fact for each in whole.cost.assumed if each.low_minor is None),
        wholly_fixed=tuple(model.fixed),
        unmoved=_unmoved(model, rows),
        gaps=whole.cost.gaps,
        figures=tuple(getattr(model.figures, each.name) for each in fields(model.figures)),
    )


def _drawn(model: RiskModel, causes: tuple[CauseKey, ...], draws: int, seed: int) -> Drawn:
    if not causes:
        return model.drawn({}, draws)
    even = even_draws(draws, len(causes), seed)
    return model.drawn({key: even[:, number] for number, key in enumerate(causes)}, draws)


def _unmoved(model: RiskModel, rows: list[Drawn]) -> tuple[LineKey, ...]:
    """Return the lines that cost the same in every draw though the model knows them."""
    by_row = [model.amounts(row) for row in rows]
    found = []
    for number, line in enumerate(model.made.cost.lines):
        still = all(float(np.ptp(amounts[number])) == 0.0 for amounts in by_row)
        if still and line.key not in model.fixed:
            found.append(line.key)
    return tuple(found)


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


def _drivers(
    model: RiskModel, causes: tuple[CauseKey, ...], seed: int, tell: Callable[[str], None]
) -> tuple[Driver, ...]:
    """Return what moves the price: shares of its variance, and what each cause alone does to it."""
    if not causes:
        return ()

    def answer(draws: Row) -> Row:
        return model.total(model.drawn({key: draws[:, number] for number, key in enumerate(causes)}, len(draws)))

    def progress(number: int) -> None:
        tell(f"what drives the price, {number + 1} of {len(causes)}")

    shares = variance_shares(answer, len(causes), _SHARE_DRAWS, seed, progress)
    even = (np.arange(_SHARE_DRAWS) + 0.5) / _SHARE_DRAWS
    found = []
    for key, share in zip(causes, shares, strict=True):
        alone = model.total(model.drawn({key: even}, _SHARE_DRAWS)) - model.made.cost.total_minor
        low, high = (round(float(each)) for each in np.quantile(alone, _TENTHS))
        if low or high or share.total > 0.0:
            words = cause_words(key, model.made)
            found.append(Driver(key, words, share.first, share.total, share.first_error, low, high))
    return tuple(sorted(found, key=lambda each: (-each.total, each.words)))


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
