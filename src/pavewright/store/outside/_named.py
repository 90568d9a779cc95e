"""Which files the rows of a firm name."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import quote

import sqlalchemy as sa

from pavewright.store._tables import PHOTOS, QUOTATION_LINKS
from pavewright.store._troubles import StoreTroubleError, Trouble

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.engine import Connection

    from pavewright.store.outside._kept import Kept


class Names(NamedTuple):
    """A column that holds a file, and the one that names it."""

    content: sa.Column[bytes]
    digest: sa.Column[str]


NAMES = (
    Names(PHOTOS.c.image, PHOTOS.c.sha256),
    Names(QUOTATION_LINKS.c.pdf, QUOTATION_LINKS.c.pdf_sha256),
    Names(QUOTATION_LINKS.c.notice, QUOTATION_LINKS.c.notice_sha256),
)
"""Every column of a firm that holds a file for good."""
_DIGEST_OF = {(each.content.table.name, each.content.name): each.digest.name for each in NAMES}


def digest_column(table: str, column: str) -> str | None:
    """Return the column that names the file of another column; None where that holds no file of this kind."""
    return _DIGEST_OF.get((table, column))


def named_in_rows(connection: Connection) -> set[str]:
    """Return the hash of every file that a row of the firm names, wherever the file stands."""
    found: set[str] = set()
    for each in NAMES:
        query = sa.select(each.digest).where(each.digest.is_not(None)).distinct()
        found |= set(connection.execute(query).scalars())
    return found


def named_outside(connection: Connection) -> set[str]:
    """Return the hash of every file that a row of the firm names and does not hold itself."""
    found: set[str] = set()
    for each in NAMES:
        query = sa.select(each.digest).where(sa.func.length(each.content) == 0).distinct()
        found |= set(connection.execute(query).scalars())
    return found


def named_aside(store: Kept) -> set[str]:
    """Return the hashes that stores name which were put aside when a backup was brought back: they may come back."""
    if not store.is_file:
        return set()
    path, found = Path(store.name), set[str]()
    for aside in path.parent.glob(f"{path.stem}.before-*{path.suffix}"):
        found |= set(_named_in_file(aside))
    return found


def _named_in_file(path: Path) -> Iterator[str]:
    """Give what a file names; an older one names nothing outside.

    Raises:
        StoreTroubleError: it cannot be read, so that nobody knows what it names.
    """
    try:
        with closing(sqlite3.connect(f"file:{quote(str(path.absolute()))}?mode=ro", uri=True)) as raw:
            for each in NAMES:
                columns = {row[1] for row in raw.execute(f"PRAGMA table_info({each.digest.table.name})")}
                if each.digest.name in columns:
                    query = sa.select(each.digest).where(each.digest.is_not(None))
                    yield from (row[0] for row in raw.execute(str(query)))
    except sqlite3.Error as problem:
        raise StoreTroubleError(Trouble.ASIDE_UNREAD, str(path)) from problem
