"""Lines of a list of plant, of loads taken away or of labour in the book, and what they change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.firm._entries import updated
from pavewright.firm._listed import EntryPlace, ListChange, ListChangeKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.firm._book import FirmBook
    from pavewright.job import Disposal, LabourRate, PlantHire

_SAID = ("supplier_code", "supplier_kind", "lead_days", "min_days", "delivery_minor")
"""What a line says of a machine beside its price; what it leaves out stays as it is."""


def with_hires(
    book: FirmBook, hires: Mapping[int, PlantHire], supplier: str
) -> tuple[FirmBook, tuple[ListChange, ...]]:
    """Return the book with the plant of a list; a machine is found again by the supplier's code, else by its name.

    Args:
        book: The book.
        hires: What each line is, by its place among the lines; those that are no plant which plans know are left out.
        supplier: Whose list it is.
    """
    entries = list(book.rates.plant)
    met: set[int] = set()
    changes = []
    for line, hire in hires.items():
        at = _place_of(entries, hire, supplier)
        if at is None:
            taken = {(each.key, each.name) for each in entries}
            name = hire.name if (hire.key, hire.name) not in taken else f"{hire.name[:40]}, {supplier[:18]}"
            entries.append(updated(hire, name=name))
            met.add(len(entries) - 1)
            changes.append(ListChange(line, ListChangeKind.NEW, EntryPlace.PLANT, name, None, _price(hire)))
            continue
        was = entries[at]
        met.add(at)
        entries[at] = now = _with_line(was, hire)
        kind = ListChangeKind.SAME if _prices(now) == _prices(was) else ListChangeKind.PRICE
        changes.append(ListChange(line, kind, EntryPlace.PLANT, was.name, _price(was), _price(now)))
    for place, each in enumerate(entries):
        if each.supplier == supplier and place not in met:
            price = _price(each)
            changes.append(ListChange(None, ListChangeKind.NOT_LISTED, EntryPlace.PLANT, each.name, price, price))
    return updated(book, rates=updated(book.rates, plant=tuple(entries))), tuple(changes)


def _place_of(entries: list[PlantHire], hire: PlantHire, supplier: str) -> int | None:
    """Return where a machine of a supplier stands: under its code, else under its name where no other code has that."""
    own = [(place, each) for place, each in enumerate(entries) if each.supplier == supplier]
    if hire.supplier_code:
        found = next((place for place, each in own if each.supplier_code == hire.supplier_code), None)
        if found is not None:
            return found
        own = [(place, each) for place, each in own if not each.supplier_code]
    return next((place for place, each in own if each.name == hire.name), None)


def _prices(hire: PlantHire) -> tuple[int | None, ...]:
    return hire.day_price_minor, hire.weekly_price_minor, hire.delivery_minor


def _price(hire: PlantHire) -> int | None:
    """Return the price that is shown of a machine: of a day, else of a week."""
    return hire.weekly_price_minor if hire.day_price_minor is None else hire.day_price_minor


def _with_line(was: PlantHire, line: PlantHire) -> PlantHire:
    """Return a machine with the prices of a line; one that the line does not give stays, and so does its older day."""
    said = {name: getattr(line, name) for name in _SAID if getattr(line, name) not in {None, ""}}
    prices = {name: getattr(line, name) for name in _PRICED if getattr(line, name) is not None}
    stays = any(name not in prices and getattr(was, name) is not None for name in _PRICED)
    return updated(was, **said, **prices, priced_on=was.priced_on if stays else line.priced_on)


_PRICED = ("day_price_minor", "weekly_price_minor")


def disposal_line(book: FirmBook, loads: Mapping[int, Disposal]) -> int | None:
    """Return which line is what the book takes spoil away by: of the same code, else of the same kind and size."""
    now = book.rates.disposal
    if now is None:
        return None
    for line, each in loads.items():
        if now.supplier == each.supplier and now.supplier_code and now.supplier_code == each.supplier_code:
            return line
    alike = [line for line, each in loads.items() if (each.kind, each.volume_m3) == (now.kind, now.volume_m3)]
    return alike[0] if len(alike) == 1 and now.supplier == loads[alike[0]].supplier else None


def with_loads(book: FirmBook, line: int, load: Disposal) -> tuple[FirmBook, tuple[ListChange, ...]]:
    """Return the book whose spoil leaves by a line of a list."""
    was = book.rates.disposal
    same = was is not None and (was.kind, was.volume_m3) == (load.kind, load.volume_m3)
    if was is not None and same and load.payload_tonnes is None:
        load = updated(load, payload_tonnes=was.payload_tonnes)
    price = None if was is None else was.load_price_minor
    kind = ListChangeKind.NEW if was is None else ListChangeKind.PRICE if same else ListChangeKind.PACK
    if same and price == load.load_price_minor:
        kind = ListChangeKind.SAME
    name = f"{load.kind.value} of {load.volume_m3:g} m³"
    change = ListChange(line, kind, EntryPlace.DISPOSAL, name, price, load.load_price_minor)
    return updated(book, rates=updated(book.rates, disposal=load)), (change,)


def with_hours(book: FirmBook, hours: Mapping[int, LabourRate]) -> tuple[FirmBook, tuple[ListChange, ...]]:
    """Return the book with the prices of an hour by skill; one that the list does not hold stays."""
    entries = {each.skill: each for each in book.rates.labour}
    changes = []
    for line, rate in hours.items():
        was = entries.get(rate.skill)
        entries[rate.skill] = rate
        before = None if was is None else was.minor_per_hour
        same = before == rate.minor_per_hour
        kind = ListChangeKind.NEW if was is None else ListChangeKind.SAME if same else ListChangeKind.PRICE
        name = rate.skill.value
        changes.append(ListChange(line, kind, EntryPlace.LABOUR, name, before, rate.minor_per_hour))
    return updated(book, rates=updated(book.rates, labour=tuple(entries.values()))), tuple(changes)
