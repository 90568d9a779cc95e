"""Erasing who a person is: what he did stays, under an id that says nothing of him."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._turns import one_at_a_time
from pavewright.store.accounts._people import folded, person_in
from pavewright.store.accounts._tables import (
    CODES,
    INVITATIONS,
    MEMBERS,
    PASSKEYS,
    PEOPLE,
    SECRETS,
    SIGN_INS,
    TOKENS,
)
from pavewright.store.accounts._types import LastOneError

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

    from pavewright.store.accounts._types import Person


def erase_person(connection: Connection, person_id: str, keep_one: str) -> None:
    """Erase who a person is, over an open connection.

    Raises:
        UnknownPerson: none of that name.
        LastOneError: nobody would be left in one of his firms who has the role.
    """
    one_at_a_time(connection, "people")
    person = person_in(connection, person_id)
    at, which = now(), MEMBERS.c.person_id == person_id
    firms = connection.execute(sa.select(MEMBERS.c.firm_id).where(which, MEMBERS.c.ended.is_(None))).scalars().all()
    connection.execute(MEMBERS.update().where(which).values(crew_name=None))
    connection.execute(MEMBERS.update().where(which, MEMBERS.c.ended.is_(None)).values(ended=at))
    for firm_id in firms if keep_one else ():
        left = sa.select(MEMBERS.c.person_id).where(MEMBERS.c.firm_id == firm_id, MEMBERS.c.ended.is_(None))
        if connection.execute(left.where(MEMBERS.c.role == keep_one)).first() is None:
            raise LastOneError
    for table in (SECRETS, CODES, PASSKEYS, SIGN_INS, TOKENS):
        connection.execute(table.delete().where(table.c.person_id == person_id))
    _erase_invitations(connection, person, at)
    nobody = {"name": "", "sign_in": "", "folded": f"erased {person_id}", "ended": at}
    connection.execute(PEOPLE.update().where(PEOPLE.c.id == person_id).values(nobody))


def _erase_invitations(connection: Connection, person: Person, at: str) -> None:
    """Take name and sign-in out of invitations that hold them; one that is open is withdrawn."""
    table = INVITATIONS
    found = connection.execute(sa.select(table.c.id, table.c.name, table.c.sign_in, table.c.used, table.c.withdrawn))
    for row in found.all():
        if (row.sign_in and folded(row.sign_in) == folded(person.sign_in)) or (row.name and row.name == person.name):
            done = row.withdrawn if row.used is not None or row.withdrawn is not None else at
            blank = {"name": "", "sign_in": "", "withdrawn": done}
            connection.execute(table.update().where(table.c.id == row.id).values(blank))
