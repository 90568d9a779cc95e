"""Firms, people, and who belongs to which firm."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._turns import one_at_a_time
from pavewright.store.accounts._base import Part, new_id, words_kept, words_read
from pavewright.store.accounts._tables import FIRMS, MEMBERS, PEOPLE, SIGN_INS, TOKENS
from pavewright.store.accounts._types import Firm, LastOneError, Member, Person, SignInTakenError, UnknownFirm
from pavewright.store.accounts._types import UnknownPerson as _UnknownPerson

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.engine import Connection

_FIRM = tuple(FIRMS.c[name] for name in Firm.__slots__)
PERSON = tuple(PEOPLE.c[name] for name in Person.__slots__)
MEMBER = tuple(MEMBERS.c[name] for name in ("firm_id", "role", "grants", "crew_name", "since", "ended"))


class People(Part):
    """The firms and people of one installation."""

    def firms(self) -> tuple[Firm, ...]:
        """Return the firms, the first one first."""
        with self._reading() as connection:
            rows = connection.execute(sa.select(*_FIRM).order_by(FIRMS.c.first.desc(), FIRMS.c.made, FIRMS.c.id)).all()
        return tuple(Firm(*row) for row in rows)

    def firm(self, firm_id: str) -> Firm:
        """Return a firm.

        Raises:
            UnknownFirm: none of that name.
        """
        with self._reading() as connection:
            row = connection.execute(sa.select(*_FIRM).where(FIRMS.c.id == firm_id)).one_or_none()
        if row is None:
            raise UnknownFirm(firm_id)
        return Firm(*row)

    def add_firm(self, name: str) -> Firm:
        """Enter another firm."""
        firm = Firm(new_id(), name, now())
        with self._writing() as connection:
            connection.execute(FIRMS.insert().values({"id": firm.id, "name": name, "made": firm.made, "first": False}))
        return firm

    def rename_firm(self, firm_id: str, name: str) -> None:
        """Call a firm something else.

        Raises:
            UnknownFirm: none of that name.
        """
        with self._writing() as connection:
            if connection.execute(FIRMS.update().where(FIRMS.c.id == firm_id).values(name=name)).rowcount != 1:
                raise UnknownFirm(firm_id)

    def people(self, firm_id: str, *, ended: bool = False) -> tuple[Member, ...]:
        """Return who belongs to a firm, by name; those who ceased to where they are asked for."""
        query = sa.select(*PERSON, *MEMBER).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
        query = query.where(MEMBERS.c.firm_id == firm_id)
        query = query if ended else query.where(MEMBERS.c.ended.is_(None))
        with self._reading() as connection:
            rows = connection.execute(query.order_by(PEOPLE.c.name, PEOPLE.c.id)).all()
        return tuple(member_of(row) for row in rows)

    def anybody(self) -> bool:
        """Return whether a person was ever entered: from then on everybody signs in."""
        with self._reading() as connection:
            return connection.execute(sa.select(PEOPLE.c.id).limit(1)).first() is not None

    def names(self) -> dict[str, str]:
        """Return what each person is called by his name in the store, of those who left too."""
        with self._reading() as connection:
            return {row.id: row.name for row in connection.execute(sa.select(PEOPLE.c.id, PEOPLE.c.name)).all()}

    def person(self, person_id: str) -> Person:
        """Return a person.

        Raises:
            UnknownPerson: none of that name.
        """
        with self._reading() as connection:
            return person_in(connection, person_id)

    def person_called(self, sign_in: str) -> Person | None:
        """Return who signs in by this, in capitals or not; None where nobody does."""
        query = sa.select(*PERSON).where(PEOPLE.c.folded == folded(sign_in))
        with self._reading() as connection:
            row = connection.execute(query).one_or_none()
        return None if row is None else Person(*row)

    def add_person(self, sign_in: str, name: str) -> Person:
        """Enter a person, who belongs to no firm yet.

        Raises:
            SignInTakenError: somebody signs in by this already.
        """
        with self._writing() as connection:
            return add_person(connection, sign_in, name)

    def rename_person(self, person_id: str, name: str) -> None:
        """Call a person something else.

        Raises:
            UnknownPerson: none of that name.
        """
        with self._writing() as connection:
            if connection.execute(PEOPLE.update().where(PEOPLE.c.id == person_id).values(name=name)).rowcount != 1:
                raise _UnknownPerson(person_id)

    def join(
        self, person_id: str, firm_id: str, role: str, grants: Iterable[str] = (), crew_name: str | None = None
    ) -> Member:
        """Let a person belong to a firm, or belong to it again.

        Raises:
            UnknownFirm: no firm of that name.
            UnknownPerson: no person of that name.
        """
        with self._writing() as connection:
            return join(connection, person_id, firm_id, (role, tuple(grants), crew_name))

    def change_member(
        self,
        person_id: str,
        firm_id: str,
        *,
        role: str,
        grants: Iterable[str] = (),
        crew_name: str | None = None,
        keep_one: str = "",
    ) -> Member:
        """Give a member another role, other grants or another name among the crew.

        Args:
            person_id: The person.
            firm_id: The firm.
            role: His role from now on.
            grants: What he may do beside it from now on.
            crew_name: What he is called among the crew from now on.
            keep_one: Role that somebody has to have afterwards; empty where none.

        Raises:
            UnknownPerson: he does not belong to the firm.
            LastOneError: nobody would be left who has the role.
        """
        changed = {"role": role, "grants": words_kept(grants), "crew_name": crew_name}
        with self._writing() as connection:
            _change(connection, person_id, firm_id, changed, keep_one)
            return member_in(connection, person_id, firm_id)

    def end_member(self, person_id: str, firm_id: str, *, keep_one: str = "") -> None:
        """Let a person cease to belong to a firm: his sign-ins and tokens there open nothing from now on.

        Args:
            person_id: The person.
            firm_id: The firm.
            keep_one: Role that somebody has to have afterwards; empty where none.

        Raises:
            UnknownPerson: he does not belong to the firm.
            LastOneError: nobody would be left who has the role.
        """
        at = now()
        with self._writing() as connection:
            _change(connection, person_id, firm_id, {"ended": at}, keep_one)
            for table in (SIGN_INS, TOKENS):
                connection.execute(table.delete().where(table.c.person_id == person_id, table.c.firm_id == firm_id))
            others = sa.select(MEMBERS.c.firm_id).where(MEMBERS.c.person_id == person_id, MEMBERS.c.ended.is_(None))
            if connection.execute(others).first() is None:
                connection.execute(PEOPLE.update().where(PEOPLE.c.id == person_id).values(ended=at))

    def memberships(self, person_id: str) -> tuple[Member, ...]:
        """Return the firms to which a person belongs, by when he joined."""
        query = sa.select(*PERSON, *MEMBER).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
        query = query.where(PEOPLE.c.id == person_id, MEMBERS.c.ended.is_(None))
        with self._reading() as connection:
            rows = connection.execute(query.order_by(MEMBERS.c.since, MEMBERS.c.firm_id)).all()
        return tuple(member_of(row) for row in rows)


def folded(sign_in: str) -> str:
    """Return a sign-in as it is compared."""
    return sign_in.strip().casefold()


def member_of(row: Any) -> Member:  # noqa: ANN401 - a row of the fields of a person and those of a member
    """Return a member from a row."""
    person, rest = Person(*row[: len(PERSON)]), row[len(PERSON) :]
    firm_id, role, grants, crew_name, since, ended = rest[: len(MEMBER)]
    return Member(person, firm_id, role, words_read(grants), crew_name, since, ended)


def person_in(connection: Connection, person_id: str) -> Person:
    """Return a person over an open connection.

    Raises:
        UnknownPerson: none of that name.
    """
    row = connection.execute(sa.select(*PERSON).where(PEOPLE.c.id == person_id)).one_or_none()
    if row is None:
        raise _UnknownPerson(person_id)
    return Person(*row)


def member_in(connection: Connection, person_id: str, firm_id: str) -> Member:
    """Return a member who belongs to a firm, over an open connection.

    Raises:
        UnknownPerson: he does not.
    """
    query = sa.select(*PERSON, *MEMBER).join(MEMBERS, MEMBERS.c.person_id == PEOPLE.c.id)
    query = query.where(PEOPLE.c.id == person_id, MEMBERS.c.firm_id == firm_id)
    row = connection.execute(query.where(MEMBERS.c.ended.is_(None), PEOPLE.c.ended.is_(None))).one_or_none()
    if row is None:
        raise _UnknownPerson(person_id)
    return member_of(row)


def add_person(connection: Connection, sign_in: str, name: str) -> Person:
    """Enter a person over an open connection.

    Raises:
        SignInTakenError: somebody signs in by this already.
    """
    one_at_a_time(connection, "people")
    taken = sa.select(PEOPLE.c.id).where(PEOPLE.c.folded == folded(sign_in))
    if connection.execute(taken).first() is not None:
        raise SignInTakenError(sign_in)
    person = Person(new_id(), sign_in.strip(), name, now(), None)
    row = {field: getattr(person, field) for field in Person.__slots__} | {"folded": folded(sign_in)}
    connection.execute(PEOPLE.insert().values(row))
    return person


def join(
    connection: Connection, person_id: str, firm_id: str, as_what: tuple[str, tuple[str, ...], str | None]
) -> Member:
    """Let a person belong to a firm, over an open connection.

    Raises:
        UnknownFirm: no firm of that name.
        UnknownPerson: no person of that name.
    """
    one_at_a_time(connection, f"members of {firm_id}")
    if connection.execute(sa.select(FIRMS.c.id).where(FIRMS.c.id == firm_id)).first() is None:
        raise UnknownFirm(firm_id)
    person_in(connection, person_id)
    role, grants, crew_name = as_what
    key = {"person_id": person_id, "firm_id": firm_id}
    connection.execute(MEMBERS.delete().where(MEMBERS.c.person_id == person_id, MEMBERS.c.firm_id == firm_id))
    told = {"role": role, "grants": words_kept(grants), "crew_name": crew_name, "since": now(), "ended": None}
    connection.execute(MEMBERS.insert().values(key | told))
    connection.execute(PEOPLE.update().where(PEOPLE.c.id == person_id).values(ended=None))
    return member_in(connection, person_id, firm_id)


def _change(connection: Connection, person_id: str, firm_id: str, changed: dict[str, Any], keep_one: str) -> None:
    one_at_a_time(connection, f"members of {firm_id}")
    of_firm = (MEMBERS.c.firm_id == firm_id) & MEMBERS.c.ended.is_(None)
    which = MEMBERS.update().where(of_firm, MEMBERS.c.person_id == person_id)
    if connection.execute(which.values(changed)).rowcount != 1:
        raise _UnknownPerson(person_id)
    left = sa.select(MEMBERS.c.person_id).where(of_firm, MEMBERS.c.role == keep_one)
    if keep_one and connection.execute(left).first() is None:
        raise LastOneError
