"""What does not agree between a job, what it was quoted with, and the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, MoneyCode, Severity, worded
from pavewright.firm._entries import PRICES, has_price, hire_of, sold_alike
from pavewright.firm._words import FINDINGS as SAID
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.firm._book import FirmBook
    from pavewright.job import BuyingTerms, Job

_PLACE = "price"
_NAMED = 6
"""So many are named; the rest are counted."""


class Code(MoneyCode):
    """Codes of the findings on the book and on what a job was quoted with."""

    OTHER_MONEY = "firm.other_money"
    OTHER_PACK = "firm.other_pack"
    QUOTED = "firm.quoted"
    QUOTED_OTHERWISE = "firm.quoted_otherwise"


def book_findings(job: Job, book: FirmBook | None) -> tuple[Finding, ...]:
    """Return what a plan of this job with this book has to say of its prices.

    Args:
        job: The job as its document says it, before anything is taken from the book.
        book: The firm's book; None where there is none.
    """
    return (*_on_quotation(job), *_on_book(job, book))


def _on_quotation(job: Job) -> Iterator[Finding]:
    quoted = job.quoted
    if quoted is None:
        return
    words = SAID.this_job_was_quoted(on=day_text(quoted.on), revision=quoted.revision)
    yield Finding(Code.QUOTED, Severity.NOTE, _PLACE, words)
    changed = [*_changed_alone(job), *_changed_entries(job)]
    if changed:
        words = SAID.job_says_other_prices(changed=_some(changed))
        options = worded((SAID.look_what_re_pricing, SAID.put_quoted_prices_back))
        yield Finding(Code.QUOTED_OTHERWISE, Severity.CHECK, _PLACE, words, options=options)


def _changed_alone(job: Job) -> Iterator[str]:
    """Give percentages and prices of an hour that the job says otherwise than its quotation."""
    assert job.quoted is not None  # noqa: S101 - asked for a quoted job only
    for name, words in _SAID.items():
        own = getattr(job.rates, name)
        if own is not None and own != getattr(job.quoted.rates, name):
            yield words
    then = {each.key: each for each in job.quoted.rates.assemblies}
    if any(then.get(each.key) != each for each in job.rates.assemblies):
        yield SAID.what_bought_beside_what


_SAID = {
    "labour_minor_per_hour": SAID.price_hour,
    "cut_price_minor": SAID.price_cubic_metre_dug,
    "fill_price_minor": SAID.price_cubic_metre_filled,
    "overhead_percent": "overhead",
    "overhead_minor_per_hour": SAID.overhead_hour,
    "margin_percent": "the margin",
    "markup_percent": "the mark-up",
    "tax_percent": "the tax",
}


def _changed_entries(job: Job) -> Iterator[str]:
    """Give what is bought or hired at another price than quoted."""
    quoted = job.quoted
    assert quoted is not None  # noqa: S101 - asked for a quoted job only
    then, prices = quoted.rates, {each.unit: each.pack_price_minor for each in quoted.unit_prices}
    for unit in job.units:
        if unit.name in prices and unit.pack_price_minor not in {None, prices[unit.name]}:
            yield unit.name
    materials = {each.key: each for each in then.materials}
    for material in job.rates.materials:
        if _differs(material, materials.get(material.key)):
            yield material.name or material.key.value
    items = {each.key: each for each in then.catalogue}
    for item in job.rates.catalogue:
        if _differs(item, items.get(item.key)):
            yield item.name
    for hire in job.rates.plant:
        if _differs(hire, hire_of(hire, then.plant)):
            yield hire.name or hire.key.value
    if job.rates.disposal is not None and _differs(job.rates.disposal, then.disposal):
        yield f"a {job.rates.disposal.kind.value}"


def _differs(own: BuyingTerms, then: BuyingTerms | None) -> bool:
    """Return whether an entry has a price of its own that is not the quotation's of the same thing."""
    if then is None or not sold_alike(own, then):
        return False
    return any(getattr(own, name) not in {None, getattr(then, name)} for name in PRICES[type(own)])


def _on_book(job: Job, book: FirmBook | None) -> Iterator[Finding]:
    if book is None:
        return
    if book.currency != job.identity.currency:
        words = SAID.firm_s_book_this(currency=book.currency, currency_2=job.identity.currency)
        options = worded((SAID.enter_prices_this_job, SAID.put_job_into_money))
        yield Finding(Code.OTHER_MONEY, Severity.CHECK, _PLACE, words, options=options)
        return
    others = list(_of_other_packs(job, book))
    if others:
        words = SAID.book_has_price_another(others=_some(others))
        options = worded((SAID.name_pack_book_job, SAID.enter_price_pack_job))
        yield Finding(Code.OTHER_PACK, Severity.CHECK, _PLACE, words, options=options)


def _of_other_packs(job: Job, book: FirmBook) -> Iterator[str]:
    units = {each.name: each for each in book.units}
    for unit in job.units:
        if _of_other_pack(unit, units.get(unit.name)):
            yield unit.name
    materials = {each.key: each for each in book.rates.materials}
    for material in job.rates.materials:
        if _of_other_pack(material, materials.get(material.key)):
            yield material.name or material.key.value
    if job.rates.disposal is not None and _of_other_pack(job.rates.disposal, book.rates.disposal):
        yield f"a {job.rates.disposal.kind.value} of {job.rates.disposal.volume_m3:g} m³"


def _of_other_pack(own: BuyingTerms, other: BuyingTerms | None) -> bool:
    return other is not None and not has_price(own) and has_price(other) and not sold_alike(own, other)


def _some(names: Sequence[str]) -> str:
    more = len(names) - _NAMED
    return ", ".join(names[:_NAMED]) + (f" and {more} more" if more > 0 else "")
