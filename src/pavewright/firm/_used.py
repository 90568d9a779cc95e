"""What a plan takes from the book: entries with their supplier and day, and single fields."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.firm._listed import EntryPlace

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Iterator

    from pavewright.firm._book import FirmBook
    from pavewright.job import BuyingTerms, Job, Part, Rates


@dataclass(frozen=True, slots=True)
class BookEntry:
    """Something of the book that a plan buys, hires or pays by the hour.

    Attributes:
        place: In which list of the book it stands.
        name: What it is called there.
        supplier: Who supplies it; empty where that is not known, or for the firm's own.
        priced_on: Day of its price; None where it is not known.
    """

    place: EntryPlace
    name: str
    supplier: str
    priced_on: dt.date | None


@dataclass(frozen=True, slots=True)
class BookUsed:
    """What a plan takes from the book.

    Attributes:
        firm: Name of the firm.
        currency: Money of the book.
        invented: Whether its names and prices are invented.
        entries: What is bought, hired or paid by the hour at a price of the book.
        fields: Fields of the job that the book fills, such as ``rates.margin_percent``.
        own_items: Keys of the items of the catalogue that the job lists itself.
    """

    firm: str
    currency: str
    invented: bool
    entries: tuple[BookEntry, ...]
    fields: tuple[str, ...]
    own_items: tuple[str, ...]


def book_used(own: Job, job: Job, book: FirmBook | None, bought: Collection[str]) -> BookUsed | None:
    """Return what a plan takes from the book; None where there is none, or where the job keeps its quotation.

    Args:
        own: The job as its document says it.
        job: The job that is planned, with what it takes from the book.
        book: The book of the firm.
        bought: Materials and items of the catalogue that the plan buys.
    """
    if book is None or own.quoted is not None:
        return None
    return BookUsed(
        firm=book.firm.name,
        currency=book.currency,
        invented=book.invented,
        entries=tuple(_entries(own, job, bought)),
        fields=tuple(_fields(own, job)),
        own_items=tuple(each.key for each in own.rates.catalogue),
    )


def _entries(own: Job, job: Job, bought: Collection[str]) -> Iterator[BookEntry]:
    for unit in job.units:
        if unit not in own.units:
            yield _entry(EntryPlace.UNITS, unit.name, unit)
    for before, area in zip(own.areas, job.areas, strict=True):
        pack = area.laying.pack
        if pack is not None and pack != before.laying.pack:
            yield _entry(EntryPlace.MIXED_PACKS, area.name, pack)
    yield from _of_rates(own.rates, job.rates, bought)


def _of_rates(own: Rates, rates: Rates, bought: Collection[str]) -> Iterator[BookEntry]:
    priced = [(each, each.name or each.key.value) for each in rates.materials if each not in own.materials]
    for material, name in priced:
        if material.key in bought:
            yield _entry(EntryPlace.MATERIALS, name, material)
    mine = {each.key: each for each in own.catalogue}
    for item in rates.catalogue:
        if item.key in bought and mine.get(item.key) != item:
            yield _entry(EntryPlace.CATALOGUE, item.name, item)
    for hire in rates.plant:
        if hire not in own.plant:
            yield _entry(EntryPlace.PLANT, hire.name or hire.key.value, hire)
    if rates.disposal is not None and rates.disposal != own.disposal:
        yield _entry(EntryPlace.DISPOSAL, rates.disposal.kind.value, rates.disposal)
    for rate in rates.labour:
        if rate not in own.labour:
            yield BookEntry(EntryPlace.LABOUR, rate.skill.value, rate.supplier, rate.priced_on)


def _entry(place: EntryPlace, name: str, terms: BuyingTerms) -> BookEntry:
    return BookEntry(place, name, terms.supplier, terms.priced_on)


_LISTED = frozenset({"materials", "catalogue", "plant", "disposal", "labour"})
"""Parts of the rates whose entries are named one by one."""


def _fields(own: Job, job: Job) -> Iterator[str]:
    parts: tuple[tuple[str, Part, Part], ...] = (
        ("rates", own.rates, job.rates),
        ("crew", own.crew, job.crew),
        ("terms", own.terms, job.terms),
        ("calendar", own.calendar, job.calendar),
        ("identity", own.identity, job.identity),
    )
    for name, before, after in parts:
        for field in type(before).model_fields:
            if field not in _LISTED and getattr(before, field) != getattr(after, field):
                yield f"{name}.{field}"
