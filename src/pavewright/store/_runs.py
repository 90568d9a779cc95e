"""Long runs over many jobs: what was asked, each answer once, so that a run is taken up where it was left."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from pavewright.store._clock import now
from pavewright.store._run_tables import KEPT_PLANS, RUN_RESULTS, RUNS
from pavewright.store._tables import JOBS
from pavewright.store.hooks._outbox import post
from pavewright.store.hooks._types import Event

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Sequence
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]

_KEPT_RUNS = 30
"""The last runs, which are kept with their answers. [-]"""
_KEPT_PLANS = 50_000
"""Plans that are kept, those asked for last. [-]"""
_PAGE = 200
"""Answers that are read at a time. [-]"""
_ASKED_MAX = 500
"""Keys that go into one question to the database. [-]"""


class RunState(StrEnum):
    """How a run stands."""

    GOING = "going"
    STOPPED = "stopped"
    FINISHED = "finished"


@dataclass(frozen=True, slots=True)
class Run:
    """A run.

    Attributes:
        id: Its name in the store.
        verb: What each piece was asked.
        question: What was asked of all, as JSON.
        digest: Digest of its pieces.
        pieces: How many there are.
        made: When it was begun, UTC.
        made_by: Who began it; empty where nobody signed in.
        state: How it stands.
        ended: When it was finished or stopped, UTC; None while it goes on.
        done: How many pieces are answered, those that failed among them.
        failed: How many failed.
    """

    id: str
    verb: str
    question: str
    digest: str
    pieces: int
    made: str
    made_by: str
    state: RunState
    ended: str | None
    done: int
    failed: int


@dataclass(frozen=True, slots=True)
class RunResult:
    """The answer to a piece.

    Attributes:
        key: Its key.
        failed: Whether it failed.
        answer: What the verb answered; the failure, as JSON, where it failed.
    """

    key: str
    failed: bool
    answer: bytes


class UnknownRunError(LookupError):
    """No run of that name."""


class RunStore:
    """The runs of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def begin(self, verb: str, question: str, digest: str, pieces: int, made_by: str = "") -> Run:
        """Return the run of a question: the one that was left where there is one of the same pieces, else a new one.

        Args:
            verb: What each piece is asked.
            question: What is asked of all, as JSON.
            digest: Digest of the pieces.
            pieces: How many there are. [-]
            made_by: Who begins it.
        """
        same = (RUNS.c.verb == verb, RUNS.c.question == question, RUNS.c.digest == digest)
        with self._writing() as connection:
            query = sa.select(RUNS.c.id).where(*same, RUNS.c.state != RunState.FINISHED).order_by(RUNS.c.made.desc())
            run_id = connection.execute(query.limit(1)).scalar_one_or_none()
            if run_id is None:
                run_id = secrets.token_hex(8)
                row = {"id": run_id, "verb": verb, "question": question, "digest": digest, "pieces": pieces}
                row |= {"made": now(), "made_by": made_by, "state": RunState.GOING.value, "ended": None}
                connection.execute(RUNS.insert().values(row))
                _thin(connection, run_id)
            else:
                again = {"state": RunState.GOING.value, "ended": None}
                connection.execute(RUNS.update().where(RUNS.c.id == run_id).values(again))
        return self.run(run_id)

    def jobs_now(self) -> Iterator[tuple[str, int]]:
        """Give name and revision of every job but those deleted or in the archive, in the order of their names."""
        after, query = "", sa.select(JOBS.c.id, JOBS.c.rev).order_by(JOBS.c.id).limit(_ASKED_MAX)
        query = query.where(JOBS.c.deleted.is_(None), JOBS.c.archived.is_(False))
        while True:
            with self._reading() as connection:
                rows = connection.execute(query.where(JOBS.c.id > after)).all()
            if not rows:
                return
            yield from ((row.id, row.rev) for row in rows)
            after = rows[-1].id

    def run(self, run_id: str) -> Run:
        """Return a run.

        Raises:
            UnknownRunError: none of that name.
        """
        with self._reading() as connection:
            row = connection.execute(_counted().where(RUNS.c.id == run_id)).one_or_none()
        if row is None:
            raise UnknownRunError(run_id)
        return _run(row)

    def runs(self, limit: int = _KEPT_RUNS) -> tuple[Run, ...]:
        """Return the runs, the last one first."""
        with self._reading() as connection:
            rows = connection.execute(_counted().order_by(RUNS.c.made.desc(), RUNS.c.id).limit(limit)).all()
        return tuple(_run(row) for row in rows)

    def keep(self, run_id: str, results: Sequence[RunResult]) -> None:
        """Keep answers, each once: one that is there stays as it is.

        Raises:
            UnknownRunError: the run was deleted meanwhile.
        """
        rows = [{"run_id": run_id, "key": one.key, "failed": one.failed, "answer": one.answer} for one in results]
        if not rows:
            return
        with self._writing() as connection:
            if connection.execute(sa.select(RUNS.c.id).where(RUNS.c.id == run_id)).one_or_none() is None:
                raise UnknownRunError(run_id)
            connection.execute(_once(connection, RUN_RESULTS), rows)

    def end(self, run_id: str, state: RunState) -> None:
        """Note that a run was finished or stopped."""
        with self._writing() as connection:
            ended = {"state": state.value, "ended": now()}
            connection.execute(RUNS.update().where(RUNS.c.id == run_id).values(ended))
            post(connection, Event.RUN_FINISHED, {"run": run_id, "state": state.value})

    def remove(self, run_id: str) -> None:
        """Delete a run and its answers."""
        with self._writing() as connection:
            _remove(connection, [run_id])

    def results(self, run_id: str) -> Iterator[RunResult]:
        """Give the answers of a run in the order of their keys, a page of them in hand at a time."""
        after, query = "", sa.select(RUN_RESULTS.c.key, RUN_RESULTS.c.failed, RUN_RESULTS.c.answer)
        query = query.where(RUN_RESULTS.c.run_id == run_id).order_by(RUN_RESULTS.c.key).limit(_PAGE)
        while True:
            with self._reading() as connection:
                rows = connection.execute(query.where(RUN_RESULTS.c.key > after)).all()
            if not rows:
                return
            yield from (RunResult(row.key, row.failed, row.answer) for row in rows)
            after = rows[-1].key

    def done(self, run_id: str) -> Mapping[str, bytes]:
        """Return the answers of a run by their keys, each read when it is asked for; those that failed are left out."""
        query = sa.select(RUN_RESULTS.c.key).where(RUN_RESULTS.c.run_id == run_id, RUN_RESULTS.c.failed.is_(False))
        with self._reading() as connection:
            keys = dict.fromkeys(connection.execute(query).scalars())
        return _Done(self._reading, run_id, keys)

    def forget_failed(self, run_id: str) -> None:
        """Delete the failures of a run, so that their pieces are tried again."""
        with self._writing() as connection:
            failed = (RUN_RESULTS.c.run_id == run_id, RUN_RESULTS.c.failed.is_(True))
            connection.execute(RUN_RESULTS.delete().where(*failed))

    def kept_plans(self, digests: Collection[str]) -> dict[str, bytes]:
        """Return what plans answered, by the digests of all that they depend on; those that are not there are left out.

        Args:
            digests: The digests.
        """
        found: dict[str, bytes] = {}
        wanted = sorted(set(digests))
        with self._reading() as connection:
            for start in range(0, len(wanted), _ASKED_MAX):
                asked = KEPT_PLANS.c.digest.in_(wanted[start : start + _ASKED_MAX])
                rows = connection.execute(sa.select(KEPT_PLANS.c.digest, KEPT_PLANS.c.answer).where(asked))
                found |= {row.digest: row.answer for row in rows}
        return found

    def keep_plans(self, answers: Mapping[str, bytes]) -> None:
        """Keep what plans answered, by the digests of all that they depend on."""
        if not answers:
            return
        at = now()
        with self._writing() as connection:
            rows = [{"digest": digest, "used": at, "answer": answer} for digest, answer in answers.items()]
            connection.execute(_once(connection, KEPT_PLANS), rows)

    def thin_plans(self, most: int = _KEPT_PLANS) -> None:
        """Delete kept plans beyond a number, the oldest first.

        Args:
            most: How many may stay. [-]
        """
        with self._writing() as connection:
            query = sa.select(KEPT_PLANS.c.used).order_by(KEPT_PLANS.c.used.desc()).offset(most).limit(1)
            last = connection.execute(query).scalar_one_or_none()
            if last is not None:
                connection.execute(KEPT_PLANS.delete().where(KEPT_PLANS.c.used <= last))


class _Done(Mapping[str, bytes]):
    """The answers of a run, read one by one."""

    def __init__(self, reading: _Opens, run_id: str, keys: dict[str, None]) -> None:
        self._reading, self._run_id, self._keys = reading, run_id, keys

    def __getitem__(self, key: str) -> bytes:
        if key not in self._keys:
            raise KeyError(key)
        this = (RUN_RESULTS.c.run_id == self._run_id, RUN_RESULTS.c.key == key)
        with self._reading() as connection:
            answer: bytes = connection.execute(sa.select(RUN_RESULTS.c.answer).where(*this)).scalar_one()
        return answer

    def __iter__(self) -> Iterator[str]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)


def _counted() -> sa.Select[Any]:
    of = RUN_RESULTS.c.run_id == RUNS.c.id
    done = sa.select(sa.func.count()).select_from(RUN_RESULTS).where(of).scalar_subquery()
    failed = (
        sa.select(sa.func.count()).select_from(RUN_RESULTS).where(of, RUN_RESULTS.c.failed.is_(True)).scalar_subquery()
    )
    return sa.select(*RUNS.c, done.label("done"), failed.label("failed"))


def _run(row: Any) -> Run:  # noqa: ANN401 - a row with all columns of the table and two counts
    told = {name: getattr(row, name) for name in Run.__dataclass_fields__}
    return Run(**told | {"state": RunState(row.state)})


def _once(connection: Connection, table: sa.Table) -> Any:  # noqa: ANN401 - each database has an insert of its own
    """Return an insert that leaves a row as it is where there is one of the same name."""
    insert = postgresql.insert if connection.dialect.name == "postgresql" else sqlite.insert
    return insert(table).on_conflict_do_nothing()


def _thin(connection: Connection, newest: str) -> None:
    """Delete all runs but the last ones; the newest stays, also where the clock was put back before it began."""
    others = sa.select(RUNS.c.id).where(RUNS.c.id != newest)
    query = others.order_by(RUNS.c.made.desc(), RUNS.c.id).offset(_KEPT_RUNS - 1)
    _remove(connection, list(connection.execute(query).scalars()))


def _remove(connection: Connection, run_ids: Sequence[str]) -> None:
    for run_id in run_ids:
        connection.execute(RUN_RESULTS.delete().where(RUN_RESULTS.c.run_id == run_id))
        connection.execute(RUNS.delete().where(RUNS.c.id == run_id))
