"""How a process and its worker speak: a letter, a length, the content."""

from __future__ import annotations

import json
import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.engine._types import Failed, FailureKind, Trouble, hold

if TYPE_CHECKING:
    from typing import IO

    from pavewright.engine._types import Answer, Common

_HEAD = struct.Struct(">cQ")
_DONE, _RAISED, _OTHER, _ASK, _HOLD = b"D", b"R", b"O", b"A", b"H"


@dataclass(frozen=True, slots=True)
class Ask:
    """What is asked of a worker.

    Attributes:
        register: Module that holds the register of verbs.
        verb: Name of the verb in it.
        digest: Digest of the program that asks.
        common: Digest of the common part that the verb is given too; None for none.
        payload: What the verb is given.
    """

    register: str
    verb: str
    digest: str
    common: str | None
    payload: bytes


def put_common(sink: IO[bytes], common: Common) -> None:
    """Write a common part, which the worker holds; it has no answer."""
    _put(sink, _HOLD, common.digest.encode() + b"\n" + common.content)


def put_ask(sink: IO[bytes], ask: Ask) -> None:
    """Write what is asked."""
    _put(sink, _ASK, json.dumps([ask.register, ask.verb, ask.digest, ask.common]).encode() + b"\n" + ask.payload)


def take_ask(source: IO[bytes], held: dict[str, bytes]) -> Ask | None:
    """Return what is asked next; None where the stream ended.

    Args:
        source: Where it comes from.
        held: Common parts by their digests: those that come before what is asked are put there.
    """
    while (frame := _take(source)) is not None:
        kind, content = frame
        head, _, rest = content.partition(b"\n")
        if kind == _ASK:
            register, verb, digest, common = json.loads(head)
            return Ask(register, verb, digest, common, rest)
        hold(held, head.decode(), rest)
    return None


def put_answer(sink: IO[bytes], answer: Answer | Trouble) -> None:
    """Write an answer."""
    if isinstance(answer, bytes):
        _put(sink, _DONE, answer)
    elif isinstance(answer, Failed):
        _put(sink, _RAISED, json.dumps([answer.kind, answer.error, answer.message]).encode())
    else:
        _put(sink, _OTHER, b"")


def take_answer(source: IO[bytes]) -> Answer | Trouble:
    """Return an answer; that the worker is lost where the stream ended."""
    frame = _take(source)
    if frame is None:
        return Trouble.LOST
    kind, content = frame
    if kind == _DONE:
        return content
    if kind == _RAISED:
        how, error, message = json.loads(content)
        return Failed(FailureKind(how), error, message)
    return Trouble.OTHER_PROGRAM


def _put(sink: IO[bytes], kind: bytes, content: bytes) -> None:
    sink.write(_HEAD.pack(kind, len(content)))
    sink.write(content)
    sink.flush()


def _take(source: IO[bytes]) -> tuple[bytes, bytes] | None:
    head = source.read(_HEAD.size)
    if len(head) < _HEAD.size:
        return None
    kind, length = _HEAD.unpack(head)
    content = source.read(length)
    return None if len(content) < length else (kind, content)
