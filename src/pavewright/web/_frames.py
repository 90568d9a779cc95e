"""Frames between the server and a worker: a kind, a length, and so many bytes."""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING, BinaryIO

if TYPE_CHECKING:
    import asyncio

_HEAD = struct.Struct(">cQ")

LIMITS = b"L"
"""The limits under which a worker answers from now on, as JSON."""
READY = b"Y"
"""Everything is loaded."""
ASK = b"A"
"""A request: the verb, a line feed, the payload."""
TOLD = b"T"
"""What is being done."""
DONE = b"D"
"""The answer."""
REFUSED = b"R"
"""A sentence why there is none; the user can fix it."""
FAILED = b"F"
"""A fault of the program."""
OUTGREW = b"O"
"""The work asked for more memory than it was given; the worker ends."""


def put(stream: BinaryIO, kind: bytes, content: bytes) -> None:
    """Write a frame."""
    stream.write(_HEAD.pack(kind, len(content)))
    stream.write(content)
    stream.flush()


def take(stream: BinaryIO) -> tuple[bytes, bytes] | None:
    """Read a frame; None where the stream has ended."""
    head = stream.read(_HEAD.size)
    if len(head) < _HEAD.size:
        return None
    kind, length = _HEAD.unpack(head)
    return kind, stream.read(length)


def packed(kind: bytes, content: bytes) -> bytes:
    """Return a frame as bytes."""
    return _HEAD.pack(kind, len(content)) + content


async def receive(stream: asyncio.StreamReader) -> tuple[bytes, bytes]:
    """Read a frame from a worker.

    Raises:
        asyncio.IncompleteReadError: the worker is gone.
    """
    kind, length = _HEAD.unpack(await stream.readexactly(_HEAD.size))
    return kind, await stream.readexactly(length)
