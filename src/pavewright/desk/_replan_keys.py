"""By what a plan is known again: the digest of all that it depends on.

A plan is a pure function of the job with what it takes from the book, of the edition, and of this program. Of a
catalogue of thousands of items a job buys a few: the price of what it does not buy plays no part, as long as everything
else is the same. So a plan has two digests: one of all but the prices of the catalogue, under which it is kept what the
job buys of it, and one with the prices of that. Every other price stands in both: that of any material may be odd, and
a plan says so whether it is bought or not.
"""

from __future__ import annotations

import hashlib
import json
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright import firm, rulebook
from pavewright.desk._plain import plain
from pavewright.desk._read import read_firm
from pavewright.desk._replan_side import side_job
from pavewright.engine import program_digest

if TYPE_CHECKING:
    from collections.abc import Collection

    from pavewright.job import Job

_PRICE = ("pack_price_minor", "priced_on")
"""What is left out of items that are not bought: that they have a price, and in which packs, stays."""


def taken(document: str | bytes, book: str | None, edition: str, *, quoted: bool) -> Job:
    """Return a job with all that it takes from the book.

    Args:
        document: The job document.
        book: The firm's book; None where there is none.
        edition: Edition of the rulebook.
        quoted: Whether a quoted job keeps its quotation.

    Raises:
        JobInvalid: the document is no job.
        RulebookError: the edition cannot be read.
    """
    job, rules = side_job(document, edition, quoted=quoted)
    known = read_firm(book)
    return firm.with_learnt(firm.with_book(job, known), known, rules)


class PlanKeys:
    """The digests of one plan."""

    def __init__(self, job: Job, edition: str, against: str | None, *, booked: bool) -> None:
        """Take all that the plan depends on.

        Args:
            job: The job with all that it takes from the book.
            edition: Edition of the rulebook.
            against: Edition to whose figures its own are compared; None for none.
            booked: Whether there is a book.
        """
        told = job.model_dump(mode="json")
        items = told["rates"]["catalogue"]
        self._prices: dict[str, list[Any]] = {}
        for each in items:
            self._prices.setdefault(each["key"], []).append([each[name] for name in _PRICE])
            each.update({name: each[name] is not None for name in _PRICE})
        others = None if against is None else _edition_digest(against)
        self.without_prices = _digest([program_digest(), _edition_digest(edition), others, booked, told])

    def with_prices(self, bought: Collection[str]) -> str:
        """Return the digest with the prices of what is bought.

        Args:
            bought: What the plan buys, items of the catalogue among it.
        """
        return _digest([self.without_prices, {key: self._prices.get(key) for key in sorted(bought)}])


@lru_cache(maxsize=16)
def _edition_digest(edition: str) -> str:
    """Return the digest of an edition with its figures: one of the user's own may change under the same name."""
    rules = rulebook.load(edition)
    held = {name: dict(getattr(rules, name)) for name in ("figures", "tables")}
    return _digest([rules.edition, plain(held)])


def _digest(value: Any) -> str:  # noqa: ANN401 - plain values
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=str).encode()).hexdigest()
