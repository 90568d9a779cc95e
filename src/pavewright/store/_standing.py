"""How the jobs stand, by numbers alone: what changed since the last look, whichever program changed it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._tables import CLASHES, JOBS

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection


@dataclass(frozen=True, slots=True)
class Mark:
    """How a job stands.

    Attributes:
        rev: Its revision.
        clashes: How many clashes of it nobody settled.
        archived: Whether it is in the archive.
        deleted: Whether it is deleted, and can be brought back.
    """

    rev: int
    clashes: int
    archived: bool
    deleted: bool


@dataclass(frozen=True, slots=True)
class Seen:
    """How the jobs of a store stood at one look.

    Attributes:
        sums: Numbers of which one differs once a job changed.
        marks: Every job by its name.
    """

    sums: tuple[Any, ...]
    marks: dict[str, Mark]


class Standing:
    """How the jobs of one store stand."""

    def __init__(self, reading: Callable[[], AbstractContextManager[Connection]]) -> None:
        """Keep how the store gives a connection to read by."""
        self._reading = reading

    def look(self, before: Seen | None = None) -> Seen:
        """Return how the jobs stand; the look before itself where nothing changed since.

        Args:
            before: The look before: what is as it was is not read again.
        """
        with self._reading() as connection:
            sums = tuple(connection.execute(_SUMS).one())
            if before is not None and sums == before.sums:
                return before
            marks = _few(connection, before, sums) if before is not None else None
            return Seen(sums, _every(connection) if marks is None else marks)


def _every(connection: Connection) -> dict[str, Mark]:
    return _read(connection, _ROWS)


def _few(connection: Connection, before: Seen, sums: tuple[Any, ...]) -> dict[str, Mark] | None:
    """Return how the jobs stand, those alone read that changed last; None where there is more to it than that."""
    if before.sums[_LAST] is None:
        return None
    clashes = _clashes(connection)
    kept = {
        name: mark if mark.clashes == clashes.get(name, 0) else replace(mark, clashes=clashes.get(name, 0))
        for name, mark in before.marks.items()
    }
    marks = kept | _read(connection, _ROWS.where(JOBS.c.changed >= before.sums[_LAST]))
    whole = len(marks) == sums[0] and sum(each.rev for each in marks.values()) == sums[1]
    away = sum(each.rev for each in marks.values() if each.archived) == sums[3]
    deleted = sum(each.rev for each in marks.values() if each.deleted) == sums[4]
    return marks if whole and away and deleted else None


def _read(connection: Connection, query: sa.Select[Any]) -> dict[str, Mark]:
    clashes = _clashes(connection)
    return {
        row.id: Mark(row.rev, clashes.get(row.id, 0), bool(row.archived), row.deleted is not None)
        for row in connection.execute(query).all()
    }


def _clashes(connection: Connection) -> dict[str, int]:
    return {row.job_id: row.many for row in connection.execute(_OPEN).all()}


_LAST = 2
"""Where among the sums it stands when a job was changed last."""
_ROWS = sa.select(JOBS.c.id, JOBS.c.rev, JOBS.c.archived, JOBS.c.deleted)
_AWAY = sa.func.coalesce(sa.func.sum(sa.case((JOBS.c.archived, JOBS.c.rev), else_=0)), 0)
_DELETED = sa.func.coalesce(sa.func.sum(sa.case((JOBS.c.deleted.is_not(None), JOBS.c.rev), else_=0)), 0)
_SETTLED = sa.select(sa.func.count(), sa.func.count(CLASHES.c.settled)).select_from(CLASHES).subquery()
_SUMS = sa.select(
    sa.func.count(), sa.func.coalesce(sa.func.sum(JOBS.c.rev), 0), sa.func.max(JOBS.c.changed), _AWAY, _DELETED,
    *[sa.select(each).scalar_subquery() for each in _SETTLED.c],
).select_from(JOBS)  # fmt: skip
_OPEN = (
    sa.select(CLASHES.c.job_id, sa.func.count().label("many"))
    .where(CLASHES.c.settled.is_(None))
    .group_by(CLASHES.c.job_id)
)
