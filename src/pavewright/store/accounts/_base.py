"""What every part of the accounts stands on: connections, tokens and times."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import secrets
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    Opens = Callable[[], AbstractContextManager[Connection]]

_TOKEN_BYTES = 32
"""Random bytes in a token. [bytes]"""
_ID_BYTES = 16
"""Random bytes in a name of the store. [bytes]"""


class Part:
    """A part of the accounts."""

    def __init__(self, reading: Opens, writing: Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing


def new_id() -> str:
    """Return a name that nobody guesses."""
    return secrets.token_hex(_ID_BYTES)


def new_token() -> tuple[str, str]:
    """Return a new token and what is kept of it."""
    token = secrets.token_urlsafe(_TOKEN_BYTES)
    return token, digest_of(token)


def digest_of(token: str) -> str:
    """Return what is kept of a token; it is random and long, so that no salt or slow digest is needed."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def after_now(**so_long: float) -> str:
    """Return the time in so long, UTC."""
    return (dt.datetime.now(dt.UTC) + dt.timedelta(**so_long)).isoformat(timespec="milliseconds")


def as_kept(at: dt.datetime | None) -> str | None:
    """Return a time as it is kept, UTC."""
    return None if at is None else at.astimezone(dt.UTC).isoformat(timespec="milliseconds")


def words_kept(words: Iterable[str]) -> str:
    """Return words as they are kept."""
    return json.dumps(list(words))


def words_read(kept: str) -> tuple[str, ...]:
    """Return words that were kept."""
    return tuple(json.loads(kept))


def as_text(facts: dict[str, Any]) -> str:
    """Return facts as they are kept."""
    return json.dumps(facts, ensure_ascii=False, sort_keys=True)
