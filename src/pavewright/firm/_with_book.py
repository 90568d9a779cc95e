"""A job with what it leaves out taken from the book."""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any

from pavewright.firm._book import TaxStatus
from pavewright.firm._entries import hire_of, joined, output_key, updated, with_owned, with_price
from pavewright.firm._labour import skill_rates
from pavewright.firm._overhead import overhead_rate
from pavewright.firm._packs import with_pack_prices
from pavewright.firm._quoted import kept
from pavewright.job import Crew, TaxRegime, Terms

if TYPE_CHECKING:
    from pavewright.firm._book import FirmBook
    from pavewright.job import Job, PavingUnit, PlantHire, Rates

_ALONE = ("labour_minor_per_hour", "cut_price_minor", "fill_price_minor", "price_age_days", "rounding", "tax_rounding")
"""Fields of the rates that stand by themselves."""


def with_book(job: Job, book: FirmBook | None) -> Job:
    """Return a job in which the book stands for what the job leaves out; what neither says stays unknown.

    What the job says itself is never changed. A job that was quoted has the prices that it was quoted with, its own
    for what came since, and no price of the book: what has none then is a gap until it is quoted again. A book in
    other money gives people and outputs, and no price.
    """
    job = _written(kept(job), book)
    if book is None or job.quoted is not None:
        return job
    if book.currency == job.identity.currency:
        job = with_pack_prices(job, book.mixed_packs)
        job = updated(job, rates=_rates(job, book), units=tuple(_unit(each, book) for each in job.units))
    job = updated(job, crew=_crew(job, book))
    job = updated(job, terms=_terms(job.terms, book))
    if not job.calendar.weather:
        job = updated(job, calendar=updated(job.calendar, weather=book.weather))
    return job


def _written(job: Job, book: FirmBook | None) -> Job:
    """Return a job that is written as the firm writes, where it does not say: that is no price, quoted or not."""
    if book is None:
        return job
    names = ("region", "measure")
    left = {name: getattr(book, name) for name in names if getattr(job.identity, name) is None}
    return updated(job, identity=updated(job.identity, **left))


def _unit(own: PavingUnit, book: FirmBook) -> PavingUnit:
    return with_price(own, next((each for each in book.units if each.name == own.name), None))


def _rates(job: Job, book: FirmBook) -> Rates:
    """Return rates whose entries have the prices of the book, and the book's entries after them."""
    own, other = job.rates, book.rates
    materials = {each.key: each for each in other.materials}
    items = {each.key: each for each in other.catalogue}
    disposal = other.disposal if own.disposal is None else with_price(own.disposal, other.disposal)
    lists: dict[str, Any] = {
        "materials": joined(
            tuple(with_price(each, materials.get(each.key)) for each in own.materials),
            other.materials,
            attrgetter("key"),
        ),
        "catalogue": joined(
            tuple(with_price(each, items.get(each.key)) for each in own.catalogue), other.catalogue, attrgetter("key")
        ),
        "assemblies": joined(own.assemblies, other.assemblies, attrgetter("key")),
        "changes": joined(own.changes, other.changes, attrgetter("key")),
        "plant": _plant(own, other),
        "disposal": disposal,
    }
    alone = {name: getattr(other, name) for name in _ALONE if getattr(own, name) is None}
    return updated(own, **lists, **alone, **_labour(own, book), **_on_cost(own, book), **_tax(own, book))


def _plant(own: Rates, other: Rates) -> tuple[PlantHire, ...]:
    """Return the plant of a job with prices, and the firm's own; a job that says nothing of plant has what is usual."""
    if not own.plant and "plant" not in own.model_fields_set:
        return tuple(each for each in other.plant if each.usual or each.owned)
    return with_owned(tuple(with_price(each, hire_of(each, other.plant)) for each in own.plant), other.plant)


def _labour(own: Rates, book: FirmBook) -> dict[str, Any]:
    """Return the price of an hour by skill; a job with one price for all hours keeps it."""
    if own.labour_minor_per_hour is not None:
        return {}
    return {"labour": joined(own.labour, skill_rates(book), attrgetter("skill"))}


def _on_cost(own: Rates, book: FirmBook) -> dict[str, Any]:
    """Return overhead and margin or mark-up, each of one kind."""
    found: dict[str, Any] = {}
    if own.overhead_percent is None and own.overhead_minor_per_hour is None:
        made = overhead_rate(book)
        found["overhead_percent"] = book.rates.overhead_percent if made is None else made.percent
        found["overhead_minor_per_hour"] = book.rates.overhead_minor_per_hour if made is None else made.minor_per_hour
    if own.margin_percent is None and own.markup_percent is None:
        found["margin_percent"], found["markup_percent"] = book.rates.margin_percent, book.rates.markup_percent
    return found


def _tax(own: Rates, book: FirmBook) -> dict[str, Any]:
    """Return the tax: none where the firm is not registered."""
    free = book.firm.tax_status is TaxStatus.NOT_REGISTERED
    found: dict[str, Any] = {}
    if own.tax_percent is None:
        found["tax_percent"] = 0.0 if free else book.rates.tax_percent
        if "tax_name" not in own.model_fields_set:
            found["tax_name"] = book.rates.tax_name
    if own.tax_regime is None and own.tax_percent is None:
        found["tax_regime"] = TaxRegime.NONE if free else book.rates.tax_regime
    if not own.tax_lines and not free:
        found["tax_lines"] = book.rates.tax_lines
    return found


def _terms(own: Terms, book: FirmBook) -> Terms:
    """Return terms of which each that the job leaves out is the book's."""
    names = [name for name in Terms.model_fields if name not in own.model_fields_set]
    found = updated(own, **{name: getattr(book.terms, name) for name in names})
    status = book.firm.tax_status
    if found.reclaims_tax is None and status is not None:
        return updated(found, reclaims_tax=status is TaxStatus.REGISTERED)
    return found


def _crew(job: Job, book: FirmBook) -> Crew:
    """Return the crew of a job: each field that the job leaves out is the book's, and so is each own output."""
    said = job.crew.model_fields_set
    taken = {
        name: getattr(book.crew, name)
        for name in Crew.model_fields
        if name != "outputs" and (name not in said or getattr(job.crew, name) is None)
    }
    outputs = job.crew.outputs
    outputs = joined(joined(outputs, book.crew.outputs, output_key), book.outputs, output_key)
    return updated(job.crew, **taken, outputs=outputs)
