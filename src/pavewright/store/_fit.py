"""Whether a store can be used now: it answers, its tables are those of this program, and its disk has room."""

from __future__ import annotations

import enum
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._open import newest_version
from pavewright.store._troubles import StoreTroubleError

if TYPE_CHECKING:
    from pavewright.store._store import Store

DISK_MIN_BYTES = 200_000_000
"""Room that the disk of a file of jobs has to have: less does not hold a busy day with photos. [bytes]"""
_VERSION = sa.text("SELECT version_num FROM alembic_version")


class Amiss(enum.StrEnum):
    """Why a store cannot be used now."""

    STORE = "store"
    """It does not answer."""
    TABLES = "tables"
    """Its tables are not those of this version of the program."""
    DISK = "disk"
    """Its disk has hardly any room."""


def amiss_of(store: Store, disk_min_bytes: int = DISK_MIN_BYTES) -> tuple[Amiss, ...]:
    """Return why a store cannot be used now; nothing where it can.

    Args:
        store: The store. That of a database server is asked for its answer and its tables alone: its disk is elsewhere.
        disk_min_bytes: Room that the disk of a file has to have. [bytes]
    """
    try:
        with store.reading() as connection:
            versions = set(connection.execute(_VERSION).scalars())
    except (StoreTroubleError, sa.exc.SQLAlchemyError):
        return (Amiss.STORE,)
    found = [] if versions == {newest_version()} else [Amiss.TABLES]
    if store.is_file:
        try:
            free_bytes = shutil.disk_usage(Path(store.name).parent).free
        except OSError:
            return (Amiss.STORE,)
        if free_bytes < disk_min_bytes:
            found.append(Amiss.DISK)
    return tuple(found)


def size_bytes_of(store: Store) -> int:
    """Return how much a store holds: its file with its log, or the whole database of a server. [bytes].

    Raises:
        StoreTroubleError: a server does not answer.
    """
    if not store.is_file:
        with store.reading() as connection:
            return int(connection.execute(sa.text("SELECT pg_database_size(current_database())")).scalar_one())
    files = (Path(f"{store.name}{end}") for end in ("", "-wal"))
    return sum(each.stat().st_size for each in files if each.exists())
