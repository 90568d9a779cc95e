"""A store that speaks S3, in which files are kept.

Its address, keys and region come from the environment as programs for S3 know them: AWS_ACCESS_KEY_ID,
AWS_SECRET_ACCESS_KEY, AWS_ENDPOINT_URL, AWS_REGION; each of them with _FILE at its end names a file that holds it.
"""

from __future__ import annotations

import os
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store.outside._place import Listed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from obstore.store import ClientConfig, RetryConfig, S3Store

SETTINGS = ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY", "AWS_SESSION_TOKEN", "AWS_ENDPOINT_URL", "AWS_REGION")
"""What the environment may hold, or name a file for."""
_TRIES: RetryConfig = {"max_retries": 3, "retry_timeout": timedelta(seconds=60)}
"""How often more, and for how long, a request is sent that failed on its way."""
_WAITS: ClientConfig = {"connect_timeout": "5s", "timeout": "60s"}
"""How long a connection and an answer are waited for."""


class S3:
    """Bytes under keys in a bucket."""

    def __init__(self, address: str) -> None:
        """Take the address: ``s3://BUCKET/PREFIX``.

        Raises:
            StoreTroubleError: it is no address, or what speaks with it is not installed.
        """
        parts = urlsplit(address)
        if parts.scheme != "s3" or not parts.hostname or parts.query or parts.fragment or "@" in parts.netloc:
            raise StoreTroubleError(Trouble.NO_PLACE, "What was given")
        self.name = f"s3://{parts.netloc}{parts.path}"
        self._store = _opened(parts.netloc, parts.path.strip("/"), self.name)

    def write(self, key: str, content: bytes) -> None:
        """Keep bytes: the store acknowledges them when they are durable, all of them or nothing."""
        import obstore  # noqa: PLC0415 - an extra

        with _in_words(self.name):
            obstore.put(self._store, key, content)

    def read(self, key: str) -> bytes | None:
        """Return what stands under a key; None where nothing does."""
        import obstore  # noqa: PLC0415 - an extra

        with _in_words(self.name):
            try:
                return bytes(obstore.get(self._store, key).bytes())
            except FileNotFoundError:
                return None

    def there(self, key: str) -> bool:
        """Return whether something stands under a key."""
        import obstore  # noqa: PLC0415 - an extra

        with _in_words(self.name):
            try:
                obstore.head(self._store, key)
            except FileNotFoundError:
                return False
            return True

    def listed(self, prefix: str) -> Iterator[Listed]:
        """Give what stands under keys that begin with a prefix."""
        import obstore  # noqa: PLC0415 - an extra

        with _in_words(self.name):
            for some in obstore.list(self._store, prefix.rstrip("/")):
                for one in some:
                    yield Listed(one["path"], one["size"], one["last_modified"])

    def drop(self, key: str) -> None:
        """Delete what stands under a key."""
        import obstore  # noqa: PLC0415 - an extra

        with _in_words(self.name):
            try:
                obstore.delete(self._store, key)
            except FileNotFoundError:
                return


def _opened(bucket: str, prefix: str, name: str) -> S3Store:
    try:
        from obstore.exceptions import BaseError  # noqa: PLC0415 - an extra
        from obstore.store import S3Store  # noqa: PLC0415 - an extra
    except ModuleNotFoundError as problem:
        raise StoreTroubleError(Trouble.NO_S3, name) from problem
    given: Any = {setting.lower(): found for setting in SETTINGS if (found := _setting(setting)) is not None}
    if given.get("aws_endpoint_url", "").startswith("http://"):
        given["aws_allow_http"] = "true"  # who names such an address wants it: on the same machine, or behind a wall
    try:
        return S3Store(bucket, prefix=prefix or None, config=given, client_options=_WAITS, retry_config=_TRIES)
    except (BaseError, ValueError) as problem:
        raise StoreTroubleError(Trouble.NO_PLACE, name) from problem


def _setting(name: str) -> str | None:
    """Return a setting of the environment, or of the file that the environment names for it."""
    named = os.environ.get(f"{name}_FILE")
    if not named:
        return os.environ.get(name) or None
    try:
        return Path(named).read_text("utf-8").strip()
    except (OSError, UnicodeDecodeError):
        raise StoreTroubleError(Trouble.MISSING, f"file of {name}_FILE that can be read") from None


@contextmanager
def _in_words(name: str) -> Iterator[None]:
    """Turn what the store refuses into a sentence.

    Raises:
        StoreTroubleError: with what is wrong.
    """
    from obstore.exceptions import BaseError  # noqa: PLC0415 - an extra

    try:
        yield
    except (BaseError, OSError) as problem:  # what it says of itself may hold addresses and keys: it is not handed on
        raise StoreTroubleError(Trouble.FILES_AWAY, name) from problem
