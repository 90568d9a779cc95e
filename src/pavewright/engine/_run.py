"""A run: pieces are dealt, answers taken as they come, what is lost dealt again."""

from __future__ import annotations

import queue
from collections.abc import Sized
from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING

from pavewright.engine._program import program_digest
from pavewright.engine._types import (
    EngineLostError,
    Errand,
    Failed,
    FailureKind,
    OtherProgramError,
    Progress,
    RunStoppedError,
    Trouble,
)
from pavewright.engine._work import REGISTER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from pavewright.engine._types import Answer, Engine, Outcome, Piece

ATTEMPTS = 3
"""So often is a piece tried with which a worker is lost. [-]"""
_LOOK_S = 0.1
"""How often a run looks whether it was stopped. [s]"""
_AHEAD = 2
"""Errands for each worker that are under way at a time: one in its hands, one that waits. [-]"""


def run_pieces(
    verb: str,
    pieces: Iterable[Piece],
    *,
    engine: Engine,
    report: Callable[[Progress], None] | None = None,
    stopped: Callable[[], bool] | None = None,
    done: Mapping[str, bytes] | None = None,
    register: str = REGISTER,
    attempts: int = ATTEMPTS,
) -> Iterator[tuple[str, Answer]]:
    """Give the answer to each piece by its key, in the order in which they are made: whoever reports sorts them.

    Pieces are taken and answers given one after the other, so that a long run holds a few of them at a time. Where an
    iterator has no piece now it may have one after an answer was taken: it is asked again until none is under way.

    Args:
        verb: Name of a verb of the register: a pure function of bytes to bytes.
        pieces: The pieces, each with a key of its own.
        engine: What does them.
        report: Told how far the run is, before the first answer and after each.
        stopped: Asked again and again; once it says yes, the run ends.
        done: Answers of an earlier run, which are given as they are and not made again.
        register: Module that holds the register ``ENGINE_VERBS``.
        attempts: How often a piece is tried with which a worker is lost. [-]

    Raises:
        RunStoppedError: it was stopped.
        EngineLostError: the cluster cannot be reached any more.
        OtherProgramError: a worker runs another version of this program.
        ValueError: two pieces have the same key.
    """
    run = _Run(engine, verb, register, attempts, report or (lambda _: None), stopped or (lambda: False))
    return run.answers(pieces, done or {})


@dataclass(eq=False)
class _Run:
    engine: Engine
    verb: str
    register: str
    attempts: int
    report: Callable[[Progress], None]
    stopped: Callable[[], bool]
    told: queue.SimpleQueue[tuple[Errand, Outcome]] = field(default_factory=queue.SimpleQueue)
    under_way: set[Errand] = field(default_factory=set)
    keys: set[str] = field(default_factory=set)
    over: int = 0
    failed: int = 0
    of: int | None = None

    def answers(self, pieces: Iterable[Piece], done: Mapping[str, bytes]) -> Iterator[tuple[str, Answer]]:
        """Give the answers."""
        self.of = len(pieces) if isinstance(pieces, Sized) else None
        size = self.engine.batch(self.of)
        left, kept = iter(pieces), list[str]()
        self._tell()
        try:
            while True:
                # what is taken of an answer may bring more pieces, so the end is where none is under way either
                while len(self.under_way) < max(1, self.engine.workers) * _AHEAD and self._deal(left, size, done, kept):
                    yield from self._kept(kept, done)
                if not self.under_way:
                    return
                if self.stopped():
                    raise RunStoppedError
                for key, answer in self._next():
                    self._count(answer)
                    yield key, answer
        finally:
            self.engine.drop(tuple(self.under_way))

    def _deal(self, left: Iterator[Piece], size: int, done: Mapping[str, bytes], kept: list[str]) -> bool:
        """Send as many pieces as go together; return False where no piece is left."""
        taken = tuple(islice(left, size))
        for each in taken:
            if each.key in self.keys:
                message = f"Two pieces are called {each.key}."
                raise ValueError(message)
            self.keys.add(each.key)
        kept += [each.key for each in taken if each.key in done]
        todo = tuple(each for each in taken if each.key not in done)
        if todo:
            self._send(Errand(self.register, self.verb, program_digest(), todo))
        return bool(taken)

    def _kept(self, kept: list[str], done: Mapping[str, bytes]) -> Iterator[tuple[str, Answer]]:
        while kept:
            key = kept.pop(0)
            self._count(b"")
            yield key, done[key]

    def _send(self, errand: Errand) -> None:
        self.under_way.add(errand)
        self.engine.send(errand, lambda one, outcome: self.told.put((one, outcome)))

    def _next(self) -> Iterator[tuple[str, Answer]]:
        """Give the answers of the next errand that comes back; none where none came for a moment."""
        if not self.under_way:
            return
        try:
            errand, outcome = self.told.get(timeout=_LOOK_S)
        except queue.Empty:
            return
        self.under_way.discard(errand)
        if outcome is Trouble.LOST:
            yield from self._again(errand)
        elif outcome is Trouble.OTHER_PROGRAM:
            raise OtherProgramError
        elif outcome is Trouble.NO_ENGINE:
            raise EngineLostError
        else:
            assert isinstance(outcome, tuple)  # noqa: S101 - there is nothing else
            for piece, answer in zip(errand.pieces, outcome, strict=True):
                yield piece.key, answer

    def _again(self, errand: Errand) -> Iterator[tuple[str, Answer]]:
        """Deal pieces again with which a worker was lost, each by itself; give up one that was tried often enough."""
        tries = errand.tries + 1
        last = self.engine.tries_itself or tries >= self.attempts
        if len(errand.pieces) == 1 and last:
            yield errand.pieces[0].key, Failed(FailureKind.LOST)
            return
        for piece in errand.pieces:
            self._send(Errand(self.register, self.verb, errand.digest, (piece,), tries))

    def _count(self, answer: Answer) -> None:
        self.over += 1
        self.failed += isinstance(answer, Failed)
        self._tell()

    def _tell(self) -> None:
        self.report(Progress(self.over, self.failed, self.of, self.engine.workers))
