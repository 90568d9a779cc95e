"""Re-planning of all open jobs while the server runs: one at a time, beside all else, stopped with the server."""

from __future__ import annotations

import logging
import threading
from typing import TYPE_CHECKING

from pavewright.desk import Replan, ReplanQuestion
from pavewright.engine import EngineLostError, LocalCores, OtherProgramError, RunStoppedError, cores_here
from pavewright.store import StoreTroubleError, acting_as

if TYPE_CHECKING:
    from pavewright.desk import Of
    from pavewright.store import Run, Store, Who

LOG = logging.getLogger("pavewright.web")


class Replanning:
    """What is under way now, if anything."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._lock = threading.Lock()
        self._stop = threading.Event()
        self._thread: threading.Thread | None = None
        self._run_id = ""

    def is_going(self, run_id: str | None = None) -> bool:
        """Return whether anything is under way; with a name: whether that is.

        Args:
            run_id: Name of a run.
        """
        thread = self._thread
        return thread is not None and thread.is_alive() and run_id in {None, self._run_id}

    def begin(self, store: Store, of: Of, who: Who | None) -> Run | None:
        """Begin, or go on where it was left; return None where another one is under way.

        Args:
            store: The jobs.
            of: What changed.
            who: Who asks.
        """
        with self._lock:
            if self.is_going():
                return None
            replan = Replan(store, ReplanQuestion(of), "" if who is None else who.name)
            run = replan.begin()
            self._stop.clear()
            self._run_id = run.id
            self._thread = threading.Thread(target=self._do, args=(replan, run, who), name="replan", daemon=True)
            self._thread.start()
        return run

    def stop(self) -> None:
        """Stop what is under way, and wait until its answers are kept."""
        self._stop.set()
        thread = self._thread
        if thread is not None:
            thread.join()

    def _do(self, replan: Replan, run: Run, who: Who | None) -> None:
        try:
            # a core is left to the people who work meanwhile
            with acting_as(who), LocalCores(max(1, cores_here() - 1)) as engine:
                replan.do(run, engine, stopped=self._stop.is_set)
        except RunStoppedError:
            pass
        except (EngineLostError, OtherProgramError, StoreTroubleError) as problem:
            LOG.error("a re-planning ended early: %r", problem)  # noqa: TRY400 - what was answered is kept
