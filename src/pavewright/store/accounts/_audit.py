"""What was done with people, rights and keys, which nobody can change; and tries that failed, of the last days."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.accounts._base import Part, after_now, as_kept, as_text, digest_of
from pavewright.store.accounts._tables import AUDIT, FAILURES
from pavewright.store.accounts._types import AuditEntry

if TYPE_CHECKING:
    import datetime as dt

_ENTRY = tuple(AUDIT.c[name] for name in AuditEntry.__slots__)
_FAILURE_DAYS = 2
"""Tries that failed are kept for so long. [days]"""
_AHEAD_S = 60
"""A try that lies further ahead was noted by a clock that was wrong: it makes nobody wait and is forgotten. [s]"""


class Audit(Part):
    """What was done, and what failed, in one installation."""

    def note_failure(self, key: str) -> None:
        """Note that a try failed now.

        Args:
            key: What was tried, such as a sign-in or an address; its digest alone is kept.
        """
        with self._writing() as connection:
            old, ahead = FAILURES.c.at < after_now(days=-_FAILURE_DAYS), FAILURES.c.at > after_now(seconds=_AHEAD_S)
            connection.execute(FAILURES.delete().where(old | ahead))
            connection.execute(FAILURES.insert().values(key=digest_of(key), at=now()))

    def failures(self, key: str, since: dt.datetime) -> int:
        """Return how many tries failed since then."""
        until = after_now(seconds=_AHEAD_S)
        which = (FAILURES.c.key == digest_of(key)) & FAILURES.c.at.between(as_kept(since) or "", until)
        with self._reading() as connection:
            return connection.execute(sa.select(sa.func.count()).select_from(FAILURES).where(which)).scalar_one()

    def clear_failures(self, key: str) -> None:
        """Forget the tries that failed: one did not."""
        with self._writing() as connection:
            connection.execute(FAILURES.delete().where(FAILURES.c.key == digest_of(key)))

    def audit(
        self, firm_id: str | None, person_id: str | None, code: str, facts: dict[str, Any], address: str = ""
    ) -> None:
        """Keep what was done.

        Args:
            firm_id: The firm; None where it is of none.
            person_id: Who did it; None where nobody was signed in.
            code: What was done, as a word of the program.
            facts: What belongs to it; no secret, and no name where an id does.
            address: From where it was asked for.
        """
        row = {"firm_id": firm_id, "person_id": person_id, "at": now(), "code": code, "address": address}
        with self._writing() as connection:
            connection.execute(AUDIT.insert().values(row | {"facts": as_text(facts)}))

    def audit_entries(
        self, firm_id: str | None, before: int | None = None, limit: int = 200, *, with_none: bool = False
    ) -> tuple[AuditEntry, ...]:
        """Return what was done in a firm, the last first.

        Args:
            firm_id: The firm; None for what is of none.
            before: Number of an entry: earlier ones are wanted; None from the last one on.
            limit: Most that are returned.
            with_none: Whether what is of no firm stands among it, such as a try to sign in by a name that nobody has.
        """
        of_firm = AUDIT.c.firm_id.is_(None) if firm_id is None else AUDIT.c.firm_id == firm_id
        of_firm = of_firm | AUDIT.c.firm_id.is_(None) if with_none else of_firm
        query = sa.select(*_ENTRY).where(of_firm).order_by(AUDIT.c.number.desc()).limit(limit)
        query = query if before is None else query.where(AUDIT.c.number < before)
        with self._reading() as connection:
            rows = connection.execute(query).all()
        return tuple(
            AuditEntry(row.number, row.firm_id, row.person_id, row.at, row.code, json.loads(row.facts), row.address)
            for row in rows
        )
