"""What a database server refuses, and roles that may not be used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.store._troubles import StoreTroubleError, Trouble

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


def must_be_bound(connection: Connection, name: str) -> None:
    """Refuse a role that sees past the security of rows: with it no firm would be kept apart from another.

    Raises:
        StoreTroubleError: the role is a superuser, or bypasses it.
    """
    query = "SELECT bool_or(rolsuper OR rolbypassrls) FROM pg_roles WHERE rolname IN (current_user, session_user)"
    if connection.exec_driver_sql(query).scalar_one():
        raise StoreTroubleError(Trouble.SEES_ALL, name)


def must_keep_apart(connection: Connection, name: str) -> None:
    """Refuse a database in which the security of rows was taken away from a table of a firm.

    Raises:
        StoreTroubleError: it was.
    """
    query = (
        "SELECT count(*) FROM pg_class AS c JOIN pg_attribute AS a ON a.attrelid = c.oid "
        "WHERE c.relkind = 'r' AND c.relnamespace = current_schema()::regnamespace AND a.attname = 'firm_id' "
        "AND c.relname NOT LIKE 'account\\_%%' AND NOT (c.relrowsecurity AND c.relforcerowsecurity)"
    )
    if connection.exec_driver_sql(query).scalar_one():
        raise StoreTroubleError(Trouble.NOT_APART, name)
