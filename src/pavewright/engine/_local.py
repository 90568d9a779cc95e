"""The cores of this machine: a process for each, started when it is first needed and kept warm."""

from __future__ import annotations

import contextlib
import os
import queue
import subprocess
import sys
import threading
from typing import TYPE_CHECKING

from pavewright import children
from pavewright.engine._frames import Ask, put_ask, put_common, take_answer
from pavewright.engine._types import Engine, Trouble, hold

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import IO

    from pavewright.engine._types import Errand, Outcome, Piece

    _Told = Callable[[Errand, Outcome], None]

_WORKER = (sys.executable, "-m", "pavewright.engine._worker")


def cores_here() -> int:
    """Return how many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return max(1, len(os.sched_getaffinity(0)))
    return os.cpu_count() or 1


class LocalCores(Engine):
    """Workers on this machine."""

    def __init__(self, workers: int | None = None) -> None:
        """Say how many there are.

        Args:
            workers: How many processes; None for as many as there are cores. [-]

        Raises:
            ValueError: fewer than one.
        """
        if workers is not None and workers < 1:
            message = "One worker at least."
            raise ValueError(message)
        self._count = workers or cores_here()
        self._orders: queue.SimpleQueue[tuple[Errand, _Told] | None] = queue.SimpleQueue()
        self._lanes: list[_Lane] = []
        self._adding = threading.Lock()
        self._closed = False

    @property
    def workers(self) -> int:
        """How many processes there are, or will be once there is work."""
        return self._count

    @property
    def process_ids(self) -> tuple[int, ...]:
        """The numbers of the processes that run now."""
        return tuple(pid for lane in self._lanes if (pid := lane.process_id) is not None)

    def batch(self, count: int | None) -> int:  # noqa: ARG002 - one by one, whatever the number
        """Return one: a pipe costs less than a thousandth of a plan, and the last pieces are shared evenly.

        Args:
            count: How many there are. [-]
        """
        return 1

    def send(self, errand: Errand, tell: _Told) -> None:
        """Put an errand in front of the workers.

        Args:
            errand: The errand.
            tell: Takes it with its outcome.

        Raises:
            RuntimeError: this was closed.
        """
        if self._closed:
            message = "These workers were sent home."
            raise RuntimeError(message)
        with self._adding:  # several runs may send at the same moment
            if len(self._lanes) < self._count:
                self._lanes.append(_Lane(self._orders))
        self._orders.put((errand, tell))

    def drop(self, errands: tuple[Errand, ...]) -> None:
        """Let errands go; a worker in the midst of one is ended, and another one starts when it is needed.

        Args:
            errands: The errands.
        """
        for errand in errands:
            errand.dropped = True
        for lane in self._lanes:
            lane.end_dropped()

    def close(self) -> None:
        """End every worker."""
        self._closed = True
        for _ in self._lanes:
            self._orders.put(None)
        for lane in self._lanes:
            lane.close()
        self._lanes.clear()


class _Lane:
    """A thread with a process of its own: the system ends a child with the thread that started it."""

    def __init__(self, orders: queue.SimpleQueue[tuple[Errand, _Told] | None]) -> None:
        self._orders = orders
        self._child: subprocess.Popen[bytes] | None = None
        self._held: dict[str, None] = {}
        self._errand: Errand | None = None
        self._lock = threading.Lock()
        self._closed = False
        self._thread = threading.Thread(target=self._serve, name="pavewright engine", daemon=True)
        self._thread.start()

    @property
    def process_id(self) -> int | None:
        child = self._child
        return None if child is None or child.poll() is not None else child.pid

    def end_dropped(self) -> None:
        """End the process where nobody waits for what it does."""
        with self._lock:
            if self._errand is not None and self._errand.dropped:
                self._kill()

    def close(self) -> None:
        """End the process and the thread."""
        with self._lock:
            self._closed = True
            self._kill()
        self._thread.join()

    def _serve(self) -> None:
        try:
            while (order := self._orders.get()) is not None and not self._closed:
                errand, tell = order
                with self._lock:
                    self._errand = errand
                outcome = Trouble.LOST if errand.dropped else self._do(errand)
                with self._lock:
                    self._errand = None
                tell(errand, outcome)
        finally:
            self._forget()

    def _do(self, errand: Errand) -> Outcome:
        found = []
        for piece in errand.pieces:
            if errand.dropped:
                return Trouble.LOST
            child = self._ready()
            assert child.stdin is not None  # noqa: S101 - both are pipes
            assert child.stdout is not None  # noqa: S101
            try:
                common = self._hand_over(piece, child.stdin)
                put_ask(child.stdin, Ask(errand.register, errand.verb, errand.digest, common, piece.payload))
                answer = take_answer(child.stdout)
            except OSError:
                answer = Trouble.LOST
            if isinstance(answer, Trouble):
                self._forget()
                return answer
            found.append(answer)
        return tuple(found)

    def _hand_over(self, piece: Piece, sink: IO[bytes]) -> str | None:
        """Return the digest of what a piece has in common with others, and send it where the process has it not yet."""
        common = piece.common
        if common is None:
            return None
        if common.digest not in self._held:
            put_common(sink, common)
            hold(self._held, common.digest, None)
        return common.digest

    def _ready(self) -> subprocess.Popen[bytes]:
        """Return the process, a new one where there is none."""
        with self._lock:
            if self._child is not None and self._child.poll() is None:
                return self._child
        self._forget()
        surroundings = children.surroundings() | {"PYTHONPATH": os.pathsep.join(each for each in sys.path if each)}
        child = subprocess.Popen(  # noqa: S603 - our own interpreter and module
            _WORKER, stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=surroundings, start_new_session=True
        )
        with self._lock:
            self._child = child
            if self._closed:
                self._kill()
        return child

    def _kill(self) -> None:
        if self._child is not None:
            children.end_group(self._child.pid)

    def _forget(self) -> None:
        with self._lock:
            child, self._child = self._child, None
            self._held = {}
        if child is None:
            return
        children.end_group(child.pid)
        child.wait()
        for stream in (child.stdin, child.stdout):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()
