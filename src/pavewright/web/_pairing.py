"""Pairing: short words that let one device in, once and soon, and what keeps them from being guessed."""

from __future__ import annotations

import secrets
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_SIGNS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Figures and letters that nobody takes for one another."""
_LENGTH = 10
VALID_S = 600.0
"""So long a pairing word holds. [s]"""
_WRONG_MAX = 20
_WRONG_WITHIN_S = 60.0
_NAME_MAX = 60


class TooManyWrongError(Exception):
    """So many wrong words were tried that none is looked at for a while."""


class Pairing:
    """The pairing words that are out."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Keep the clock; no word is out."""
        self._clock = clock
        self._until: dict[str, tuple[float, str]] = {}
        self._wrong: list[float] = []

    def new(self, firm_id: str = "") -> str:
        """Return a fresh word, which holds for some minutes and lets one device in.

        Args:
            firm_id: The firm to which that device will belong; empty for the first one.
        """
        word = "".join(secrets.choice(_SIGNS) for _ in range(_LENGTH))
        self._tidy()
        self._until[word] = (self._clock() + VALID_S, firm_id)
        return word

    def holds(self, typed: str) -> bool:
        """Return whether a word is out and holds.

        Raises:
            TooManyWrongError: too many wrong ones were tried lately.
        """
        self._tidy()
        if len(self._wrong) >= _WRONG_MAX:
            raise TooManyWrongError
        known = _plain(typed) in self._until
        if not known:
            self._wrong.append(self._clock())
        return known

    def use(self, typed: str) -> str | None:
        """Return for which firm a word holds, and let it hold no more; None where it does not hold.

        Raises:
            TooManyWrongError: too many wrong ones were tried lately.
        """
        if not self.holds(typed):
            return None
        found = self._until.pop(_plain(typed), None)
        return None if found is None else found[1]

    def _tidy(self) -> None:
        now = self._clock()
        self._until = {word: each for word, each in self._until.items() if each[0] > now}
        self._wrong = [at for at in self._wrong if at > now - _WRONG_WITHIN_S]


def device_name(typed: str) -> str:
    """Return the name of a device as it is kept: one line without signs that steer, empty where nothing is left."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in typed).split())[:_NAME_MAX]


def spoken(word: str) -> str:
    """Return a word in the parts in which it is read out.

    >>> spoken("ABCDE23456")
    'ABCDE-23456'
    """
    return f"{word[: _LENGTH // 2]}-{word[_LENGTH // 2 :]}"


def _plain(typed: str) -> str:
    """Return a word as it was made, however it was typed."""
    return "".join(sign for sign in typed.upper() if sign in _SIGNS)
