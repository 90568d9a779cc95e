"""Waits: who tries too often waits longer each time, and nobody learns by it whether a name exists."""

from __future__ import annotations

import asyncio
import datetime as dt
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store import Accounts

_FREE, _FREE_ADDRESS = 5, 30
"""Wrong tries within the hour that make nobody wait: by one name, and from one address."""
_FIRST_S, _LONGEST_S = 15, 900
_WITHIN = dt.timedelta(hours=1)
_OFTEN, _OFTEN_WITHIN_S, _ADDRESSES_MAX = 240, 60.0, 1_000


class Waits:
    """Tries that failed, as the accounts keep them: a server that is started anew forgets none."""

    def __init__(self, accounts: Accounts) -> None:
        """Keep the accounts."""
        self._accounts = accounts
        self._turns = asyncio.Lock()

    async def begin(self, name: str, address: str) -> int:
        """Note a try; return how long it has to wait instead, zero where it is looked at. [s].

        It is noted before anything is looked at, so that many at the same moment count as many.
        """
        keys = ((f"name {name.strip().casefold()}", _FREE), (f"address {address}", _FREE_ADDRESS))
        async with self._turns:
            return await asyncio.to_thread(self._begin, keys)

    async def succeeded(self, name: str, address: str) -> None:
        """Forget the wrong tries of a name, and those of the address that it comes from."""
        await asyncio.to_thread(self._accounts.clear_failures, f"name {name.strip().casefold()}")
        await asyncio.to_thread(self._accounts.clear_failures, f"address {address}")

    def _begin(self, keys: tuple[tuple[str, int], ...]) -> int:
        now = dt.datetime.now(dt.UTC)
        for key, free in keys:
            tried = self._accounts.failures(key, now - _WITHIN)
            wait_s = wait_after(tried, free)
            if wait_s and self._accounts.failures(key, now - dt.timedelta(seconds=wait_s)):
                return wait_s
        for key, _ in keys:
            self._accounts.note_failure(key)
        return 0


def wait_after(tried: int, free: int) -> int:
    """Return how long to wait after so many wrong tries. [s].

    >>> [wait_after(tried, 5) for tried in (4, 5, 6, 7, 20)]
    [0, 15, 30, 60, 900]
    """
    return 0 if tried < free else min(_FIRST_S << min(tried - free, 10), _LONGEST_S)


class Often:
    """How often an address asks without anybody being signed in there."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Keep the clock; nobody asked."""
        self._clock = clock
        self._asked: dict[str, tuple[float, int]] = {}

    def is_too_often(self, address: str) -> bool:
        """Note that an address asks; return whether it did so too often in this minute."""
        now = self._clock()
        since, count = self._asked.pop(address, (now, 0))
        if now - since > _OFTEN_WITHIN_S:
            since, count = now, 0
        while len(self._asked) >= _ADDRESSES_MAX:
            del self._asked[next(iter(self._asked))]
        self._asked[address] = (since, count + 1)
        return count >= _OFTEN
