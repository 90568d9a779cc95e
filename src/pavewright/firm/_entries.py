"""Single entries: one that a job has without a price, filled by one that has it; lists joined by their keys."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar

from pavewright.job import (
    BuyingTerms,
    CatalogueItem,
    Disposal,
    Material,
    OwnOutput,
    PavingUnit,
    PlantHire,
    PlantKind,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable

    from pavewright.job import Part

_P = TypeVar("_P", bound="Part")
_B = TypeVar("_B", Material, CatalogueItem, PavingUnit, Disposal, PlantHire)
_NOTHING = (None, "", ())
"""What says nothing."""
_TERMS = tuple(BuyingTerms.model_fields)
PRICES: dict[type[BuyingTerms], tuple[str, ...]] = {
    Material: ("pack_price_minor",),
    CatalogueItem: ("pack_price_minor",),
    PavingUnit: ("pack_price_minor",),
    Disposal: ("load_price_minor",),
    PlantHire: ("day_price_minor", "weekly_price_minor"),
}
"""The fields that hold a price, by what is priced."""
_WITH_PRICE: dict[type[BuyingTerms], tuple[str, ...]] = {
    Material: ("name", "bulk_kg_per_m3"),
    CatalogueItem: ("kg_per_unit",),
    PavingUnit: (),
    Disposal: ("payload_tonnes",),
    PlantHire: (
        *("min_days", "off_hire_days", "fuel_litres_per_hour", "delivery_minor"),
        *("kg_each", "sole_length_mm", "sole_width_mm", "vibration_m_per_s2", "noise_db"),
    ),
}
"""What else belongs to a price: it is taken with it where the job leaves it out."""
_SOLD_AS: dict[type[BuyingTerms], tuple[str, ...]] = {
    Material: ("key", "pack_amount", "pack_unit", "length_mm"),
    CatalogueItem: ("key", "pack_amount", "pack_unit"),
    PavingUnit: ("name", "kind", "length_mm", "width_mm", "thickness_mm", "per_pack"),
    Disposal: ("kind", "volume_m3"),
    PlantHire: ("key",),
}
"""What has to be the same for a price to be the price of it: a price of another pack is none."""


def updated(part: _P, **fields: Any) -> _P:  # noqa: ANN401 - values of any field
    """Return a part with fields changed; the part itself where none is."""
    more = {name: value for name, value in fields.items() if getattr(part, name) != value}
    return part.model_copy(update=more) if more else part


def sold_alike(one: BuyingTerms, other: BuyingTerms) -> bool:
    """Return whether a price of the one is a price of the other: same thing, same pack."""
    return all(getattr(one, name) == getattr(other, name) for name in _SOLD_AS[type(one)])


def has_price(part: BuyingTerms) -> bool:
    """Return whether any price of it is known; zero is one, as somebody wrote it."""
    return any(getattr(part, name) is not None for name in PRICES[type(part)])


def with_price(own: _B, other: _B | None) -> _B:
    """Return an entry of a job with the price of the book, where it has none itself and the same is sold.

    The day of the price, the supplier and the terms come with the price: those of another price would be false.
    """
    if other is None or has_price(own) or not has_price(other) or not sold_alike(own, other):
        return own
    names = (*PRICES[type(own)], *_TERMS, *_WITH_PRICE[type(own)])
    taken = {name: getattr(other, name) for name in names if getattr(own, name) in _NOTHING}
    return updated(own, **taken | {"priced_on": other.priced_on})


def with_price_of(own: _B, other: _B | None) -> _B:
    """Return an entry of a job with the price and terms that it was quoted with, whatever it says now.

    What else belongs to the price is that of the quotation too, where the job leaves it out.
    """
    if other is None or not sold_alike(own, other):
        return own
    names = [*PRICES[type(own)], *_TERMS]
    names += [name for name in _WITH_PRICE[type(own)] if getattr(own, name) in _NOTHING]
    return updated(own, **{name: getattr(other, name) for name in names})


def joined(own: tuple[_P, ...], other: Iterable[_P], key: Callable[[_P], Hashable]) -> tuple[_P, ...]:
    """Return own entries, and after them those of another list whose keys are not among them."""
    seen = {key(each) for each in own}
    more = tuple(each for each in other if key(each) not in seen)
    return (*own, *more) if more else own


def hire_of(own: PlantHire, plant: tuple[PlantHire, ...]) -> PlantHire | None:
    """Return the machine of a list that is meant: of the same name, or the only one of its kind.

    Plant of no kind of its own is found by its name alone.
    """
    alike = [each for each in plant if each.key is own.key]
    named = [each for each in alike if each.name == own.name]
    if len(named) == 1:
        return named[0]
    if own.key is PlantKind.OTHER or own.name or len(alike) != 1:
        return None
    return alike[0]


def with_owned(named: tuple[PlantHire, ...], other: tuple[PlantHire, ...]) -> tuple[PlantHire, ...]:
    """Return the plant that a job names, and after it what the firm owns of kinds that the job does not name."""
    kinds = {each.key for each in named}
    more = tuple(each for each in other if each.owned and each.key not in kinds)
    return (*named, *more) if more else named


def output_key(output: OwnOutput) -> Hashable:
    """Return what an output is of."""
    return output.kind, output.pattern
