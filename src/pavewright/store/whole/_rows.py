"""Rows of a table as lines, the same whatever the database, and back again."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._all_tables import OF_A_FIRM, OF_INSTALLATION
from pavewright.store.outside._named import digest_column
from pavewright.store.outside._of_firm import Outside
from pavewright.store.whole._manifest import Part

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sqlalchemy.engine import Connection

    Keeps = Callable[[bytes], str]

AT_ONCE = 200
"""Rows that are fetched at once."""


def tables_of(firm: str) -> tuple[sa.Table, ...]:
    """Return the tables of a firm, of the installation where none is named; none refers to a later one."""
    return OF_A_FIRM if firm else OF_INSTALLATION


def lines_of(
    connection: Connection, table: sa.Table, columns: tuple[str, ...], keep: Keeps, outside: Outside | None = None
) -> Iterator[bytes]:
    """Give the rows of a table in the order of their key, each as a line of JSON.

    Args:
        connection: A connection that reads, in one transaction.
        table: The table.
        columns: The columns that are wanted.
        keep: Takes the bytes of a file and returns their hash, which stands in the line.
        outside: The files of the firm; None where each stands in its row.
    """
    reads = outside or Outside()
    key = list(table.primary_key.columns)
    files = [table.c[name] for name in columns if is_file(table.c[name])]
    hashes: dict[tuple[Any, ...], list[str | None]] = {}
    if files:
        names = [_named_by(each, columns) for each in files]
        for row in in_order(connection, table, [*key, *files, *names]):
            some, digests = row[len(key) : len(key) + len(files)], row[len(key) + len(files) :]
            hashes[tuple(row[: len(key)])] = [
                None if each is None else keep(bytes(each) if digest is None else reads.read(bytes(each), digest))
                for each, digest in zip(some, digests, strict=True)
            ]
    plain = [table.c[name] for name in columns if not is_file(table.c[name])]
    for row in in_order(connection, table, [*key, *plain]):
        told = dict(zip((column.name for column in plain), row[len(key) :], strict=True))
        if files:
            told |= dict(zip((column.name for column in files), hashes[tuple(row[: len(key)])], strict=True))
        yield json.dumps({name: told[name] for name in columns}, ensure_ascii=False).encode() + b"\n"


def part_of(firm: str, table: sa.Table, columns: tuple[str, ...], lines: Iterator[bytes]) -> Part:
    """Return what a table holds from its lines."""
    rows, digest = 0, hashlib.sha256()
    for line in lines:
        rows += 1
        digest.update(line)
    files = tuple(name for name in columns if is_file(table.c[name]))
    return Part(firm, table.name, columns, files, rows, digest.hexdigest())


def is_file(column: sa.Column[Any]) -> bool:
    """Return whether a column holds bytes."""
    return isinstance(column.type, sa.LargeBinary)


def _named_by(column: sa.Column[Any], columns: tuple[str, ...]) -> sa.ColumnElement[Any]:
    """Return the column that names the file of another one; nothing where none does, or did in an older version."""
    name = digest_column(column.table.name, column.name)
    return sa.null() if name is None or name not in columns else column.table.c[name]


def in_order(
    connection: Connection,
    table: sa.Table,
    columns: Sequence[sa.ColumnElement[Any]],
    where: sa.ColumnElement[bool] | None = None,
) -> Iterator[sa.Row[Any]]:
    """Give rows in the order of their key, the same whatever the database.

    Args:
        connection: A connection that reads, in one transaction.
        table: The table.
        columns: The columns that are wanted, named c0, c1 and so on in the rows.
        where: Which rows; None for all.
    """
    # a server may sort words by the manner of a country: a file sorts by their bytes, and so does this
    bytewise = connection.dialect.name == "postgresql"
    order = [
        sa.collate(each, "C") if bytewise and isinstance(each.type, sa.String) else each
        for each in table.primary_key.columns
    ]
    labelled = [column.label(f"c{number}") for number, column in enumerate(columns)]
    query = sa.select(*labelled).select_from(table).where(sa.true() if where is None else where).order_by(*order)
    return iter(connection.execute(query, execution_options={"yield_per": AT_ONCE}))
