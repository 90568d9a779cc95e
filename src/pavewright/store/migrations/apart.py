"""Keeping the rows of each firm apart on a database server: done to every table of a firm when it is made.

On a server each row of a firm has a ``firm_id``, which the connection gives; the server shows no row of another firm
and takes none, whatever is asked. Keys and references hold within a firm. In a file there is one firm only: there
nothing is done.

A change that touches rows, not tables, has to do so for one firm after the other: ``each_firm``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import sqlalchemy as sa

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from types import ModuleType


_FIRM = "NULLIF(current_setting('pavewright.firm', true), '')"
_DIGEST = "digest"
"""Whoever holds a token is found by its digest, which no two firms share."""


class _Reference(NamedTuple):
    table: str
    name: str
    columns: tuple[str, ...]
    to: str
    to_columns: tuple[str, ...]


def keep_apart(op: ModuleType, *tables: str) -> None:
    """Keep the rows of each firm apart in tables that were made just now.

    Args:
        op: The operations of the change.
        tables: Tables of a firm, each with a primary key; they may refer to each other and to older ones by ``id``.
    """
    connection = op.get_bind()
    if connection.dialect.name != "postgresql":
        return
    looked = sa.inspect(connection)
    references = [each for table in tables for each in _references(looked, table)]
    for each in references:
        op.drop_constraint(each.name, each.table, type_="foreignkey")
    first = connection.exec_driver_sql("SELECT id FROM account_firm WHERE first").scalar_one()
    for table in tables:
        _widen(op, looked, table, first)
    for each in references:
        here, there = ["firm_id", *each.columns], ["firm_id", *each.to_columns]
        op.create_foreign_key(each.name, each.table, each.to, here, there)
    for table in tables:
        op.execute(f"ALTER TABLE {table} ENABLE ROW LEVEL SECURITY")
        op.execute(f"ALTER TABLE {table} FORCE ROW LEVEL SECURITY")
        op.execute(f"CREATE POLICY {table}_apart ON {table} USING (firm_id = {_FIRM}) WITH CHECK (firm_id = {_FIRM})")


def press(op: ModuleType, table: str, *columns: str) -> None:
    """Keep long texts in the quick way of the server, where it knows that way.

    Args:
        op: The operations of the change.
        table: The table.
        columns: Columns that hold texts of many kilobytes.
    """
    if op.get_bind().dialect.name != "postgresql":
        return
    for column in columns:
        op.execute(
            f"DO $$ BEGIN ALTER TABLE {table} ALTER COLUMN {column} SET COMPRESSION lz4; "
            "EXCEPTION WHEN feature_not_supported THEN NULL; END $$"
        )


def each_firm(op: ModuleType) -> Iterator[str]:
    """Go through the firms of a server, each with its rows in sight; once where there is one file for each."""
    connection = op.get_bind()
    if connection.dialect.name != "postgresql":
        yield ""
        return
    for firm in connection.exec_driver_sql("SELECT id FROM account_firm ORDER BY id").scalars().all():
        connection.exec_driver_sql(f"SET LOCAL pavewright.firm = '{firm}'")
        yield firm
    connection.exec_driver_sql("SET LOCAL pavewright.firm = ''")


def _references(looked: sa.Inspector, table: str) -> Iterator[_Reference]:
    for each in looked.get_foreign_keys(table):
        columns, to_columns = tuple(each["constrained_columns"]), tuple(each["referred_columns"])
        yield _Reference(table, str(each["name"]), columns, each["referred_table"], to_columns)


def _widen(op: ModuleType, looked: sa.Inspector, table: str, first: str) -> None:
    """Give every row its firm: what was kept before there were several belongs to the first one."""
    op.execute(f"ALTER TABLE {table} ADD COLUMN firm_id VARCHAR(32) NOT NULL DEFAULT '{first}'")
    op.execute(f"ALTER TABLE {table} ALTER COLUMN firm_id SET DEFAULT current_setting('pavewright.firm')")
    op.create_foreign_key(f"fk_{table}_firm_id_account_firm", table, "account_firm", ["firm_id"], ["id"])
    unique = [
        (str(each["name"]), [str(name) for name in each["column_names"]])
        for each in looked.get_indexes(table)
        if each["unique"] and each["column_names"] != [_DIGEST] and "duplicates_constraint" not in each
    ]
    for name, columns in unique:
        op.drop_index(name, table)
        op.create_index(name, table, ["firm_id", *columns], unique=True)
    for each in looked.get_unique_constraints(table):
        name, columns = str(each["name"]), list(each["column_names"])
        op.drop_constraint(name, table, type_="unique")
        op.create_unique_constraint(name, table, ["firm_id", *columns])
    _widen_primary(
        op, table, str(looked.get_pk_constraint(table)["name"]), looked.get_pk_constraint(table)["constrained_columns"]
    )


def _widen_primary(op: ModuleType, table: str, name: str, columns: Sequence[str]) -> None:
    op.drop_constraint(name, table, type_="primary")
    op.create_primary_key(name, table, ["firm_id", *columns])
    if list(columns) == ["id"]:  # a name that nobody guesses: later tables may refer to it
        op.create_unique_constraint(f"uq_{table}_id", table, ["id"])
