"""A plan with other prices: only what hangs on them is made again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.cost import price

if TYPE_CHECKING:
    from pavewright.cost import Cost
    from pavewright.job import Rates
    from pavewright.pipeline._types import Plan
    from pavewright.rules import Rulebook


def repriced(made: Plan, rates: Rates, rules: Rulebook) -> Cost:
    """Return the cost of a plan with other prices of the same things; all that was measured stays.

    What an assumed fact may do is not planned again: it stands in no range of the answer, and the answer says so.

    Args:
        made: The plan.
        rates: Other prices, for the same packs, plant and loads.
        rules: The rulebook of the plan.

    Raises:
        ValueError: the rates buy in other packs, hire other plant or take away in other loads: plan again.
    """
    if _sold_as(rates) != _sold_as(made.job.rates):
        message = "these rates buy in other packs, hire other plant or take away in other loads"
        raise ValueError(message)
    job = made.job.model_copy(update={"rates": rates})
    hires = made.cost.hires
    comes = (each for order in made.cost.orders for each in order.deliveries)
    brought = {item: each.on for each in comes if each.on is not None for item in each.items}
    found = price(job, made.laying, made.earthworks, made.quantities, made.cost.labour, hires, brought, rules)
    return replace(found, assumed=tuple(replace(each, low_minor=None, high_minor=None) for each in made.cost.assumed))


def _sold_as(rates: Rates) -> tuple[object, ...]:
    """Return in what amounts things are bought, hired and taken away."""
    disposal = rates.disposal
    return (
        tuple(
            (each.key, each.pack_amount, each.pack_unit, each.length_mm, each.bulk_kg_per_m3, each.min_packs)
            for each in rates.materials
        ),
        tuple((each.key, each.days, each.kg_each) for each in rates.plant),
        None if disposal is None else (disposal.kind, disposal.volume_m3, disposal.payload_tonnes),
        tuple((each.key, each.pack_amount, each.pack_unit) for each in rates.catalogue),
    )
