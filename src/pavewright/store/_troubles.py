"""What can go wrong with the file of the store, each with a sentence that says what to do."""

from __future__ import annotations

import enum
import errno
import sqlite3
from contextlib import contextmanager
from typing import TYPE_CHECKING

import sqlalchemy as sa

if TYPE_CHECKING:
    from collections.abc import Iterator


class Trouble(enum.Enum):
    """What is wrong with a store."""

    FULL = "full"
    LOCKED = "locked"
    NOT_WRITABLE = "not_writable"
    DAMAGED = "damaged"
    NOT_A_STORE = "not_a_store"
    EMPTY = "empty"
    NO_VERSION = "no_version"
    NEWER = "newer"
    MISSING = "missing"
    NO_STORE = "no_store"
    IN_THE_WAY = "in_the_way"
    SAME_FILE = "same_file"
    NO_FILE = "no_file"
    NOT_EMPTY = "not_empty"
    NO_COPY = "no_copy"
    COPY_DAMAGED = "copy_damaged"
    COPY_DIFFERS = "copy_differs"
    COPY_NEWER = "copy_newer"
    LOCKED_COPY = "locked_copy"
    WRONG_PASSPHRASE = "wrong_passphrase"  # noqa: S105 - a word, no passphrase
    NO_SERVER = "no_server"
    NO_DRIVER = "no_driver"
    NO_ADDRESS = "no_address"
    SEES_ALL = "sees_all"
    NOT_APART = "not_apart"
    FILE_MISSING = "file_missing"
    FILE_DAMAGED = "file_damaged"
    FILES_UNSET = "files_unset"
    FILES_AWAY = "files_away"
    NO_PLACE = "no_place"
    ASIDE_UNREAD = "aside_unread"
    NO_S3 = "no_s3"


SENTENCES = {
    Trouble.FULL: "There is no room left on the disk of {name}, so nothing was kept: free some space, then try again.",
    Trouble.LOCKED: "Another program holds {name}, so nothing was kept: close it there, then try again.",
    Trouble.NOT_WRITABLE: "{name} or its folder cannot be written: allow writing to both, or choose another place.",
    Trouble.DAMAGED: (
        "{name} is damaged or was cut short. Leave it as it is and bring the last backup back: "
        "pavewright restore BACKUP --data {name}"
    ),
    Trouble.NOT_A_STORE: (
        "{name} is no store of jobs, or its beginning is damaged. If jobs were kept in it, bring the last backup back: "
        "pavewright restore BACKUP --data {name}. Otherwise choose another file."
    ),
    Trouble.EMPTY: (
        "{name} is empty: it was cut short, or nothing was ever kept in it. Bring the last backup back: "
        "pavewright restore BACKUP --data {name}. Or delete it to begin a new store there."
    ),
    Trouble.NO_VERSION: (
        "{name} holds jobs but does not say by which version of the program: something else changed it. "
        "Bring the last backup back: pavewright restore BACKUP --data {name}"
    ),
    Trouble.NEWER: "{name} was written by a newer version of this program: update the program. Nothing was changed.",
    Trouble.MISSING: "There is no {name}: check its name.",
    Trouble.NO_STORE: (
        "No jobs are kept in {name}, and nothing was made there: check its name, or begin there with "
        "pavewright serve --data {name}"
    ),
    Trouble.IN_THE_WAY: "{name} is there already and is not written over: choose another name.",
    Trouble.SAME_FILE: "{name} is the backup and the store in one: choose the file that was made by pavewright backup.",
    Trouble.NO_FILE: (
        "{name} is kept by a database server: back it up on the machine where pavewright runs, with pavewright backup "
        "(docs/database.md)."
    ),
    Trouble.NOT_EMPTY: (
        "{name} holds jobs or people already, and nothing is written over: give an empty database, then try again."
    ),
    Trouble.NO_COPY: "{name} is no whole copy that pavewright backup made: choose another file.",
    Trouble.COPY_DAMAGED: (
        "{name} is damaged, was cut short or was changed, so nothing of it was taken: choose another backup."
    ),
    Trouble.COPY_DIFFERS: (
        "What was read back from {name} differs from what was copied, so nothing was taken: run pavewright drill."
    ),
    Trouble.COPY_NEWER: "{name} was made by a newer version of this program: update the program. Nothing was changed.",
    Trouble.LOCKED_COPY: "{name} is locked: give the passphrase with which it was made, by --passphrase-file FILE.",
    Trouble.WRONG_PASSPHRASE: "The passphrase does not open {name}: give the one with which it was made.",
    Trouble.NO_SERVER: (
        "The database server of {name} does not answer, or does not let this program in, so nothing was kept: see that "
        "it runs, and check the address, the role and its password."
    ),
    Trouble.NO_DRIVER: (
        "{name} is on a database server, and what speaks with it is not installed: pip install 'pavewright[postgres]'"
    ),
    Trouble.NO_ADDRESS: (
        "{name} is no address of a database that this program knows: write postgresql://ROLE@HOST/DATABASE"
    ),
    Trouble.SEES_ALL: (
        "The role of {name} sees the rows of every firm (SUPERUSER or BYPASSRLS), so no firm would be kept apart from "
        "another: give a role of its own, made with NOSUPERUSER NOBYPASSRLS (docs/database.md)."
    ),
    Trouble.NOT_APART: (
        "In {name} a table does not keep the firms apart any more: somebody took its row security away. Give it back "
        "with ALTER TABLE ... ENABLE ROW LEVEL SECURITY and FORCE ROW LEVEL SECURITY (docs/database.md)."
    ),
    Trouble.FILE_MISSING: (
        "A photo or paper that belongs here is missing in {name}. See which with pavewright files check, and bring it "
        "back from a backup with pavewright files mend BACKUP."
    ),
    Trouble.FILE_DAMAGED: (
        "A photo or paper in {name} is damaged, so it is not handed out. See which with pavewright files check, and "
        "bring it back from a backup with pavewright files mend BACKUP."
    ),
    Trouble.FILES_UNSET: (
        "Photos and papers of {name} are kept outside the database, and it was not said where: name the folder or the "
        "address in PAVEWRIGHT_FILES, or with --files where a command knows it."
    ),
    Trouble.FILES_AWAY: (
        "{name}, where photos and papers are kept, does not answer or does not let this program in: see that it is "
        "there, check its address and keys, then try again."
    ),
    Trouble.ASIDE_UNREAD: (
        "{name} was put aside when a backup was brought back and cannot be read, so that nobody knows which photos and "
        "papers it names, and none was deleted: move or delete it, then try again."
    ),
    Trouble.NO_PLACE: "{name} is no place for photos and papers: give a folder, or write s3://BUCKET/PREFIX",
    Trouble.NO_S3: "What speaks with {name} is not installed: pip install 'pavewright[s3]'",
}


class StoreTroubleError(Exception):
    """The store cannot be used as it is; carries what is wrong and a sentence that says what to do."""

    def __init__(self, trouble: Trouble, name: str) -> None:
        """Keep both.

        Args:
            trouble: What is wrong.
            name: The file, as the user knows it.
        """
        self.trouble = trouble
        self.message = SENTENCES[trouble].format(name=name)
        super().__init__(self.message)


_OF_DATABASE = {
    sqlite3.SQLITE_FULL: Trouble.FULL,
    sqlite3.SQLITE_BUSY: Trouble.LOCKED,
    sqlite3.SQLITE_LOCKED: Trouble.LOCKED,
    sqlite3.SQLITE_PROTOCOL: Trouble.LOCKED,
    sqlite3.SQLITE_READONLY: Trouble.NOT_WRITABLE,
    sqlite3.SQLITE_PERM: Trouble.NOT_WRITABLE,
    sqlite3.SQLITE_CANTOPEN: Trouble.NOT_WRITABLE,
    sqlite3.SQLITE_CORRUPT: Trouble.DAMAGED,
    sqlite3.SQLITE_NOTADB: Trouble.NOT_A_STORE,
}
_DISK_WRITES = frozenset(
    {
        sqlite3.SQLITE_IOERR_WRITE,
        sqlite3.SQLITE_IOERR_FSYNC,
        sqlite3.SQLITE_IOERR_TRUNCATE,
        sqlite3.SQLITE_IOERR_SHMSIZE,
        sqlite3.SQLITE_IOERR_SHMOPEN,
        sqlite3.SQLITE_IOERR_SHMMAP,
    }
)
"""A write that the disk does not take: a limit, a quota or no room."""
_OF_SERVER = {
    "53100": Trouble.FULL,
    "55P03": Trouble.LOCKED,
    "40P01": Trouble.LOCKED,
    "25006": Trouble.NOT_WRITABLE,
    "57P01": Trouble.NO_SERVER,
    "57P02": Trouble.NO_SERVER,
    "57P03": Trouble.NO_SERVER,
    "53300": Trouble.NO_SERVER,
}
"""By the five signs with which a server says what it refuses (PostgreSQL 15, appendix A)."""
_OF_SYSTEM = {
    errno.ENOSPC: Trouble.FULL,
    errno.EDQUOT: Trouble.FULL,
    errno.EFBIG: Trouble.FULL,
    errno.EEXIST: Trouble.IN_THE_WAY,
    errno.ENOENT: Trouble.MISSING,
}


def trouble_of(problem: BaseException) -> Trouble | None:
    """Return what is wrong where a database or a disk refuses; None where it is a fault of the program."""
    inner = getattr(problem, "orig", None) or problem
    if isinstance(inner, sqlite3.Error):
        code = getattr(inner, "sqlite_errorcode", None)
        if code is None:
            return None
        if code in _DISK_WRITES:
            return Trouble.FULL
        kind = code & 0xFF
        return Trouble.DAMAGED if kind == sqlite3.SQLITE_IOERR else _OF_DATABASE.get(kind)
    if hasattr(inner, "sqlstate"):
        of_connection = isinstance(problem, sa.exc.OperationalError) and (
            problem.connection_invalidated or not inner.sqlstate
        )
        return Trouble.NO_SERVER if of_connection else _OF_SERVER.get(inner.sqlstate or "")
    if isinstance(inner, OSError):
        return _OF_SYSTEM.get(inner.errno or 0, Trouble.NOT_WRITABLE)
    return None


@contextmanager
def in_words(name: str) -> Iterator[None]:
    """Turn what a database or a disk refuses into a sentence.

    Args:
        name: The file, as the user knows it.

    Raises:
        StoreTroubleError: with what is wrong.
    """
    try:
        yield
    except (sqlite3.Error, sa.exc.DBAPIError, OSError) as problem:
        trouble = trouble_of(problem)
        if trouble is None:
            raise
        raise StoreTroubleError(trouble, name) from problem
