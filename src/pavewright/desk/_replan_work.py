"""The pieces of a re-planning, and what comes of them."""

from __future__ import annotations

import json
from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol, Self

from pavewright import rulebook
from pavewright.desk._replan_compared import Sides, Standing, compared
from pavewright.desk._replan_keys import PlanKeys, taken
from pavewright.desk._replan_question import Of, books_of
from pavewright.desk._replan_side import asked_side, parsed, told_as_json
from pavewright.engine import Common, Failed, Piece
from pavewright.job import Fault, JobInvalid
from pavewright.order_book import facts_of, state_of
from pavewright.store import RunResult

if TYPE_CHECKING:
    from pavewright.desk._replan_question import ReplanCounts, ReplanQuestion
    from pavewright.store import Run, Store

_FLUSH = 20
"""Answers that are kept together. [-]"""


class Replanning(Protocol):
    """What a run of a question needs of it."""

    store: Store
    question: ReplanQuestion
    counts: ReplanCounts
    short: bool


@dataclass(eq=False)
class _Pending:
    """A job of which a side is still to come."""

    head: dict[str, Any]
    sides: Sides
    keys: tuple[PlanKeys, PlanKeys]
    payloads: tuple[bytes, bytes]
    old: bytes | None = None


class Work:
    """The pieces of a run, and what comes of them: of each job the old side first, and the new one where it differs."""

    def __init__(self, replan: Replanning, run: Run) -> None:
        """Take what is asked, and the run that keeps the answers."""
        self._replan, self._run = replan, run
        self._runs = replan.store.runs
        self._books = books_of(replan.store, replan.question)
        self._commons = (_common(self._books.old), _common(self._books.new))
        self._pending: dict[str, _Pending] = {}
        self._next: deque[Piece] = deque()
        self._rows: list[RunResult] = []
        self._plans: dict[str, bytes] = {}
        over = {each.key for each in self._runs.results(run.id)}
        self._left = (job_id for job_id, _ in self._runs.jobs_now() if job_id not in over)

    def __iter__(self) -> Self:
        """Return itself: it is asked again where it had no piece."""
        return self

    def __next__(self) -> Piece:
        """Return the next side that is to be planned; more may come once an answer was taken."""
        while not self._next:
            self._begin(next(self._left))
        return self._next.popleft()

    def take(self, key: str, answer: bytes | Failed) -> None:
        """Take the answer of a side."""
        job_id, _, side = key.rpartition(".")
        pending = self._pending[job_id]
        if isinstance(answer, Failed):
            told = {"kind": answer.kind.value, "error": answer.error, "message": answer.message}
            self._over(job_id, {"standing": Standing.FAILED.value, "faults": [], "take": None, **told}, failed=True)
            return
        self._replan.counts.planned += 1
        self._remember(pending.keys[int(side)], answer)
        self._go_on(job_id, answer)

    def flush(self) -> None:
        """Bring what is in hand into the store."""
        self._runs.keep_plans(self._plans)
        self._runs.keep(self._run.id, self._rows)
        self._plans, self._rows = {}, []

    def _begin(self, job_id: str) -> None:
        kept = self._replan.store.job(job_id)
        head = {"job_id": job_id, "rev": kept.rev, "title": "", "state": "", "currency": ""}
        try:
            pending = self._asked(kept.document, head)
        except (JobInvalid, rulebook.RulebookError) as refusal:
            faults = refusal.faults if isinstance(refusal, JobInvalid) else (Fault("identity.locality", str(refusal)),)
            told = [{"path": each.path, "message": each.message} for each in faults]
            self._keep(job_id, {**head, "standing": Standing.NO_PLAN.value, "faults": told, "take": None})
            return
        if pending is None:
            self._keep(job_id, {**head, "standing": Standing.LEFT_OUT.value})
            return
        self._pending[job_id] = pending
        self._side(job_id, 0)

    def _asked(self, document: str, head: dict[str, Any]) -> _Pending | None:
        """Return what is asked of a job; None where it is in no state that is wanted."""
        question, books, job = self._replan.question, self._books, parsed(document)
        state = state_of(facts_of(job))[0]
        head |= {"title": job.identity.title, "state": state.value, "currency": job.identity.currency}
        if state not in question.states:
            return None
        here = rulebook.edition_of(job.identity.locality, job.identity.edition)
        there = rulebook.newest(job.identity.locality) if question.of in {Of.EDITION, Of.ALL} else here
        against = here if there != here else None
        stays = question.of is Of.EDITION
        old = taken(document, books.old, here, quoted=True)
        new = taken(document, books.new, there, quoted=stays)
        keys = (
            PlanKeys(old, here, None, booked=books.old is not None),
            PlanKeys(new, there, against, booked=books.new is not None),
        )
        payloads = (
            asked_side(document, here, None, quoted=True),
            asked_side(document, there, against, quoted=stays),
        )
        newer = rulebook.load(there).dated.isoformat() if against else None
        sides = Sides(old, new, job.quoted is not None, job.accepted is not None, newer)
        return _Pending(head, sides, keys, payloads)

    def _side(self, job_id: str, side: int) -> None:
        """Ask for a side, unless it is known."""
        pending = self._pending[job_id]
        known = self._known(pending.keys[side]) if self._replan.short else None
        if known is None:
            self._next.append(Piece(f"{job_id}.{side}", pending.payloads[side], self._commons[side]))
            return
        self._replan.counts.kept += 1
        self._go_on(job_id, known)

    def _go_on(self, job_id: str, answer: bytes) -> None:
        """Go on with the answer of a side: to the other one, or to the end of the job."""
        pending = self._pending[job_id]
        if pending.old is not None:
            self._settle(job_id, pending.old, answer)
        elif self._replan.short and _same(pending.keys, answer):
            self._replan.counts.twins += 1
            self._settle(job_id, answer, answer)
        else:
            pending.old = answer
            self._side(job_id, 1)

    def _known(self, keys: PlanKeys) -> bytes | None:
        """Return what the plan answered before, where all that it depends on is the same."""
        bought = self._runs.kept_plans({keys.without_prices}).get(keys.without_prices)
        if bought is None:
            return None
        digest = keys.with_prices(json.loads(bought))
        return self._runs.kept_plans({digest}).get(digest)

    def _remember(self, keys: PlanKeys, answer: bytes) -> None:
        bought = json.loads(answer).get("bought")
        if bought is not None and self._replan.short:
            self._plans[keys.without_prices] = json.dumps(bought).encode()
            self._plans[keys.with_prices(bought)] = answer

    def _settle(self, job_id: str, old: bytes, new: bytes) -> None:
        self._over(job_id, compared(json.loads(old), json.loads(new), self._pending[job_id].sides))

    def _over(self, job_id: str, found: dict[str, Any], *, failed: bool = False) -> None:
        self._keep(job_id, {**self._pending.pop(job_id).head, **found}, failed=failed)

    def _keep(self, job_id: str, row: dict[str, Any], *, failed: bool = False) -> None:
        self._rows.append(RunResult(job_id, failed, told_as_json(row)))
        if len(self._rows) >= _FLUSH:
            self.flush()


def _common(book: str | None) -> Common | None:
    """Return a book as it is sent: once to each worker, whatever the number of jobs."""
    return None if book is None else Common.of(book.encode())


def _same(keys: tuple[PlanKeys, PlanKeys], answer: bytes) -> bool:
    """Return whether the new side depends on the same as the old one, whose answer it then has."""
    bought = json.loads(answer).get("bought")
    return bought is not None and keys[0].with_prices(bought) == keys[1].with_prices(bought)
