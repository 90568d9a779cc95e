"""The machines of a cluster: a scheduler that deals pieces to workers, by Dask."""

from __future__ import annotations

import math
import threading
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.engine._types import Engine, EngineLostError, EngineMissingError, Trouble, hold
from pavewright.engine._work import do_errand, same_content

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pavewright.engine._types import Common, Errand, Outcome

_MISSING = "A cluster needs the extra of that name: install pavewright[cluster] on every machine of it."
_BATCH_MAX = 32
"""Most pieces that go together: the scheduler takes about 1.5 ms for each errand, whatever it holds. [-]"""
_SHARES = 4
"""A short run is cut into so many errands for each worker, so that all of them finish together. [-]"""
_REACH_S = 10.0
"""How long the scheduler is waited for. [s]"""
_LOOK_S = 1.0
"""For how long a count of workers holds. [s]"""


@dataclass(frozen=True, slots=True)
class ClusterFiles:
    """By what a cluster and whoever asks it know each other: files in PEM, the same authority for all.

    Attributes:
        authority: Certificate of the authority that signed all of them.
        certificate: Certificate of this machine.
        key: Its key.
    """

    authority: Path
    certificate: Path
    key: Path


class Cluster(Engine):
    """The workers of a scheduler."""

    tries_itself = True

    def __init__(self, address: str, security: ClusterFiles | None = None, seconds: float = _REACH_S) -> None:
        """Reach a scheduler.

        A scheduler runs whatever it is sent: without files of certificates it belongs on this machine or on a network
        of its own.

        Args:
            address: Where the scheduler listens, as ``tcp://HOST:PORT`` or ``tls://HOST:PORT``.
            security: Files by which both know each other; None where nothing is encrypted.
            seconds: How long it is waited for. [s]

        Raises:
            EngineMissingError: the extra is not installed.
            EngineLostError: the scheduler cannot be reached.
        """
        self._address = address
        self._client = _client(address, security, seconds)
        self._futures: dict[Errand, Any] = {}
        self._commons: dict[str, Any] = {}
        self._lock = threading.Lock()
        self._closed = False
        self._workers, self._looked_s = 0, -math.inf

    @property
    def workers(self) -> int:
        """How many pieces can be done at the same time now; zero where no worker is there."""
        now = time.monotonic()
        if now - self._looked_s > _LOOK_S:
            self._looked_s = now
            try:
                self._workers = sum(self._client.nthreads().values())
            except Exception:  # noqa: BLE001 - whatever the client says while the scheduler is away
                self._workers = 0
        return self._workers

    def batch(self, count: int | None) -> int:
        """Return how many pieces go together: fewer where there are few.

        Args:
            count: How many there are; None where nobody knows. [-]
        """
        if count is None:
            return _BATCH_MAX
        return max(1, min(_BATCH_MAX, count // (_SHARES * max(1, self.workers))))

    def send(self, errand: Errand, tell: Callable[[Errand, Outcome], None]) -> None:
        """Send an errand to the scheduler.

        Args:
            errand: The errand.
            tell: Takes it with its outcome.

        Raises:
            EngineLostError: the scheduler cannot be reached.
        """
        commons = list(dict.fromkeys(each.common for each in errand.pieces if each.common is not None))
        pieces = [(each.payload, None if each.common is None else commons.index(each.common)) for each in errand.pieces]
        try:
            held = [self._held_by_all(each) for each in commons]
            future = self._client.submit(
                do_errand, errand.register, errand.verb, errand.digest, pieces, held, pure=False, retries=0
            )
        except Exception as problem:
            raise EngineLostError(self._address) from problem
        with self._lock:
            self._futures[errand] = future
        future.add_done_callback(lambda one: self._over(errand, one, tell))

    def drop(self, errands: tuple[Errand, ...]) -> None:
        """Let errands go; what a worker has in its hands it finishes, and nobody takes it.

        Args:
            errands: The errands.
        """
        with self._lock:
            gone = [future for each in errands if (future := self._futures.pop(each, None)) is not None]
        for each in errands:
            each.dropped = True
        if gone and not self._closed:
            self._client.cancel(gone)

    def close(self) -> None:
        """Leave the scheduler; its workers go on for others."""
        self._closed = True
        self._client.close()

    def _held_by_all(self, common: Common) -> Any:  # noqa: ANN401 - of a library that may be missing
        """Return a common part as a task of its own: the scheduler has it once, and each worker takes it once.

        Not scattered: what was scattered is lost with its worker, while an answer is made again.
        """
        with self._lock:
            found = self._commons.get(common.digest)
        if found is None:
            found = self._client.submit(same_content, common.content, key=f"pavewright-{common.digest}")
            with self._lock:
                hold(self._commons, common.digest, found)
        return found

    def _over(self, errand: Errand, future: Any, tell: Callable[[Errand, Outcome], None]) -> None:  # noqa: ANN401 - of a library that may be missing
        with self._lock:
            self._futures.pop(errand, None)
        if errand.dropped:
            return
        outcome = _outcome(future)
        if isinstance(outcome, Trouble):
            with self._lock:
                self._commons.clear()  # a common part may have gone the same way
        tell(errand, outcome)


def _outcome(future: Any) -> Outcome:  # noqa: ANN401 - of a library that may be missing
    """Return what came of an errand: its answers, or why there are none."""
    from distributed import KilledWorker  # noqa: PLC0415 - an extra

    if future.status == "finished":
        found: Outcome = future.result()
        return found
    error = future.exception() if future.status == "error" else None
    if isinstance(error, KilledWorker):
        return Trouble.LOST
    # whatever else comes back, a worker could not run this program: a fault of a piece is an answer
    return Trouble.NO_ENGINE if error is None else Trouble.OTHER_PROGRAM


def _client(address: str, security: ClusterFiles | None, seconds: float) -> Any:  # noqa: ANN401 - an extra
    try:
        from distributed import Client  # noqa: PLC0415 - an extra
        from distributed.security import Security  # noqa: PLC0415
    except ImportError as problem:
        raise EngineMissingError(_MISSING) from problem
    files = {}
    if security is not None:
        files = {
            "tls_ca_file": str(security.authority),
            "tls_client_cert": str(security.certificate),
            "tls_client_key": str(security.key),
            "require_encryption": True,
        }
    client: Any = Client
    secured: Any = Security
    try:
        return client(address, security=secured(**files), set_as_default=False, timeout=seconds)
    except (OSError, ValueError, RuntimeError) as problem:
        raise EngineLostError(address) from problem
