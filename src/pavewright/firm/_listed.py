"""Lines of a price list in the book: what they change, and the book with them."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.firm._entries import updated
from pavewright.job import CatalogueItem, Material, MaterialKind, PackUnit, PavingUnit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.firm._book import FirmBook
    from pavewright.job import Rates

_KEY_MAX, _NAME_MAX = 50, 60


class ListChangeKind(StrEnum):
    """What a line of a price list changes in the book."""

    NEW = "new"
    PRICE = "price"
    PACK = "pack"
    SAME = "same"
    OTHER_PACK = "other_pack"
    NOT_LISTED = "not_listed"


class EntryPlace(StrEnum):
    """In which list of the book something stands."""

    CATALOGUE = "catalogue"
    MATERIALS = "materials"
    UNITS = "units"
    MIXED_PACKS = "mixed_packs"
    PLANT = "plant"
    DISPOSAL = "disposal"
    LABOUR = "labour"


@dataclass(frozen=True, slots=True)
class ListChange:
    """What one line changes.

    Attributes:
        line: Which line of the list, from 0; None of what the list does not hold any more.
        kind: What changes. A unit that is sold in another pack keeps its price; so does what is not listed any more.
        place: In which list of the book.
        name: What it is called there.
        was_minor: Price of a pack until now; None where it had none, or is new. [minor units]
        now_minor: Price of a pack from now on. [minor units]
    """

    line: int | None
    kind: ListChangeKind
    place: EntryPlace
    name: str
    was_minor: int | None
    now_minor: int | None


_Entry = CatalogueItem | Material | PavingUnit


class _Known:
    """Entries of one supplier in one list of the book, by code and by name."""

    def __init__(self, entries: tuple[_Entry, ...], supplier: str) -> None:
        self.entries: list[_Entry] = list(entries)
        self.codes: dict[str, int] = {}
        self.names: dict[str, int] = {}
        self.met: set[int] = set()
        for place, entry in enumerate(entries):
            if entry.supplier != supplier:
                continue
            if entry.supplier_code:
                self.codes.setdefault(entry.supplier_code, place)
            self.names.setdefault(entry.name, place)

    def place_of(self, item: CatalogueItem | Material) -> int | None:
        """Return where a line stands: under its code, else under its name where nothing of another code has that."""
        if item.supplier_code in self.codes:
            return self.codes[item.supplier_code]
        place = self.names.get(item.name)
        if place is None or (item.supplier_code and self.entries[place].supplier_code):
            return None
        return place


def with_listed(
    book: FirmBook,
    items: tuple[CatalogueItem, ...],
    supplier: str,
    uses: Mapping[int, MaterialKind],
    units: Mapping[int, PavingUnit] | None = None,
    lengths_mm: Mapping[int, float] | None = None,
) -> tuple[FirmBook, tuple[ListChange, ...]]:
    """Return the book with the lines of a supplier's price list, and what they change.

    A line is found again by the supplier's code, else by its name. What the list does not hold keeps its price and the
    day of it.

    Args:
        book: The book.
        items: The lines, each with supplier and day; their keys are made here.
        supplier: Whose list it is.
        uses: Lines that are one of the materials that plans ask for, by their place among the lines.
        lengths_mm: How long one piece of a line is, by its place: of a kerb, an edging, a pipe. [mm]
        units: Lines that are paving units of which the book has none yet, by their place.
    """
    rates = book.rates
    lists: dict[EntryPlace, _Known] = {
        EntryPlace.CATALOGUE: _Known(rates.catalogue, supplier),
        EntryPlace.MATERIALS: _Known(rates.materials, supplier),
        EntryPlace.UNITS: _Known(book.units, supplier),
    }
    keys = {each.key for each in rates.catalogue}
    changes: list[ListChange] = []
    for line, item in enumerate(items):
        found = _updates(lists, line, item)
        if line in uses:
            found += _used(lists, line, _material(item, uses[line], (lengths_mm or {}).get(line)), keys)
        if units and line in units:
            found += _laid(lists[EntryPlace.UNITS], line, units[line])
        if not found:
            lists[EntryPlace.CATALOGUE].entries.append(updated(item, key=_new_key(item.name, keys)))
            found = [ListChange(line, ListChangeKind.NEW, EntryPlace.CATALOGUE, item.name, None, item.pack_price_minor)]
        changes += found
    for place, known in lists.items():
        left = {*known.codes.values(), *known.names.values()} - known.met
        for each in sorted(left):
            entry = known.entries[each]
            price = entry.pack_price_minor
            changes.append(ListChange(None, ListChangeKind.NOT_LISTED, place, entry.name, price, price))
    return updated(book, rates=_rates(rates, lists), units=tuple(lists[EntryPlace.UNITS].entries)), tuple(changes)


def _laid(known: _Known, line: int, unit: PavingUnit) -> list[ListChange]:
    """Let a line be a paving unit, where it is none yet; one of a name that another supplier has gets his beside it."""
    if any(each.name == unit.name and each.supplier == unit.supplier for each in known.entries):
        return []
    names = {each.name for each in known.entries}
    name = unit.name if unit.name not in names else f"{unit.name[:40]}, {unit.supplier[:18]}"
    known.entries.append(updated(unit, name=name))
    return [ListChange(line, ListChangeKind.NEW, EntryPlace.UNITS, name, None, unit.pack_price_minor)]


def _rates(rates: Rates, lists: Mapping[EntryPlace, _Known]) -> Rates:
    return updated(
        rates,
        catalogue=tuple(lists[EntryPlace.CATALOGUE].entries),
        materials=tuple(lists[EntryPlace.MATERIALS].entries),
    )


def _updates(lists: Mapping[EntryPlace, _Known], line: int, item: CatalogueItem) -> list[ListChange]:
    """Bring what stands in the book up to date with a line."""
    found: list[ListChange] = []
    for place, known in lists.items():
        at = known.place_of(item)
        if at is None:
            continue
        known.met.add(at)
        was = known.entries[at]
        kind = _kind_of(was, item)
        now = was if kind is ListChangeKind.OTHER_PACK else _with_line(was, item)
        known.entries[at] = now
        found.append(ListChange(line, kind, place, was.name, was.pack_price_minor, now.pack_price_minor))
    return found


def _kind_of(was: _Entry, item: CatalogueItem) -> ListChangeKind:
    if isinstance(was, PavingUnit):
        pieces = item.pack_unit is PackUnit.EACH and item.pack_amount == was.per_pack
        if not pieces:
            return ListChangeKind.OTHER_PACK
    elif (was.pack_amount, was.pack_unit) != (item.pack_amount, item.pack_unit):
        return ListChangeKind.PACK
    return ListChangeKind.SAME if was.pack_price_minor == item.pack_price_minor else ListChangeKind.PRICE


def _with_line(was: _Entry, item: CatalogueItem) -> _Entry:
    """Return an entry of the book with price, pack and terms of a line; what the line does not say stays."""
    names = ("supplier_code", "supplier_kind", "min_packs", "lead_days")
    said = {name: getattr(item, name) for name in names if getattr(item, name) not in {None, ""}}
    pack = {} if isinstance(was, PavingUnit) else {"pack_amount": item.pack_amount, "pack_unit": item.pack_unit}
    return updated(was, **said, **pack, pack_price_minor=item.pack_price_minor, priced_on=item.priced_on)


_LONG = frozenset(
    {MaterialKind.EDGING, MaterialKind.KERB, MaterialKind.CHANNEL, MaterialKind.PIPE, MaterialKind.PERFORATED_PIPE}
)
"""Materials of which one piece has a length."""


def _material(item: CatalogueItem, kind: MaterialKind, length_mm: float | None) -> Material:
    """Return a line as a material that plans take."""
    made = Material(key=kind, **item.model_dump(exclude={"key", "kg_per_unit"}))
    return updated(made, length_mm=length_mm) if kind in _LONG and item.pack_unit is PackUnit.EACH else made


def _used(lists: Mapping[EntryPlace, _Known], line: int, item: Material, keys: set[str]) -> list[ListChange]:
    """Let a line be the material of a kind that plans take; what that was until now stays in the catalogue."""
    known, kind, made = lists[EntryPlace.MATERIALS], item.key, item
    at = next(
        (place for place, each in enumerate(known.entries) if isinstance(each, Material) and each.key is kind), None
    )
    if at is None:
        known.entries.append(made)
        return [ListChange(line, ListChangeKind.NEW, EntryPlace.MATERIALS, item.name, None, item.pack_price_minor)]
    was = known.entries[at]
    if known.place_of(item) == at and at in known.met:
        return []
    lists[EntryPlace.CATALOGUE].entries.append(_as_catalogue(was, keys))
    known.entries[at] = made
    known.met.add(at)
    price = was.pack_price_minor
    return [ListChange(line, ListChangeKind.PACK, EntryPlace.MATERIALS, item.name, price, item.pack_price_minor)]


def _as_catalogue(was: _Entry, keys: set[str]) -> CatalogueItem:
    """Return a material as something of the catalogue, with its price and terms."""
    assert isinstance(was, Material)  # noqa: S101 - materials are all that stands among them
    name = was.name[:_NAME_MAX].strip() or was.key.value.replace("_", " ")
    told = was.model_dump(exclude={"key", "name", "length_mm", "bulk_kg_per_m3"})
    return CatalogueItem(key=_new_key(name, keys), name=name, **told)


def _new_key(name: str, taken: set[str]) -> str:
    """Return a key made from a name that nothing has yet, and keep it."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    begun = re.sub(r"[^a-z0-9]+", "_", plain).strip("_")[:_KEY_MAX].rstrip("_")
    if not begun or not begun[0].isalpha():
        begun = f"item_{begun}".rstrip("_")
    key, number = begun, 1
    while key in taken:
        number += 1
        key = f"{begun}_{number}"
    taken.add(key)
    return key
