"""A quoted job: the prices, people and outputs that it was quoted with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.firm._entries import hire_of, joined, output_key, sold_alike, updated, with_owned, with_price_of
from pavewright.firm._packs import with_quoted_packs
from pavewright.job import BuyingTerms

if TYPE_CHECKING:
    from pavewright.job import Job, PlantHire, Quoted, QuotedUnit, Rates

_TERMS = tuple(BuyingTerms.model_fields)
_CHOSEN = ("materials", "catalogue", "changes", "plant", "disposal")
"""Parts of the rates in which a job chooses what it takes; the price of it is the quotation's."""


def kept(job: Job) -> Job:
    """Return a quoted job with the prices that it was quoted with, whatever it says now; any other job as it is.

    What is chosen is the job's: another machine, another pack, a material that was not asked for. It has the price
    of the quotation where the quotation had one for the same.
    """
    quoted = job.quoted
    if quoted is None:
        return job
    prices = {each.unit: each for each in quoted.unit_prices}
    units = tuple(updated(each, **_as_quoted(prices[each.name])) if each.name in prices else each for each in job.units)
    job = with_quoted_packs(job, quoted.pack_prices)
    left_out = {
        name: getattr(quoted.crew, name)
        for name in type(job.crew).model_fields
        if name not in job.crew.model_fields_set or getattr(job.crew, name) is None
    }
    crew = updated(job.crew, **left_out | {"outputs": joined(quoted.crew.outputs, job.crew.outputs, output_key)})
    terms = quoted.terms if job.terms == type(job.terms)() else job.terms
    return updated(job, rates=_rates(job.rates, quoted), units=units, crew=crew, terms=terms)


def _as_quoted(unit: QuotedUnit) -> dict[str, object]:
    """Return price and terms of a unit; an older quotation kept its price and the day of it only."""
    names = ("pack_price_minor", *(_TERMS if "supplier" in unit.model_fields_set else ("priced_on",)))
    return {name: getattr(unit, name) for name in names}


def _rates(own: Rates, quoted: Quoted) -> Rates:
    then = quoted.rates
    materials = {each.key: each for each in then.materials}
    items = {each.key: each for each in then.catalogue}
    disposal = own.disposal or then.disposal
    if own.disposal is not None and then.disposal is not None and sold_alike(own.disposal, then.disposal):
        disposal = with_price_of(own.disposal, then.disposal)
    chosen = {
        "materials": joined(
            tuple(with_price_of(each, materials.get(each.key)) for each in own.materials),
            then.materials,
            lambda each: each.key,
        ),
        "catalogue": joined(
            tuple(with_price_of(each, items.get(each.key)) for each in own.catalogue),
            then.catalogue,
            lambda each: each.key,
        ),
        "changes": joined(then.changes, own.changes, lambda each: each.key),
        "plant": _plant(own, then),
        "disposal": disposal,
    }
    fixed = {name: getattr(then, name) for name in type(then).model_fields if name not in _CHOSEN}
    return updated(own, **chosen, **fixed)


def _plant(own: Rates, then: Rates) -> tuple[PlantHire, ...]:
    if not own.plant and "plant" not in own.model_fields_set:
        return then.plant
    return with_owned(tuple(with_price_of(each, hire_of(each, then.plant)) for each in own.plant), then.plant)
