"""How customers reach their quotations, and what keeps their links from being tried out."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.types import Scope

FOLDER = "/quotation/"
"""What every address of a customer begins with."""
FEEDS = "/feeds/"
"""What the address of every feed of somebody's days begins with: it hangs on its token alone, as a quotation does."""
_WRONG_MAX = 20
_WRONG_WITHIN_S = 60.0
_ADDRESSES_MAX = 1_000


@dataclass(frozen=True, slots=True)
class ForCustomers:
    """How this server is reached by customers.

    Attributes:
        address: Address under which a customer reaches it from anywhere, without a slash at its end; empty where there
            is none.
        port: Port at which nothing but quotations is answered, to which such an address leads; None where there is
            none.
    """

    address: str = ""
    port: int | None = None


def is_for_customer(scope: Scope) -> bool:
    """Return whether a request is for what a customer may open, or for the days of somebody: a token alone opens it."""
    path: str = scope["path"]
    return path.startswith((FOLDER, FEEDS))


class WrongTokens:
    """Wrong tokens that were tried lately, by the address from which they came."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Keep the clock; none was tried."""
        self._clock = clock
        self._tried: dict[str, list[float]] = {}

    def is_too_many(self, address: str) -> bool:
        """Note a wrong token from an address; return whether so many came from there that it has to wait.

        A token that opens something is never held up by wrong ones: many customers may come from one address.
        """
        now = self._clock()
        tried = [at for at in self._tried.pop(address, ()) if at > now - _WRONG_WITHIN_S]
        if len(tried) < _WRONG_MAX:
            tried.append(now)
            self._put(address, tried)
            return False
        self._put(address, tried)
        return True

    def _put(self, address: str, tried: list[float]) -> None:
        """Keep what was tried from an address, the latest last; those that came long ago make room."""
        while len(self._tried) >= _ADDRESSES_MAX:
            del self._tried[next(iter(self._tried))]
        self._tried[address] = tried
