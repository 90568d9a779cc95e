"""What a person proves himself by: a password, codes, passkeys. Passwords and codes arrive as digests."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._turns import one_at_a_time
from pavewright.store.accounts._base import Part, as_kept, new_id
from pavewright.store.accounts._people import person_in
from pavewright.store.accounts._tables import CODES, PASSKEYS, SECRETS
from pavewright.store.accounts._types import Passkey

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from sqlalchemy.engine import Connection

_STEPS_APART = 2
"""The earliest and the latest half minute whose code is taken now lie so far apart: clocks differ. [-]"""
_PASSKEY = tuple(PASSKEYS.c[name] for name in Passkey.__slots__)


class Secrets(Part):
    """What the people of one installation prove themselves by."""

    def keep_password(self, person_id: str, digest: str | None) -> None:
        """Keep the digest of a password in the place of an earlier one; None where he has none from now on.

        Raises:
            UnknownPerson: none of that name.
        """
        with self._writing() as connection:
            keep_secret(connection, person_id, {"password": digest})

    def password_digest(self, person_id: str) -> str | None:
        """Return the digest of a password; None where there is none."""
        return self._secret(person_id, SECRETS.c.password)

    def keep_totp(self, person_id: str, secret: str | None) -> None:
        """Keep the secret of the codes that change; None where there are none from now on.

        Raises:
            UnknownPerson: none of that name.
        """
        with self._writing() as connection:
            keep_secret(connection, person_id, {"totp": secret, "totp_step": None})

    def totp_secret(self, person_id: str) -> str | None:
        """Return the secret of the codes that change; None where there is none."""
        return self._secret(person_id, SECRETS.c.totp)

    def use_totp_step(self, person_id: str, step: int) -> bool:
        """Note that the code of a step was used; return False where that one or a later one was used before.

        A step that no code of now can have was used while the clock was ahead, and keeps nobody out.

        Args:
            person_id: The person.
            step: Number of the half minute to which the code belongs.
        """
        used = SECRETS.c.totp_step
        unused = used.is_(None) | (used < step) | (used > step + _STEPS_APART)
        which = SECRETS.update().where(SECRETS.c.person_id == person_id, SECRETS.c.totp.is_not(None), unused)
        with self._writing() as connection:
            return connection.execute(which.values(totp_step=step)).rowcount == 1

    def keep_codes(self, person_id: str, kind: str, digests: Iterable[str], expires: dt.datetime | None = None) -> None:
        """Keep codes that open once, in the place of all earlier ones of the kind.

        Args:
            person_id: The person.
            kind: For what they are.
            digests: Their digests.
            expires: Until when they open; None where they have no end.

        Raises:
            UnknownPerson: none of that name.
        """
        told = {"person_id": person_id, "kind": kind, "expires": as_kept(expires)}
        rows = [told | {"digest": digest} for digest in dict.fromkeys(digests)]
        with self._writing() as connection:
            person_in(connection, person_id)
            connection.execute(CODES.delete().where(CODES.c.person_id == person_id, CODES.c.kind == kind))
            if rows:
                connection.execute(CODES.insert(), rows)

    def use_code(self, person_id: str, kind: str, digest: str) -> bool:
        """Use a code; return False where it is none of the person, was used, or has expired."""
        at = now()
        which = CODES.update().where(CODES.c.person_id == person_id, _open(kind, digest, at))
        with self._writing() as connection:
            return connection.execute(which.values(used=at)).rowcount == 1

    def codes_left(self, person_id: str, kind: str) -> int:
        """Return how many codes of a kind a person has left."""
        which = (CODES.c.person_id == person_id) & (CODES.c.kind == kind) & CODES.c.used.is_(None)
        with self._reading() as connection:
            return connection.execute(sa.select(sa.func.count()).select_from(CODES).where(which)).scalar_one()

    def person_of_code(self, kind: str, digest: str) -> str | None:
        """Return whose code it is while it opens; None where it opens nothing."""
        with self._reading() as connection:
            found = connection.execute(sa.select(CODES.c.person_id).where(_open(kind, digest, now()))).scalars().all()
        return found[0] if len(found) == 1 else None

    def add_passkey(self, person_id: str, credential: bytes, public_key: bytes, count: int, name: str) -> Passkey:
        """Keep the public half of a passkey.

        Raises:
            UnknownPerson: none of that name.
            ValueError: somebody has a passkey of that name already.
        """
        made = Passkey(new_id(), person_id, credential, public_key, count, name, now(), None)
        with self._writing() as connection:
            one_at_a_time(connection, "passkeys")
            person_in(connection, person_id)
            if _passkey(connection, credential) is not None:
                message = "this passkey is kept already"
                raise ValueError(message)
            connection.execute(PASSKEYS.insert().values({each: getattr(made, each) for each in Passkey.__slots__}))
        return made

    def passkeys(self, person_id: str) -> tuple[Passkey, ...]:
        """Return the passkeys of a person, the one added last first."""
        query = sa.select(*_PASSKEY).where(PASSKEYS.c.person_id == person_id)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(PASSKEYS.c.made.desc(), PASSKEYS.c.id)).all()
        return tuple(Passkey(*row) for row in rows)

    def passkey(self, credential: bytes) -> Passkey | None:
        """Return a passkey by the name that its device gave; None where there is none."""
        with self._reading() as connection:
            return _passkey(connection, credential)

    def note_passkey(self, credential: bytes, count: int) -> bool:
        """Note that a passkey was used now; return False where its count went back: somebody may have copied it.

        Args:
            credential: Its name, as the device gave it.
            count: How often it was used, as the device counts; zero where it does not count.
        """
        counted = (PASSKEYS.c.count < count) | ((PASSKEYS.c.count == 0) & (sa.literal(count) == 0))
        which = PASSKEYS.update().where(PASSKEYS.c.credential == credential, counted)
        with self._writing() as connection:
            return connection.execute(which.values(count=count, used=now())).rowcount == 1

    def remove_passkey(self, person_id: str, passkey_id: str) -> bool:
        """Delete a passkey of a person; return False where he has none of that name."""
        which = PASSKEYS.delete().where(PASSKEYS.c.id == passkey_id, PASSKEYS.c.person_id == person_id)
        with self._writing() as connection:
            return connection.execute(which).rowcount == 1

    def _secret(self, person_id: str, column: sa.Column[Any]) -> str | None:
        with self._reading() as connection:
            found = connection.execute(sa.select(column).where(SECRETS.c.person_id == person_id)).scalar_one_or_none()
        return None if found is None else str(found)


def keep_secret(connection: Connection, person_id: str, values: dict[str, Any]) -> None:
    """Keep something secret of a person, over an open connection.

    Raises:
        UnknownPerson: none of that name.
    """
    one_at_a_time(connection, f"secrets of {person_id}")
    person_in(connection, person_id)
    if connection.execute(SECRETS.update().where(SECRETS.c.person_id == person_id).values(values)).rowcount == 0:
        connection.execute(SECRETS.insert().values({"person_id": person_id} | values))


def _open(kind: str, digest: str, at: str) -> sa.ColumnElement[bool]:
    alive = CODES.c.used.is_(None) & (CODES.c.expires.is_(None) | (CODES.c.expires > at))
    return (CODES.c.kind == kind) & (CODES.c.digest == digest) & alive


def _passkey(connection: Connection, credential: bytes) -> Passkey | None:
    row = connection.execute(sa.select(*_PASSKEY).where(PASSKEYS.c.credential == credential)).one_or_none()
    return None if row is None else Passkey(*row)
