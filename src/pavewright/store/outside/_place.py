"""A place for files: each under the hash of its bytes, those of one firm apart from those of another."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from pavewright.store._troubles import StoreTroubleError, Trouble

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

_DIGEST = re.compile("[0-9a-f]{64}")
_FIRM = re.compile("[0-9a-f]{1,32}")
_PART = ".part"
"""How a file ends that was not finished."""


@dataclass(frozen=True, slots=True)
class Listed:
    """What stands under a key.

    Attributes:
        key: The key.
        size_bytes: Its size. [bytes]
        at: When it was written last.
    """

    key: str
    size_bytes: int
    at: dt.datetime


class Keys(Protocol):
    """Bytes under keys: a folder, or a store that speaks S3. Each method raises StoreTroubleError where it refuses."""

    name: str

    def write(self, key: str, content: bytes) -> None:
        """Keep bytes, all of them or nothing; they are durable when this returns."""

    def read(self, key: str) -> bytes | None:
        """Return what stands under a key; None where nothing does."""

    def there(self, key: str) -> bool:
        """Return whether something stands under a key."""

    def listed(self, prefix: str) -> Iterator[Listed]:
        """Give what stands under keys that begin with a prefix, which ends with a slash."""

    def drop(self, key: str) -> None:
        """Delete what stands under a key; nothing is said where nothing does."""


@dataclass(frozen=True, slots=True)
class Held:
    """A file that is kept.

    Attributes:
        digest: SHA-256 of its bytes, in hexadecimal digits.
        size_bytes: Its size. [bytes]
    """

    digest: str
    size_bytes: int


class Place:
    """Files of firms, each under the hash of its bytes.

    A firm is a part of every key: whoever knows the hash of a file of another firm finds nothing under it.
    """

    def __init__(self, keys: Keys) -> None:
        """Take where the bytes go."""
        self._keys = keys
        self.name = keys.name

    def put(self, firm: str, content: bytes) -> str:
        """Keep a file and return its hash; it is durable then. One that was damaged is whole again.

        Args:
            firm: The firm.
            content: Its bytes.

        Raises:
            StoreTroubleError: the place refuses; nothing is kept then.
        """
        digest = hashlib.sha256(content).hexdigest()
        self._keys.write(_key(firm, digest), content)
        self.unmark(firm, digest)
        return digest

    def get(self, firm: str, digest: str) -> bytes:
        """Return a file.

        Raises:
            StoreTroubleError: it is missing, is not what its hash says, or the place refuses.
        """
        content = self._keys.read(_key(firm, digest))
        if content is None:
            raise StoreTroubleError(Trouble.FILE_MISSING, self.name)
        if hashlib.sha256(content).hexdigest() != digest:
            raise StoreTroubleError(Trouble.FILE_DAMAGED, self.name)
        return content

    def has(self, firm: str, digest: str) -> bool:
        """Return whether a file is there; its bytes are not looked at."""
        return self._keys.there(_key(firm, digest))

    def held(self, firm: str) -> Iterator[Held]:
        """Give every file of a firm."""
        for one in self._keys.listed(f"{_firm(firm)}/files/"):
            digest = one.key.rpartition("/")[2]
            if _DIGEST.fullmatch(digest):
                yield Held(digest, one.size_bytes)

    def delete(self, firm: str, digest: str) -> None:
        """Delete a file, and its mark."""
        self._keys.drop(_key(firm, digest))
        self.unmark(firm, digest)

    def mark(self, firm: str, digest: str) -> None:
        """Note that no row names a file."""
        self._keys.write(_mark(firm, digest), b"")

    def unmark(self, firm: str, digest: str) -> None:
        """Note that a row names a file, or is about to."""
        self._keys.drop(_mark(firm, digest))

    def marked(self, firm: str) -> dict[str, dt.datetime]:
        """Return the files of a firm that no row named, with the time when that was first seen."""
        found = ((one.key.rpartition("/")[2], one.at) for one in self._keys.listed(f"{_firm(firm)}/unnamed/"))
        return {digest: at for digest, at in found if _DIGEST.fullmatch(digest)}

    def drop_unfinished(self, firm: str, before: dt.datetime) -> None:
        """Delete what a writer left unfinished before a time."""
        for one in list(self._keys.listed(f"{_firm(firm)}/")):
            if one.key.endswith(_PART) and one.at < before:
                self._keys.drop(one.key)


def _firm(firm: str) -> str:
    if not _FIRM.fullmatch(firm):
        message = "the name of a firm is made of hexadecimal digits"
        raise ValueError(message)
    return firm


def _key(firm: str, digest: str) -> str:
    return f"{_firm(firm)}/files/{_whole(digest)[:2]}/{digest}"


def _mark(firm: str, digest: str) -> str:
    return f"{_firm(firm)}/unnamed/{_whole(digest)}"


def _whole(digest: str) -> str:
    if not _DIGEST.fullmatch(digest):
        message = "a hash has 64 hexadecimal digits"
        raise ValueError(message)
    return digest
