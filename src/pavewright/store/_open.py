"""Opening a database: whether it is a store, its settings, and its tables brought up to date."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

import sqlalchemy as sa
from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import event

from pavewright.store._troubles import StoreTroubleError, Trouble, in_words
from pavewright.store.postgres import begin, must_be_bound, must_keep_apart

if TYPE_CHECKING:
    from sqlalchemy.engine import URL, Connection
    from sqlalchemy.engine.interfaces import DBAPIConnection

BUSY_MS = 5000
"""How long a writer waits for another one. [ms]"""
_SERVERS = frozenset({"postgresql", "postgres", "postgresql+psycopg"})
_CONNECTIONS = 10
"""Connections to a server that stay open, and as many more at busy times."""
_UPGRADE_TURN = 7_290_441
"""Number of the lock under which one program at a time brings the tables of a server up to date."""
_BEGINNING = b"SQLite format 3\x00"
_OURS = frozenset({"job", "revision", "delivery", "photo"})
_LOOKED_THROUGH_BYTES = 256_000_000
"""A file up to this size is looked through whole when it is opened: about half a second."""


def engine_for(url: str | URL) -> sa.Engine:
    """Return an engine for a database address, with the settings that keep an acknowledged change.

    Raises:
        StoreTroubleError: it is no address that this program knows, or what speaks with the server is not installed.
    """
    try:
        address = sa.make_url(url)
    except (sa.exc.ArgumentError, ValueError):  # what it says of itself holds the address, password and all
        raise StoreTroubleError(Trouble.NO_ADDRESS, "What was given") from None
    if address.drivername in _SERVERS:
        return _engine_of_server(address.set(drivername="postgresql+psycopg"))
    if address.get_backend_name() != "sqlite":
        raise StoreTroubleError(Trouble.NO_ADDRESS, shown(address))
    engine = sa.create_engine(address)
    event.listen(engine, "connect", _settle)
    event.listen(engine, "begin", _begin)
    return engine


def _engine_of_server(address: URL) -> sa.Engine:
    try:
        # a connection that the server closed meanwhile is found before it is used
        engine = sa.create_engine(address, pool_pre_ping=True, pool_size=_CONNECTIONS, max_overflow=_CONNECTIONS)
    except ModuleNotFoundError as problem:
        raise StoreTroubleError(Trouble.NO_DRIVER, shown(address)) from problem
    event.listen(engine, "begin", begin)
    return engine


def shown(address: URL) -> str:
    """Return an address of a database as it may be shown: without its password, also where that stands in its query."""
    return address.set(query={}).render_as_string(hide_password=True)


def name_of(engine: sa.Engine) -> str:
    """Return the name of a database as the user knows it: its file, or its address without the password."""
    return engine.url.database or "" if engine.dialect.name == "sqlite" else shown(engine.url)


def _settle(connection: DBAPIConnection, _record: object) -> None:
    """Keep a log that is written through before a change is acknowledged; transactions are begun by hand."""
    raw: Any = connection
    raw.isolation_level = None
    raw.text_factory = lambda content: content.decode("utf-8", "replace")
    cursor = connection.cursor()
    for setting in (f"busy_timeout={BUSY_MS}", "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()


def _begin(connection: Connection) -> None:
    """Begin at once as a writer where one is meant, so that a wait for another writer is a wait and not a refusal."""
    write = connection.get_execution_options().get("write", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if write else "BEGIN")


def raw_file(path: Path) -> sqlite3.Connection:
    """Return a connection to a file that is there, as it is: nothing of it is set or made."""
    raw = sqlite3.connect(f"file:{quote(str(path.absolute()))}?mode=rw", uri=True, isolation_level=None)
    raw.execute(f"PRAGMA busy_timeout={BUSY_MS}")
    return raw


def make_folder_of(path: Path) -> None:
    """Make the folder of a file where it is missing.

    Raises:
        StoreTroubleError: it cannot be made.
    """
    with in_words(str(path)):
        try:
            path.absolute().parent.mkdir(parents=True, exist_ok=True)
        except FileExistsError as problem:  # a file stands where the folder should
            raise StoreTroubleError(Trouble.NOT_WRITABLE, str(path)) from problem


def look_at(path: Path) -> bool:
    """Look whether a file is a store that this program can open; return whether it holds tables already.

    Raises:
        StoreTroubleError: it is none, or cannot be opened.
    """
    name = str(path)
    with in_words(name):
        if path.is_dir():
            raise StoreTroubleError(Trouble.NOT_A_STORE, name)
        with path.open("rb") as opened:
            beginning = opened.read(len(_BEGINNING))
        if not beginning:
            raise StoreTroubleError(Trouble.EMPTY, name)
        if beginning != _BEGINNING:
            raise StoreTroubleError(Trouble.NOT_A_STORE, name)
        with closing(raw_file(path)) as raw:
            trouble = _trouble_in(raw, whole=path.stat().st_size <= _LOOKED_THROUGH_BYTES)
            tables = _tables(raw)
    if trouble is not None:
        raise StoreTroubleError(trouble, name)
    return bool(tables)


def _tables(raw: sqlite3.Connection) -> set[str]:
    return {row[0] for row in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


def _trouble_in(raw: sqlite3.Connection, *, whole: bool) -> Trouble | None:
    """Return what is wrong with an opened file, None where nothing is."""
    tables = _tables(raw)
    if tables and not tables >= _OURS:
        return Trouble.NOT_A_STORE
    if tables:
        kept = "alembic_version" in tables
        versions = {row[0] for row in raw.execute("SELECT version_num FROM alembic_version")} if kept else set()
        if not versions:
            return Trouble.NO_VERSION
        if not versions <= known_versions():
            return Trouble.NEWER
    sound = not whole or raw.execute("PRAGMA quick_check(1)").fetchone()[0] == "ok"
    return None if sound else Trouble.DAMAGED


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", "pavewright.store:migrations")
    return config


@cache
def newest_version() -> str | None:
    """Return the version of the tables of this program."""
    return ScriptDirectory.from_config(_config()).get_current_head()


def known_versions() -> set[str]:
    """Return every version of the tables that this program knows."""
    return {script.revision for script in ScriptDirectory.from_config(_config()).walk_revisions()}


def bring_up_to_date(engine: sa.Engine) -> None:
    """Apply the changes of the tables that the database has not seen.

    Raises:
        StoreTroubleError: the file is no store, or cannot be opened or written.
    """
    name = name_of(engine)
    if engine.dialect.name == "sqlite" and Path(name).exists():
        look_at(Path(name))
        if not os.access(name, os.W_OK):
            raise StoreTroubleError(Trouble.NOT_WRITABLE, name)
    with in_words(name), engine.connect().execution_options(write=True) as connection, connection.begin():
        upgrade(connection, name)


def upgrade(connection: Connection, name: str, to: str = "head") -> None:
    """Apply changes of the tables over a connection that writes.

    Args:
        connection: The connection.
        name: The database, as the user knows it.
        to: The version of the tables.

    Raises:
        StoreTroubleError: a server does not keep firms apart.
    """
    of_server = connection.dialect.name == "postgresql"
    if of_server:
        must_be_bound(connection, name)
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_UPGRADE_TURN})")
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, to)
    if of_server:
        must_keep_apart(connection, name)


def bring_log_in(engine: sa.Engine) -> bool:
    """Bring the log of a store into its file; return False where somebody is in the way: nobody waits for this."""
    with in_words(name_of(engine)), closing(engine.raw_connection()) as connection:
        raw: Any = connection
        raw.execute("PRAGMA busy_timeout=0")
        try:
            busy: int = raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
        finally:
            raw.execute(f"PRAGMA busy_timeout={BUSY_MS}")
    return busy == 0
