"""The firms of one installation: the store and the book of each, and whichever this request is about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.people import Right
from pavewright.web._book import BookAtHand
from pavewright.web._who_asks import firm_at_hand, may

if TYPE_CHECKING:
    from pavewright.store import Installation, Store

_FIRST = "own"
"""By what an address names the first firm of an installation."""


class Firms:
    """The firms, and what is kept of each while the server runs."""

    def __init__(self, installed: Installation) -> None:
        """Keep where they are."""
        self.installed = installed
        self._books: dict[str | None, BookAtHand] = {}

    def store(self) -> Store:
        """Return the store of the firm that this request is about."""
        return self.of(firm_at_hand())

    def of(self, firm_id: str | None) -> Store:
        """Return the store of a firm, of the first one where none is named."""
        return self.installed.first if firm_id is None else self.installed.store_of(firm_id)

    def name_at_hand(self) -> str:
        """Return by what an address names the firm that this request is about."""
        return firm_at_hand() or _FIRST

    def named(self, name: str) -> Store | None:
        """Return the store of a firm that an address names; None where there is no such firm."""
        if name == _FIRST:
            return self.installed.first
        try:
            return self.installed.store_of(name)
        except LookupError:
            return None

    def beside(self, verb: str, payload: bytes) -> bytes:
        """Return what a worker is asked, with the book of the firm that this request is about."""
        firm_id = firm_at_hand()
        if firm_id not in self._books:
            self._books[firm_id] = BookAtHand(self.of(firm_id))
        return self._books[firm_id].beside(verb, payload, with_money=may(Right.SEE_MONEY))

    def seen(self) -> tuple[Store, ...]:
        """Return the stores that were used since the server began, the first one among them."""
        found = {id(store): store for store in (self.installed.first, *(self.of(each) for each in self._books))}
        return tuple(found.values())
