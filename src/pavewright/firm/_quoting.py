"""Quoting: the prices of the day go into the document of the job, and stay."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

from pavewright.firm._entries import updated
from pavewright.firm._learnt import with_learnt
from pavewright.firm._packs import pack_prices
from pavewright.firm._with_book import with_book
from pavewright.job import BuyingTerms, Quoted, QuotedUnit, load_document, parse
from pavewright.job.operations import between

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection

    from pavewright.firm._book import FirmBook
    from pavewright.job import Job
    from pavewright.job.operations import Operation
    from pavewright.rules import Rulebook

_TERMS = tuple(BuyingTerms.model_fields)


def snapshot(job: Job, book: FirmBook | None, on: dt.date, rules: Rulebook, used: Collection[str] = ()) -> Quoted:
    """Return what a job is quoted with: its own prices, and the book's where it has none of its own.

    Args:
        job: The job; what it was quoted with before plays no part.
        book: The firm's book; None where there is none.
        on: Day of the quotation.
        rules: The rulebook that it is planned with: outputs learnt from past jobs lean on it.
        used: Items of the catalogue that the plan buys; of a book of thousands no others are kept.
    """
    now = with_learnt(with_book(updated(job, quoted=None), book), book, rules)
    own = {each.key for each in job.rates.catalogue}
    catalogue = tuple(each for each in now.rates.catalogue if each.key in own or each.key in used)
    return Quoted(
        on=on,
        revision=job.identity.revision,
        rates=updated(now.rates, catalogue=catalogue),
        crew=now.crew,
        terms=now.terms,
        unit_prices=tuple(
            QuotedUnit(unit=each.name, **{name: getattr(each, name) for name in ("pack_price_minor", *_TERMS)})
            for each in now.units
        ),
        pack_prices=pack_prices(now),
    )


def quoted(
    document: str | bytes | dict[str, Any],
    book: FirmBook | None,
    on: dt.date,
    rules: Rulebook,
    used: Collection[str] = (),
) -> list[Operation]:
    """Return the operations that put into a job document what it is quoted with.

    A job that keeps no edition of the rulebook yet keeps the one that it is planned with.

    Args:
        document: The job document.
        book: The firm's book; None where there is none.
        on: Day of the quotation.
        rules: The rulebook that it is planned with.
        used: Items of the catalogue that the plan buys.

    Raises:
        JobInvalid: the document is not a job; carries every fault.
    """
    before = document if isinstance(document, dict) else load_document(document)
    after = copy.deepcopy(before)
    job = parse(before)
    after["quoted"] = snapshot(job, book, on, rules, used).model_dump(mode="json", exclude_none=True)
    if job.identity.edition is None:
        after["identity"]["edition"] = rules.dated.isoformat()
    return between(before, after)


def unquoted(job: Job) -> Job:
    """Return a job as if it had not been quoted: with the prices of today."""
    return updated(job, quoted=None)
