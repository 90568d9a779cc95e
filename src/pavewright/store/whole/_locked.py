"""A file that a passphrase locks: pieces of AES-GCM, each bound to its place and the last one marked.

The key comes from the passphrase by scrypt (RFC 7914). Pieces follow the construction STREAM (Hoang, Reyhanitabar,
Rogaway, Vizár: Online authenticated-encryption and its nonce-reuse misuse-resistance, 2015): a piece that was changed,
moved, left out or cut off is found. docs/database.md says how the file is laid out.
"""

from __future__ import annotations

import hmac
import io
import os
import struct
import unicodedata
from typing import TYPE_CHECKING, BinaryIO, NamedTuple

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

if TYPE_CHECKING:
    from _typeshed import ReadableBuffer, WriteableBuffer

MAGIC = b"pavewright locked 1\n"
"""How such a file begins."""
_HEAD = struct.Struct(">16sBBB7s16s")
"""After that: salt, cost of scrypt as a power of two, r, p, beginning of every nonce, check of the passphrase."""
_HEAD_BYTES = len(MAGIC) + _HEAD.size
_PIECE_BYTES = 65_536
"""Bytes in a piece before it is locked; the last one may be shorter. [bytes]"""
_TAG_BYTES = 16
_COST, _R, _P = 17, 8, 1
"""2^17 rounds, blocks of 8, one lane, as OWASP advises for scrypt: 128 MiB."""
_MOST_COST, _MOST_R, _MOST_P = 20, 16, 4
"""A file that asks for more than this is refused: it would hold the machine up."""


class WrongPassphraseError(Exception):
    """The passphrase does not open the file."""


class ChangedError(Exception):
    """A piece of the file was changed, moved or cut off, or it is no such file."""


class _Head(NamedTuple):
    salt: bytes
    cost: int
    r: int
    p: int
    nonce: bytes
    check: bytes


def _keys(passphrase: str, head: _Head) -> tuple[AESGCM, bytes]:
    """Return the cipher and the check of a passphrase."""
    kdf = Scrypt(salt=head.salt, length=48, n=1 << head.cost, r=head.r, p=head.p)
    made = kdf.derive(unicodedata.normalize("NFC", passphrase).encode())
    return AESGCM(made[:32]), made[32:]


def _nonce(head: _Head, number: int, *, last: bool) -> bytes:
    return head.nonce + number.to_bytes(4, "big") + bytes([last])


class LockedWriter(io.RawIOBase):
    """Locks what is written to it, piece by piece; closing it marks the last piece and leaves the file below open."""

    def __init__(self, below: BinaryIO, passphrase: str) -> None:
        """Write the head.

        Args:
            below: The file, at its beginning.
            passphrase: The passphrase.
        """
        head = _Head(os.urandom(16), _COST, _R, _P, os.urandom(7), bytes(16))
        self._cipher, check = _keys(passphrase, head)
        self._head = head._replace(check=check)
        self._bound = MAGIC + _HEAD.pack(*self._head)
        self._below, self._waiting, self._number = below, bytearray(), 0
        below.write(self._bound)

    def writable(self) -> bool:
        """Return True."""
        return True

    def write(self, content: ReadableBuffer) -> int:
        """Take bytes; a piece is written when a byte after it is known."""
        self._waiting += content
        while len(self._waiting) > _PIECE_BYTES:
            self._put(bytes(self._waiting[:_PIECE_BYTES]), last=False)
            del self._waiting[:_PIECE_BYTES]
        return memoryview(content).nbytes

    def close(self) -> None:
        """Write the last piece."""
        if not self.closed:
            self._put(bytes(self._waiting), last=True)
        super().close()

    def _put(self, piece: bytes, *, last: bool) -> None:
        self._below.write(self._cipher.encrypt(_nonce(self._head, self._number, last=last), piece, self._bound))
        self._number += 1


class LockedReader(io.RawIOBase):
    """Opens a locked file wherever it is asked for: no whole copy of it in the open is ever made."""

    def __init__(self, below: BinaryIO, passphrase: str) -> None:
        """Read the head, and the last piece: a file that was cut short is found at once.

        Raises:
            WrongPassphraseError: the passphrase does not open it.
            ChangedError: the file was changed or cut short.
        """
        self._below = below
        self._head, self._bound = _head_of(below)
        self._cipher, check = _keys(passphrase, self._head)
        if not hmac.compare_digest(check, self._head.check):
            raise WrongPassphraseError
        sealed = below.seek(0, io.SEEK_END) - _HEAD_BYTES
        self._pieces = -(-sealed // (_PIECE_BYTES + _TAG_BYTES))
        self._size = sealed - self._pieces * _TAG_BYTES
        self._at, self._here, self._piece = 0, -1, b""
        self._load(self._pieces - 1)

    def readable(self) -> bool:
        """Return True."""
        return True

    def seekable(self) -> bool:
        """Return True."""
        return True

    def tell(self) -> int:
        """Return the place of the next byte."""
        return self._at

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        """Go to a place."""
        base = {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: self._size}[whence]
        if base + offset < 0:
            message = "there is nothing before the beginning"
            raise OSError(message)
        self._at = base + offset
        return self._at

    def readinto(self, into: WriteableBuffer) -> int:
        """Read up to the end of a piece.

        Raises:
            ChangedError: the piece was changed.
        """
        view = memoryview(into).cast("B")
        if self._at >= self._size or not view:
            return 0
        number, start = divmod(self._at, _PIECE_BYTES)
        self._load(number)
        part = self._piece[start : start + len(view)]
        view[: len(part)] = part
        self._at += len(part)
        return len(part)

    def _load(self, number: int) -> None:
        if number == self._here:
            return
        self._below.seek(_HEAD_BYTES + number * (_PIECE_BYTES + _TAG_BYTES))
        sealed = self._below.read(_PIECE_BYTES + _TAG_BYTES)
        nonce = _nonce(self._head, number, last=number == self._pieces - 1)
        try:
            self._piece = self._cipher.decrypt(nonce, sealed, self._bound)
        except (InvalidTag, ValueError) as problem:
            raise ChangedError from problem
        self._here = number


def _head_of(below: BinaryIO) -> tuple[_Head, bytes]:
    below.seek(0)
    bound = below.read(_HEAD_BYTES)
    size = below.seek(0, io.SEEK_END)
    if len(bound) < _HEAD_BYTES or not bound.startswith(MAGIC) or size < _HEAD_BYTES + _TAG_BYTES:
        raise ChangedError
    head = _Head(*_HEAD.unpack(bound[len(MAGIC) :]))
    if not (1 <= head.cost <= _MOST_COST and 1 <= head.r <= _MOST_R and 1 <= head.p <= _MOST_P):
        raise ChangedError
    return head, bound
