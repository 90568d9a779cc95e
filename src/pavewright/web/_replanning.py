"""Re-planning of all open jobs while the server runs: one run of each firm at a time, stopped with the server.

The runs of all firms share one engine, whose workers are started once. Each run has a few pieces in front of it, as
many as another one, and the engine takes them in the order in which they came: so a firm with ten jobs waits for two
plans of each other firm and not for the end of one with a thousand.
"""

from __future__ import annotations

import logging
import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright.desk import Replan, ReplanQuestion
from pavewright.engine import EngineLostError, LocalCores, OtherProgramError, RunStoppedError, cores_here
from pavewright.store import StoreTroubleError, acting_as

if TYPE_CHECKING:
    from pavewright.desk import Of
    from pavewright.engine import Engine
    from pavewright.store import Run, Store, Who

LOG = logging.getLogger("pavewright.web")


@dataclass(eq=False)
class _Going:
    """A run under way.

    Attributes:
        run: The run.
        stop: Set where it is to stop.
        thread: What does it.
    """

    run: Run
    stop: threading.Event = field(default_factory=threading.Event)
    thread: threading.Thread | None = None

    @property
    def is_alive(self) -> bool:
        return self.thread is not None and self.thread.is_alive()


class Replanning:
    """What is under way now, by firm."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._lock = threading.Lock()
        self._going: dict[Store, _Going] = {}
        self._engine: LocalCores | None = None
        self._using = 0

    def is_going(self, run_id: str) -> bool:
        """Return whether a run is under way.

        Args:
            run_id: Name of the run.
        """
        return any(each.run.id == run_id and each.is_alive for each in tuple(self._going.values()))

    def begin(self, store: Store, of: Of, who: Who | None) -> Run | None:
        """Begin, or go on where it was left; return None where one of the same firm is under way.

        Args:
            store: The jobs of the firm.
            of: What changed.
            who: Who asks.
        """
        with self._lock:
            before = self._going.get(store)
            if before is not None and before.is_alive:
                return None
            replan = Replan(store, ReplanQuestion(of), "" if who is None else who.name)
            going = _Going(replan.begin())
            going.thread = threading.Thread(target=self._do, args=(replan, going, who), name="replan", daemon=True)
            self._going[store] = going
            going.thread.start()
        return going.run

    def stop(self, run_id: str | None = None) -> None:
        """Stop a run, or all of them where none is named, and wait until their answers are kept.

        Args:
            run_id: Name of the run.
        """
        stopped = [each for each in tuple(self._going.values()) if run_id in {None, each.run.id}]
        for each in stopped:
            each.stop.set()
        for each in stopped:
            if each.thread is not None:
                each.thread.join()

    def _do(self, replan: Replan, going: _Going, who: Who | None) -> None:
        try:
            with acting_as(who):
                replan.do(going.run, self._take_engine(), stopped=going.stop.is_set)
        except RunStoppedError:
            pass
        except (EngineLostError, OtherProgramError, StoreTroubleError) as problem:
            LOG.error("a re-planning ended early: %r", problem)  # noqa: TRY400 - what was answered is kept
        finally:
            self._leave_engine()

    def _take_engine(self) -> Engine:
        """Return the engine that all runs share."""
        with self._lock:
            self._using += 1
            if self._engine is None:
                # a core is left to the people who work meanwhile
                self._engine = LocalCores(max(1, cores_here() - 1))
            return self._engine

    def _leave_engine(self) -> None:
        """End the workers once no run needs them."""
        with self._lock:
            self._using -= 1
            engine = self._engine if self._using == 0 else None
            if engine is not None:
                self._engine = None
        if engine is not None:
            engine.close()
