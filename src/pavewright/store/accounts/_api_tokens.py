"""Tokens of other programs: each reaches one firm, with no more rights than its person has."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store.accounts._base import (
    Part,
    after_now,
    as_kept,
    digest_of,
    new_id,
    new_token,
    words_kept,
    words_read,
)
from pavewright.store.accounts._people import MEMBER, PERSON, member_in, member_of
from pavewright.store.accounts._tables import MEMBERS, PEOPLE, TOKENS
from pavewright.store.accounts._types import ApiToken

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.store.accounts._types import Member, Person

_TOKEN = tuple(TOKENS.c[name] for name in ApiToken.__slots__)
_USED_EVERY_S = 60
"""What was noted within so long is not noted again. [s]"""


class ApiTokens(Part):
    """The tokens of other programs."""

    def make_token(
        self, firm_id: str, person_id: str, name: str, scopes: Iterable[str], expires: dt.datetime | None = None
    ) -> tuple[ApiToken, str]:
        """Keep a token; return it with what opens, which nobody can read again.

        Args:
            firm_id: The firm that it reaches.
            person_id: Whose rights it has, at most.
            name: What its owner calls it.
            scopes: What it may do.
            expires: Until when it opens; None where it has no end.

        Raises:
            UnknownPerson: he does not belong to the firm.
        """
        token, digest = new_token()
        kept = words_kept(scopes)
        made = ApiToken(new_id(), firm_id, person_id, name, words_read(kept), now(), as_kept(expires), None)
        row = {each: getattr(made, each) for each in ApiToken.__slots__} | {"scopes": kept, "digest": digest}
        with self._writing() as connection:
            member_in(connection, person_id, firm_id)
            connection.execute(TOKENS.insert().values(row))
        return made, token

    def of_api_token(self, token: str) -> tuple[ApiToken, Person, Member] | None:
        """Return what a token opens, and note that it was used; None where it opens nothing, whatever the reason."""
        query = sa.select(*PERSON, *MEMBER, *_TOKEN).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
        query = query.join(TOKENS, (TOKENS.c.person_id == PEOPLE.c.id) & (TOKENS.c.firm_id == MEMBERS.c.firm_id))
        alive = (TOKENS.c.expires.is_(None) | (TOKENS.c.expires > now())) & MEMBERS.c.ended.is_(None)
        query = query.where(TOKENS.c.digest == digest_of(token), alive, PEOPLE.c.ended.is_(None))
        with self._reading() as connection:
            row = connection.execute(query).one_or_none()
        if row is None:
            return None
        member, found = member_of(row), _read(row[len(PERSON) + len(MEMBER) :])
        if found.used is None or found.used < after_now(seconds=-_USED_EVERY_S):
            with self._writing() as connection:
                connection.execute(TOKENS.update().where(TOKENS.c.id == found.id).values(used=now()))
        return found, member.person, member

    def still_open(self, token_ids: Iterable[str]) -> dict[str, tuple[ApiToken, Member]]:
        """Return those of some tokens that open still, each with its person in the firm that it reaches."""
        query = sa.select(*PERSON, *MEMBER, *_TOKEN).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
        query = query.join(TOKENS, (TOKENS.c.person_id == PEOPLE.c.id) & (TOKENS.c.firm_id == MEMBERS.c.firm_id))
        alive = (TOKENS.c.expires.is_(None) | (TOKENS.c.expires > now())) & MEMBERS.c.ended.is_(None)
        query = query.where(TOKENS.c.id.in_(tuple(token_ids)), alive, PEOPLE.c.ended.is_(None))
        with self._reading() as connection:
            rows = connection.execute(query).all()
        found = [(_read(row[len(PERSON) + len(MEMBER) :]), member_of(row)) for row in rows]
        return {token.id: (token, member) for token, member in found}

    def tokens(self, firm_id: str) -> tuple[ApiToken, ...]:
        """Return the tokens of a firm, the last one first."""
        query = sa.select(*_TOKEN).where(TOKENS.c.firm_id == firm_id)
        with self._reading() as connection:
            rows = connection.execute(query.order_by(TOKENS.c.made.desc(), TOKENS.c.id)).all()
        return tuple(_read(row) for row in rows)

    def withdraw_token(self, firm_id: str, token_id: str) -> bool:
        """Delete a token of a firm: it opens nothing any more; return False where there is none of that name."""
        which = TOKENS.delete().where(TOKENS.c.id == token_id, TOKENS.c.firm_id == firm_id)
        with self._writing() as connection:
            return connection.execute(which).rowcount == 1


def _read(row: Any) -> ApiToken:  # noqa: ANN401 - a row of the fields of a token, in their order
    fields = dict(zip(ApiToken.__slots__, row, strict=True))
    return ApiToken(**fields | {"scopes": words_read(fields["scopes"])})
