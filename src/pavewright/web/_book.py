"""The book of the firm at hand: it goes with everything that plans a job."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from pavewright.desk import beside_book, book_without_money

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store import Store

_LOOK_S = 1.0
"""How often it is looked whether another program changed the book. [s]"""
_WITHOUT = frozenset({"warm", "preview", "photo", "sum", "file", "logo", "firm_check", "weather"})
"""What is worked out without prices."""


class BookAtHand:
    """The book as it stands, read again when something was written."""

    def __init__(self, store: Store, now: Callable[[], float] = time.monotonic) -> None:
        """Keep the store, and the clock. [s]."""
        self._store, self._now = store, now
        self._writes, self._looked_s = -1, 0.0
        self._mark: tuple[int, str] | None = None
        self._document = b""

    def document(self) -> bytes:
        """Return the book; empty where there is none."""
        if self._store.writes != self._writes or self._now() - self._looked_s > _LOOK_S:
            self._writes, self._looked_s = self._store.writes, self._now()
            mark = self._store.firm.mark()
            if mark != self._mark:
                self._document = self._store.firm.book().document.encode()
                self._mark = mark
        return self._document

    def beside(self, verb: str, payload: bytes, *, with_money: bool = True) -> bytes:
        """Return what is asked with the book before it, where it takes one, with or without its money."""
        if verb in _WITHOUT:
            return payload
        book = self.document()
        return beside_book(book if with_money else book_without_money(book), payload)
