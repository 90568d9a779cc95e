"""What a worker does with an errand."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from pavewright.engine._program import program_digest
from pavewright.engine._types import Failed, FailureKind, OtherProgramError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from pavewright.engine._types import Answer

REGISTER = "pavewright.desk"
"""The module whose ``ENGINE_VERBS`` are asked where no other is named."""
_WORDS_MAX = 2000
"""So much of what an error said is kept. [characters]"""


def do_errand(
    register: str,
    verb: str,
    digest: str,
    pieces: Sequence[tuple[bytes, int | None]],
    commons: Sequence[bytes] = (),
) -> tuple[Answer, ...]:
    """Return the answers to pieces, one for each, in their order.

    Args:
        register: Module that holds the register of verbs.
        verb: Name of the verb.
        digest: Digest of the program that asks.
        pieces: Payloads, each with the place of its common part; None where it has none.
        commons: The common parts.

    Raises:
        OtherProgramError: the program that asks is not the one that runs here, or has no such verb.
    """
    if digest != program_digest():
        raise OtherProgramError
    verbs: Mapping[str, Callable[..., bytes]] = import_module(register).ENGINE_VERBS
    if verb not in verbs:
        raise OtherProgramError
    return tuple(
        _answer(verbs[verb], (payload,) if place is None else (payload, commons[place])) for payload, place in pieces
    )


def same_content(content: bytes) -> bytes:
    """Return a common part: a cluster holds it as the answer to this, and can make it again where a worker is lost.

    Args:
        content: The common part.
    """
    return content


def _answer(verb: Callable[..., bytes], given: tuple[bytes, ...]) -> Answer:
    try:
        return verb(*given)
    except Exception as error:  # noqa: BLE001 - a piece that fails is one failure, and the others go on
        return Failed(FailureKind.RAISED, type(error).__name__, str(error)[:_WORDS_MAX])
