"""What the calendar needs of every job, kept while the server runs: a job is planned once for each of its revisions."""

from __future__ import annotations

import asyncio
import contextlib
import json
from typing import TYPE_CHECKING, Any

from pavewright.store import StoreTroubleError, UnknownJob
from pavewright.web._people import Asker
from pavewright.web._workers import LeftError, Refusal, WorkFailedError, WorkStoppedError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.store import Store
    from pavewright.web._workers import Workers

_NEEDS_S = 60.0
_UNKNOWN = {"title": "", "known": False, "missing": ["This job takes too long to work out."]}


class NeedsAtHand:
    """What the calendar needs of each job, by the revision of the job and of the book, and the day."""

    def __init__(self, workers: Workers) -> None:
        """Keep the workers that plan."""
        self._workers = workers
        self._kept: dict[tuple[int, str], tuple[tuple[Any, ...], dict[str, Any]]] = {}
        self._filling: dict[int, asyncio.Task[None]] = {}

    async def of(self, store: Store, today: dt.date, only: Iterable[str] | None = None) -> tuple[dict[str, Any], int]:
        """Return what is at hand, by job, and how many jobs are still to be planned; those are planned beside.

        Args:
            store: Where the jobs are.
            today: The day.
            only: The jobs that are wanted; all that are not in the archive where nothing is given.
        """
        rows = await asyncio.to_thread(store.jobs)
        book = await asyncio.to_thread(store.firm.mark)
        wanted = None if only is None else set(only)
        found: dict[str, Any] = {}
        missing: list[tuple[str, tuple[Any, ...]]] = []
        for row in rows:
            if wanted is not None and row.id not in wanted:
                continue
            mark = (row.rev, book, today)
            known = self._kept.get((id(store), row.id))
            if known is not None and known[0] == mark:
                found[row.id] = known[1]
            else:
                missing.append((row.id, mark))
        if missing and id(store) not in self._filling:
            task = asyncio.create_task(self._fill(store, today, missing))
            self._filling[id(store)] = task
            task.add_done_callback(lambda _: self._filling.pop(id(store), None))
        return found, len(missing)

    async def whole(self, store: Store, today: dt.date, only: Iterable[str]) -> dict[str, Any]:
        """Return what some jobs need, when all of them have been planned."""
        wanted = tuple(only)
        while True:
            found, missing = await self.of(store, today, wanted)
            task = self._filling.get(id(store))
            if not missing or task is None:
                return found
            await asyncio.shield(task)

    async def _fill(self, store: Store, today: dt.date, missing: list[tuple[str, tuple[Any, ...]]]) -> None:
        """Plan one job after the other: of a thousand jobs one document is in memory."""
        for job_id, mark in missing:
            with contextlib.suppress(StoreTroubleError, UnknownJob, LeftError):
                kept = await asyncio.to_thread(store.job, job_id)
                if kept.rev != mark[0]:
                    continue
                payload = today.isoformat().encode() + b"\n" + kept.document.encode()
                try:
                    # the request that began this may be answered already: nobody's connection is waited for
                    told = await self._workers.ask("plan", "calendar_needs", payload, seconds=_NEEDS_S, asker=Asker())
                    self._kept[id(store), job_id] = mark, json.loads(told)
                except (Refusal, WorkStoppedError, WorkFailedError):
                    self._kept[id(store), job_id] = mark, _UNKNOWN
