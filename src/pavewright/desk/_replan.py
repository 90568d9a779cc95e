"""Every open job planned again after a change of prices, outputs or the edition of the rulebook; none is changed."""

from __future__ import annotations

import hashlib
import heapq
import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.desk._replan_compared import Standing, weight
from pavewright.desk._replan_question import ReplanCounts, books_of
from pavewright.desk._replan_work import Work
from pavewright.engine import run_pieces
from pavewright.store import RunState

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.desk._replan_question import ReplanQuestion
    from pavewright.engine import Engine, Progress
    from pavewright.store import Run, Store

VERB = "planned_side"


@dataclass(eq=False)
class Replan:
    """A question put to every open job of a store: answers are kept as they come, and nothing of a job is changed.

    Attributes:
        store: The jobs.
        question: What is asked.
        made_by: Who asks; empty where nobody signed in.
        counts: What was done so far.
        short: Whether plans that are known are not made again.
    """

    store: Store
    question: ReplanQuestion
    made_by: str = ""
    short: bool = True
    counts: ReplanCounts = field(default_factory=ReplanCounts)

    def begin(self) -> Run:
        """Return the run of this question, the one that was left where nothing changed since."""
        found = hashlib.sha256()
        self.counts.jobs = 0
        for job_id, rev in self.store.runs.jobs_now():
            found.update(f"{job_id} {rev}\n".encode())
            self.counts.jobs += 1
        books = books_of(self.store, self.question)
        found.update(repr(books).encode())
        asked = {"of": self.question.of, "since": self.question.since, "states": sorted(self.question.states)}
        told = json.dumps(asked, sort_keys=True)
        return self.store.runs.begin("replan", told, found.hexdigest(), self.counts.jobs, self.made_by)

    def do(
        self,
        run: Run,
        engine: Engine,
        report: Callable[[Progress], None] | None = None,
        stopped: Callable[[], bool] | None = None,
    ) -> None:
        """Plan what is not answered yet, and keep each answer once.

        Args:
            run: The run, as begun.
            engine: What plans.
            report: Told how far it is.
            stopped: Asked again and again whether to stop.

        Raises:
            RunStoppedError: it was stopped; what was answered is kept.
            EngineLostError: the cluster went away; what was answered is kept.
            OtherProgramError: a worker runs another version of the program.
        """
        self.store.runs.forget_failed(run.id)
        work = Work(self, run)
        state = RunState.STOPPED
        try:
            for key, answer in run_pieces(VERB, work, engine=engine, report=report, stopped=stopped):
                work.take(key, answer)
            state = RunState.FINISHED
        finally:
            work.flush()
            self.store.runs.thin_plans()
            self.store.runs.end(run.id, state)


def replan_rows(store: Store, run_id: str) -> list[dict[str, Any]]:
    """Return what a run found, job by job, what matters most first.

    Args:
        store: Where it is kept.
        run_id: The run.
    """
    return sorted(_rows(store, run_id), key=weight)


def replan_page(store: Store, run_id: str, first: int, most: int) -> tuple[list[dict[str, Any]], int]:
    """Return a part of what a run found, what matters most first, and of how many jobs it is.

    No more is in hand at a time than what stands before the end of the part.

    Args:
        store: Where it is kept.
        run_id: The run.
        first: How many stand before it. [-]
        most: How many it holds at most. [-]
    """
    count = 0

    def counted() -> Iterator[dict[str, Any]]:
        nonlocal count
        for row in _rows(store, run_id):
            count += 1
            yield row

    shown = heapq.nsmallest(first + most, counted(), key=weight)
    return shown[first:], count


def _rows(store: Store, run_id: str) -> Iterator[dict[str, Any]]:
    rows = (json.loads(each.answer) for each in store.runs.results(run_id))
    return (each for each in rows if each["standing"] != Standing.LEFT_OUT)
