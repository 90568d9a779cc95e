"""The accounts of an installation in one: firms, people, what they prove themselves by, and what was done."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.accounts._api_tokens import ApiTokens
from pavewright.store.accounts._audit import Audit
from pavewright.store.accounts._base import new_id
from pavewright.store.accounts._erasing import erase_person
from pavewright.store.accounts._invitations import Invitations
from pavewright.store.accounts._people import People
from pavewright.store.accounts._secrets import Secrets
from pavewright.store.accounts._sign_ins import SignIns
from pavewright.store.accounts._tables import FIRMS

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


class Accounts(People, Secrets, SignIns, Invitations, ApiTokens, Audit):
    """The accounts of one installation.

    Every method raises StoreTroubleError where the database or its disk refuses; nothing is changed then.
    """

    def erase_person(self, person_id: str, *, keep_one: str = "") -> None:
        """Erase who a person is: name, sign-in, secrets, passkeys, sign-ins, tokens; what he did keeps his bare id.

        Invitations by which he came, or was to come, lose the name too.

        Args:
            person_id: The person.
            keep_one: Role that somebody has to have afterwards in each of his firms; empty where none.

        Raises:
            UnknownPerson: none of that name.
            LastOneError: nobody would be left who has the role; nothing is changed.
        """
        with self._writing() as connection:
            if connection.dialect.name == "sqlite":  # what is erased is written over, and not left between the rows
                connection.exec_driver_sql("PRAGMA secure_delete=ON")
            erase_person(connection, person_id, keep_one)


def first_firm(connection: Connection) -> str:
    """Return the first firm of an installation over an open connection, entered where there is none."""
    found = connection.execute(sa.select(FIRMS.c.id).where(FIRMS.c.first)).scalars().first()
    if found is not None:
        return str(found)
    firm_id = new_id()
    connection.execute(FIRMS.insert().values({"id": firm_id, "name": "", "made": now(), "first": True}))
    return firm_id


def for_first_firm(engine: sa.Engine) -> sa.Engine:
    """Return an engine that works for the first firm, where one database keeps several."""
    if engine.dialect.name != "postgresql":
        return engine
    with engine.execution_options(write=True).begin() as connection:
        return engine.execution_options(firm=first_firm(connection))
