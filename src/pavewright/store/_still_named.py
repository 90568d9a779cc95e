"""Where words still stand in what is kept: asked after a person was erased."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._all_tables import OF_A_FIRM, OF_INSTALLATION

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.engine import Connection

    from pavewright.store._installation import Installation
    from pavewright.store._store import Store


def still_named(kept: Installation, words: Iterable[str]) -> dict[tuple[str, str], int]:
    """Return in how many rows of which table of which firm any of some words still stands.

    Args:
        kept: The installation.
        words: The words, such as a name; as they are and as JSON writes them.

    Returns:
        Rows by firm, empty for the installation, and table; tables without any are left out.
    """
    found: dict[tuple[str, str], int] = {}
    looked: list[tuple[str, Store, tuple[sa.Table, ...]]] = [("", kept.first, OF_INSTALLATION)]
    looked += [(firm.id, kept.store_of(firm.id), OF_A_FIRM) for firm in kept.accounts.firms()]
    wanted = tuple(words)
    for firm_id, store, tables in looked:
        with store.reading() as connection:
            found |= {(firm_id, table): rows for table, rows in named_in(connection, tables, wanted).items()}
    return found


def named_in(connection: Connection, tables: Iterable[sa.Table], words: Iterable[str]) -> dict[str, int]:
    """Return in how many rows of which table any of some words stands; tables without any are left out."""
    wanted = sorted({form for word in words if word for form in (word, json.dumps(word)[1:-1])})
    found: dict[str, int] = {}
    for table in tables:
        texts = [column for column in table.columns if isinstance(column.type, sa.String)]
        holds = sa.or_(sa.false(), *(each.contains(form, autoescape=True) for each in texts for form in wanted))
        rows = connection.execute(sa.select(sa.func.count()).select_from(table).where(holds)).scalar_one()
        found |= {table.name: rows} if rows else {}
    return found
