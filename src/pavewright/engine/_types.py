"""Pieces, their answers, and what an engine is asked."""

from __future__ import annotations

import hashlib
from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Self

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import TracebackType

HELD = 4
"""So many common parts a worker holds; the one that came first goes first. [-]"""


@dataclass(frozen=True, slots=True)
class Common:
    """What many pieces have in common: it goes to each worker once, not with every piece.

    Attributes:
        digest: Its name, SHA-256 of its content.
        content: What the verb is given as its second argument.
    """

    digest: str
    content: bytes

    @classmethod
    def of(cls, content: bytes) -> Self:
        """Return a common part; make it once and give it to every piece.

        Args:
            content: What the verb is given.
        """
        return cls(hashlib.sha256(content).hexdigest(), content)


def hold(held: dict[str, Any], digest: str, what: object) -> None:
    """Hold a common part, and let the one go that came first where there are too many.

    Whoever sends and whoever holds do this in the same order, so that both know what is there.

    Args:
        held: What is held, by digest.
        digest: Name of what comes.
        what: What comes.
    """
    held[digest] = what
    while len(held) > HELD:
        del held[next(iter(held))]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of work.

    Attributes:
        key: Its name, of which there is one in a run.
        payload: What the verb is given.
        common: What it has in common with others, the verb's second argument; None where the verb takes none.
    """

    key: str
    payload: bytes
    common: Common | None = None


class FailureKind(StrEnum):
    """How a piece failed."""

    RAISED = "raised"
    """The verb raised an error."""
    LOST = "lost"
    """Every worker that began with it ended."""


@dataclass(frozen=True, slots=True)
class Failed:
    """A piece without an answer.

    Attributes:
        kind: How it failed.
        error: Name of the error that was raised; empty where the worker was lost.
        message: What the error said, for the log.
    """

    kind: FailureKind
    error: str = ""
    message: str = ""


Answer = bytes | Failed


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a run is.

    Attributes:
        done: Pieces that are over, those that failed and those of an earlier run among them.
        failed: Pieces that failed.
        of: How many there are; None where they are not counted yet.
        workers: How many pieces can be done at the same time now; zero where no worker is there.
    """

    done: int
    failed: int
    of: int | None
    workers: int


class RunStoppedError(Exception):
    """The run was stopped; what was answered before is kept by whoever took it."""


class EngineLostError(Exception):
    """The scheduler of a cluster cannot be reached; carries its address."""


class EngineMissingError(Exception):
    """The extra that a cluster needs is not installed; the message says which."""


class OtherProgramError(Exception):
    """A worker runs another version of this program: its answers could differ, so none is taken."""


@dataclass(eq=False, slots=True)
class Errand:
    """Pieces that are sent to a worker together.

    Attributes:
        register: Module that holds the register of verbs.
        verb: Name of the verb in it.
        digest: Digest of the program that asks.
        pieces: The pieces.
        tries: How often a worker was lost with it.
        dropped: Whether nobody waits for it any more.
    """

    register: str
    verb: str
    digest: str
    pieces: tuple[Piece, ...]
    tries: int = 0
    dropped: bool = False


class Trouble(StrEnum):
    """Why an errand came back without answers."""

    LOST = "lost"
    OTHER_PROGRAM = "other_program"
    NO_ENGINE = "no_engine"


Outcome = tuple[Answer, ...] | Trouble
"""The answers of an errand, piece by piece, or why there are none."""


class Engine(ABC):
    """What does pieces of work; kept between runs, closed in the end."""

    tries_itself = False
    """Whether a lost errand was tried again before it is told of."""

    @property
    @abstractmethod
    def workers(self) -> int:
        """How many pieces can be done at the same time now."""

    @abstractmethod
    def batch(self, count: int | None) -> int:
        """Return how many pieces go together.

        Args:
            count: How many there are; None where nobody knows. [-]
        """

    @abstractmethod
    def send(self, errand: Errand, tell: Callable[[Errand, Outcome], None]) -> None:
        """Begin an errand; its outcome is told from another thread.

        Args:
            errand: The errand.
            tell: Takes it with its outcome.
        """

    @abstractmethod
    def drop(self, errands: tuple[Errand, ...]) -> None:
        """Let errands go for which nobody waits any more.

        Args:
            errands: The errands.
        """

    @abstractmethod
    def close(self) -> None:
        """End every worker that was started from here."""

    def __enter__(self) -> Self:
        """Return the engine."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close it."""
        self.close()
