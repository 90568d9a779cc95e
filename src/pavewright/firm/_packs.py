"""Packs of mixed sizes: one that a job lays without a price, with the price of the book or of the quotation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.firm._entries import updated
from pavewright.job import BuyingTerms, QuotedPack

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable

    from pavewright.firm._book import ListedPack
    from pavewright.job import Area, Job

_TERMS = tuple(BuyingTerms.model_fields)
_PRICE = "pack_price_minor"


def _content(units: Iterable[str], counts: Iterable[int]) -> Hashable:
    """Return by what a pack is known: what it holds, in whatever order that is listed."""
    return tuple(sorted(zip(units, counts, strict=False)))


def _mixed(job: Job, change: Callable[[Area, Hashable], dict[str, object]]) -> Job:
    """Return a job whose mixed packs have fields changed."""
    areas = []
    for area in job.areas:
        pack = area.laying.pack
        if pack is not None:
            more = change(area, _content(area.laying.laid_units, pack.counts))
            area = updated(area, laying=updated(area.laying, pack=updated(pack, **more)))  # noqa: PLW2901 - or as it is
        areas.append(area)
    return updated(job, areas=tuple(areas))


def with_pack_prices(job: Job, packs: tuple[ListedPack, ...]) -> Job:
    """Return a job whose mixed packs have the price of the book, where it says none.

    A job that has a price for any size of a pack buys each size by itself: that stays.
    """
    known = {_content(each.units_in_pack, each.counts): each for each in packs if each.pack_price_minor is not None}
    alone = {unit.name for unit in job.units if unit.pack_price_minor is not None}

    def change(area: Area, content: Hashable) -> dict[str, object]:
        pack, listed = area.laying.pack, known.get(content)
        if listed is None or pack is None or pack.pack_price_minor is not None or alone & set(area.laying.laid_units):
            return {}
        return {name: getattr(listed, name) for name in (_PRICE, *_TERMS)}

    return _mixed(job, change) if known else job


def pack_prices(job: Job) -> tuple[QuotedPack, ...]:
    """Return the prices and terms of the mixed packs of a job, each once."""
    found: dict[Hashable, QuotedPack] = {}
    for area in job.areas:
        pack, units = area.laying.pack, area.laying.laid_units
        if pack is not None:
            terms = {name: getattr(pack, name) for name in (_PRICE, *_TERMS)}
            found.setdefault(_content(units, pack.counts), QuotedPack(units_in_pack=units, counts=pack.counts, **terms))
    return tuple(found.values())


def with_quoted_packs(job: Job, prices: tuple[QuotedPack, ...]) -> Job:
    """Return a quoted job whose mixed packs have the prices that it was quoted with."""
    known = {_content(each.units_in_pack, each.counts): each for each in prices}

    def change(_: Area, content: Hashable) -> dict[str, object]:
        quoted = known.get(content)
        return {} if quoted is None else {name: getattr(quoted, name) for name in (_PRICE, *_TERMS)}

    return _mixed(job, change) if known else job
