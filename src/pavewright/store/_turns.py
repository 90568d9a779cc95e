"""Writers who would be in each other's way take turns."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection


def one_at_a_time(connection: Connection, what: str) -> None:
    """Wait until nobody else changes a thing, and let nobody else change it until this transaction ends.

    A file lets one writer in at a time anyway. On a server the lock is asked for before anything is read: what is read
    after it is what the last writer left. A transaction holds one such lock, so that no two wait for each other.

    Args:
        connection: A connection that writes.
        what: Name of the thing, of the firm that the connection works for.
    """
    if connection.dialect.name != "postgresql":
        return
    connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_number(connection, what)})")


def turn_at(connection: Connection, job_id: str) -> None:
    """Wait until nobody else changes a job, and let nobody else change it until this transaction ends."""
    one_at_a_time(connection, f"job {job_id}")


def nobody_deletes(connection: Connection) -> None:
    """Let no file of the firm be deleted until this transaction ends; others may write beside it.

    Whoever deletes holds nothing else, so that this may be asked for beside another turn; but before a row is changed.
    """
    _turn_at_files(connection, "pg_advisory_xact_lock_shared")


def only_deletes(connection: Connection) -> None:
    """Let nobody write a row that names a file of the firm until this transaction ends."""
    _turn_at_files(connection, "pg_advisory_xact_lock")


def _turn_at_files(connection: Connection, lock: str) -> None:
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(f"SELECT {lock}({_number(connection, 'files')})")


def _number(connection: Connection, what: str) -> int:
    """Return the number of the lock of a thing of the firm that a connection works for."""
    firm = connection.get_execution_options().get("firm", "")
    return int.from_bytes(hashlib.sha256(f"{firm}/{what}".encode()).digest()[:8], "big", signed=True)
