"""Devices on which somebody is signed in: seen, and ended, by who it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.accounts._base import Part, after_now, digest_of, new_id, new_token
from pavewright.store.accounts._people import MEMBER, PERSON, member_in, member_of
from pavewright.store.accounts._tables import MEMBERS, PEOPLE, SIGN_INS
from pavewright.store.accounts._types import SignIn

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.store.accounts._types import Member, Person

_SIGN_IN = tuple(SIGN_INS.c[name] for name in SignIn.__slots__)
_SEEN_EVERY_S = 60
"""What was noted within so long is not noted again. [s]"""


class SignIns(Part):
    """The devices of one installation on which people are signed in."""

    def begin_sign_in(self, person_id: str, firm_id: str, device: str, days: float) -> tuple[SignIn, str]:
        """Keep that a person is signed in on a device; return it with its token, which nobody can read again.

        Args:
            person_id: The person.
            firm_id: The firm in which he works there.
            device: What the device says that it is.
            days: For how long he need not sign in again. [days]

        Raises:
            UnknownPerson: he does not belong to the firm.
        """
        at, (token, digest) = now(), new_token()
        begun = SignIn(new_id(), person_id, firm_id, device, at, at, after_now(days=days))
        with self._writing() as connection:
            member_in(connection, person_id, firm_id)
            connection.execute(SIGN_INS.delete().where(SIGN_INS.c.expires <= at))
            row = {each: getattr(begun, each) for each in SignIn.__slots__} | {"digest": digest}
            connection.execute(SIGN_INS.insert().values(row))
        return begun, token

    def signed_in(self, token: str) -> tuple[SignIn, Person, Member] | None:
        """Return who has a token; None where it opens nothing, whatever the reason."""
        query = sa.select(*PERSON, *MEMBER, *_SIGN_IN).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
        here = (SIGN_INS.c.person_id == PEOPLE.c.id) & (SIGN_INS.c.firm_id == MEMBERS.c.firm_id)
        alive = (SIGN_INS.c.expires > now()) & MEMBERS.c.ended.is_(None) & PEOPLE.c.ended.is_(None)
        query = query.join(SIGN_INS, here).where(SIGN_INS.c.digest == digest_of(token), alive)
        with self._reading() as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            return None
        member = member_of(row)
        return SignIn(*row[len(PERSON) + len(MEMBER) :]), member.person, member

    def still_signed_in(self, sign_in_ids: Iterable[str]) -> dict[str, Member]:
        """Return those of some sign-ins that hold still, each with its person in the firm for which he works there."""
        query = sa.select(SIGN_INS.c.id.label("named"), *PERSON, *MEMBER).join(
            MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id
        )
        here = (SIGN_INS.c.person_id == PEOPLE.c.id) & (SIGN_INS.c.firm_id == MEMBERS.c.firm_id)
        alive = (SIGN_INS.c.expires > now()) & MEMBERS.c.ended.is_(None) & PEOPLE.c.ended.is_(None)
        query = query.join(SIGN_INS, here).where(SIGN_INS.c.id.in_(tuple(sign_in_ids)), alive)
        with self._reading() as connection:
            rows = connection.execute(query).all()
        return {row[0]: member_of(row[1:]) for row in rows}

    def sign_ins(self, person_id: str) -> tuple[SignIn, ...]:
        """Return the devices on which a person is signed in, the one that asked last first."""
        query = sa.select(*_SIGN_IN).where(SIGN_INS.c.person_id == person_id, SIGN_INS.c.expires > now())
        with self._reading() as connection:
            rows = connection.execute(query.order_by(SIGN_INS.c.seen.desc(), SIGN_INS.c.id)).all()
        return tuple(SignIn(*row) for row in rows)

    def end_sign_in(self, sign_in_id: str, person_id: str | None = None) -> bool:
        """End a sign-in; return False where there is none of that name.

        Args:
            sign_in_id: The sign-in.
            person_id: Whose it has to be; None where that is looked at already.
        """
        which = SIGN_INS.c.id == sign_in_id
        which = which if person_id is None else which & (SIGN_INS.c.person_id == person_id)
        with self._writing() as connection:
            return connection.execute(SIGN_INS.delete().where(which)).rowcount == 1

    def end_sign_ins(self, person_id: str, but: str | None = None) -> int:
        """End every sign-in of a person but one, and return how many ended."""
        which = SIGN_INS.c.person_id == person_id
        which = which if but is None else which & (SIGN_INS.c.id != but)
        with self._writing() as connection:
            return connection.execute(SIGN_INS.delete().where(which)).rowcount

    def switch_firm(self, sign_in_id: str, firm_id: str) -> None:
        """Let a device work in another firm of the person who is signed in there.

        Raises:
            UnknownPerson: no such sign-in, or the person does not belong to the firm.
        """
        query = sa.select(SIGN_INS.c.person_id).where(SIGN_INS.c.id == sign_in_id)
        with self._writing() as connection:
            person_id = connection.execute(query).scalar_one_or_none()
            member_in(connection, person_id or "", firm_id)
            connection.execute(SIGN_INS.update().where(SIGN_INS.c.id == sign_in_id).values(firm_id=firm_id))

    def note_seen(self, sign_in_id: str) -> None:
        """Note that a device asked for something now, once a minute."""
        lately = after_now(seconds=-_SEEN_EVERY_S)
        query = sa.select(SIGN_INS.c.id).where(SIGN_INS.c.id == sign_in_id, SIGN_INS.c.seen < lately)
        with self._reading() as connection:
            if connection.execute(query).first() is None:
                return
        with self._writing() as connection:
            connection.execute(SIGN_INS.update().where(SIGN_INS.c.id == sign_in_id).values(seen=now()))
