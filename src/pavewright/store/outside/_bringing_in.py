"""Bringing files from outside into a copy of a store, so that the copy is whole by itself."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

from pavewright.store._open import raw_file
from pavewright.store._troubles import in_words
from pavewright.store.outside._named import NAMES

if TYPE_CHECKING:
    import sqlite3
    from pathlib import Path

    from pavewright.store.outside._named import Names
    from pavewright.store.outside._of_firm import Outside


def bring_in(path: Path, outside: Outside) -> None:
    """Put every file that a copy names outside into its row.

    Args:
        path: The copy, in which nobody works; one of an older version names nothing outside.
        outside: The files of the firm.

    Raises:
        StoreTroubleError: a file is missing or damaged, or the copy cannot be written.
    """
    with in_words(str(path)), closing(raw_file(path)) as raw:
        raw.execute("BEGIN IMMEDIATE")
        for each in NAMES:
            _bring_in(raw, each, outside)
        raw.execute("COMMIT")


def _bring_in(raw: sqlite3.Connection, each: Names, outside: Outside) -> None:
    table, content, digest = each.content.table.name, each.content.name, each.digest.name
    if digest not in {row[1] for row in raw.execute(f"PRAGMA table_info({table})")}:
        return
    # three fixed names of the tables
    found = raw.execute(f"SELECT rowid, {digest} FROM {table} WHERE length({content}) = 0").fetchall()  # noqa: S608
    for rowid, named in found:
        raw.execute(f"UPDATE {table} SET {content} = ? WHERE rowid = ?", (outside.read(b"", named), rowid))  # noqa: S608
