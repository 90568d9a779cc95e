"""Opening a database: its settings, and its tables brought up to date."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from alembic import command
from alembic.config import Config
from sqlalchemy import event

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection
    from sqlalchemy.engine.interfaces import DBAPIConnection

_BUSY_MS = 5000
"""How long a writer waits for another one. [ms]"""


def engine_for(url: str) -> sa.Engine:
    """Return an engine for a database address, with the settings that keep an acknowledged change."""
    engine = sa.create_engine(url)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _settle)
        event.listen(engine, "begin", _begin)
    return engine


def _settle(connection: DBAPIConnection, _record: object) -> None:
    """Keep a log that is written through before a change is acknowledged; transactions are begun by hand."""
    raw: Any = connection
    raw.isolation_level = None
    cursor = connection.cursor()
    for setting in (f"busy_timeout={_BUSY_MS}", "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()


def _begin(connection: Connection) -> None:
    """Begin at once as a writer where one is meant, so that a wait for another writer is a wait and not a refusal."""
    write = connection.get_execution_options().get("write", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if write else "BEGIN")


def bring_up_to_date(engine: sa.Engine) -> None:
    """Apply the changes of the tables that the database has not seen."""
    config = Config()
    config.set_main_option("script_location", "pavewright.store:migrations")
    with engine.connect().execution_options(write=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
