"""Invitations by link: each lets one person join a firm, once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.accounts._base import Part, as_kept, digest_of, new_id, new_token, words_kept, words_read
from pavewright.store.accounts._people import add_person, join
from pavewright.store.accounts._secrets import keep_secret
from pavewright.store.accounts._tables import FIRMS, INVITATIONS
from pavewright.store.accounts._types import Invitation, InvitationClosedError, UnknownFirm

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.store.accounts._types import Member

_INVITATION = tuple(INVITATIONS.c[name] for name in Invitation.__slots__)


class Invitations(Part):
    """The invitations of one installation."""

    def invite(
        self,
        firm_id: str,
        *,
        role: str,
        by: str,
        expires: dt.datetime,
        grants: Iterable[str] = (),
        name: str = "",
        sign_in: str = "",
    ) -> tuple[Invitation, str]:
        """Keep an invitation; return it with its token, which nobody can read again.

        Args:
            firm_id: The firm.
            role: What he who comes will be there.
            by: Person who invites him.
            expires: Until when it opens.
            grants: What he may do beside what his role allows.
            name: What he is called.
            sign_in: What he is to sign in by; empty where he chooses.

        Raises:
            UnknownFirm: none of that name.
        """
        token, digest = new_token()
        kept = words_kept(grants)
        until = as_kept(expires) or ""
        made = Invitation(
            new_id(), firm_id, role, words_read(kept), name, sign_in.strip(), by, now(), until, None, None
        )
        row = {each: getattr(made, each) for each in Invitation.__slots__} | {"grants": kept, "digest": digest}
        with self._writing() as connection:
            if connection.execute(sa.select(FIRMS.c.id).where(FIRMS.c.id == firm_id)).first() is None:
                raise UnknownFirm(firm_id)
            connection.execute(INVITATIONS.insert().values(row))
        return made, token

    def invitation(self, token: str) -> Invitation | None:
        """Return what a token opens; None where it opens nothing, whatever the reason."""
        with self._reading() as connection:
            row = connection.execute(sa.select(*_INVITATION).where(_opened_by(token))).one_or_none()
        return None if row is None else _read(row)

    def use_invitation(
        self,
        token: str,
        *,
        sign_in: str = "",
        name: str = "",
        password_digest: str | None = None,
        person_id: str | None = None,
    ) -> Member:
        """Join a firm by an invitation, which opens nothing from then on.

        Args:
            token: The token.
            sign_in: What the new person signs in by, where the invitation leaves it open.
            name: What he is called, where he says so.
            password_digest: The digest of his password; None where he gives none.
            person_id: Who joins, where he is a person already; None for a new one.

        Raises:
            InvitationClosedError: the token opens nothing; nothing is changed.
            SignInTakenError: somebody signs in by this already; nothing is changed.
            UnknownPerson: no person of that name; nothing is changed.
        """
        with self._writing() as connection:
            which = INVITATIONS.update().where(_opened_by(token))
            if connection.execute(which.values(used=now())).rowcount != 1:
                raise InvitationClosedError
            query = sa.select(*_INVITATION).where(INVITATIONS.c.digest == digest_of(token))
            found = _read(connection.execute(query).one())
            if person_id is None:
                person_id = add_person(connection, found.sign_in or sign_in, name or found.name).id
                keep_secret(connection, person_id, {"password": password_digest})
            return join(connection, person_id, found.firm_id, (found.role, found.grants, None))

    def withdraw_invitation(self, firm_id: str, invitation_id: str) -> bool:
        """Withdraw an invitation of a firm; return False where none of that name is open."""
        table = INVITATIONS
        which = table.update().where(table.c.id == invitation_id, table.c.firm_id == firm_id)
        which = which.where(table.c.used.is_(None), table.c.withdrawn.is_(None))
        with self._writing() as connection:
            return connection.execute(which.values(withdrawn=now())).rowcount == 1

    def invitations(self, firm_id: str) -> tuple[Invitation, ...]:
        """Return every invitation of a firm, the last one first."""
        query = sa.select(*_INVITATION).where(INVITATIONS.c.firm_id == firm_id)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(INVITATIONS.c.made.desc(), INVITATIONS.c.id)).all()
        return tuple(_read(row) for row in rows)


def _opened_by(token: str) -> sa.ColumnElement[bool]:
    table = INVITATIONS
    alive = table.c.used.is_(None) & table.c.withdrawn.is_(None) & (table.c.expires > now())
    return (table.c.digest == digest_of(token)) & alive


def _read(row: Any) -> Invitation:  # noqa: ANN401 - a row of the fields of an invitation, in their order
    fields = dict(zip(Invitation.__slots__, row, strict=True))
    return Invitation(**fields | {"grants": words_read(fields["grants"])})
