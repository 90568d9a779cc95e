"""Who may come in when a backup is brought back: whoever was shut out since stays out.

Jobs go back to what they were. People, what they prove themselves by, sign-ins, tokens, links, feeds and hooks stay as
the present store has them. Where there is no present store of the same installation nobody can tell what was ended
since: then nothing opens that lets in by itself, and people come in by their password or passkey.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING
from urllib.parse import quote

from pavewright.store._clock import now
from pavewright.store._open import raw_file
from pavewright.store._store import open_file
from pavewright.store._tables import CALENDAR_FEEDS, DEVICES
from pavewright.store.accounts import _tables as accounts
from pavewright.store.hooks._tables import HOOKS, MESSAGES

if TYPE_CHECKING:
    from pathlib import Path

    import sqlalchemy as sa
    from sqlalchemy.engine import Connection

_AS_THEY_ARE = (
    accounts.PEOPLE,
    accounts.MEMBERS,
    accounts.SECRETS,
    accounts.CODES,
    accounts.PASSKEYS,
    accounts.SIGN_INS,
    accounts.INVITATIONS,
    accounts.TOKENS,
    accounts.FAILURES,
    DEVICES,
    CALENDAR_FEEDS,
    HOOKS,
    MESSAGES,
)
"""What is not brought back: it stays as the present store has it."""
_FIRST_FIRM = "SELECT id FROM {where}.account_firm WHERE first"
NEW_PASSWORD = "reset"  # noqa: S105 - the kind of a code, no password
"""Kind of the codes by which somebody chooses a new password."""


def keep_shut_out(path: Path, part: Path) -> None:
    """Let in by a backup only whom the present store lets in.

    Args:
        path: The store that is there; it may be missing, damaged or older than what it is asked for.
        part: The backup, brought up to date.
    """
    with closing(raw_file(part)) as raw:
        kept = _as_at_present(raw, path)
    if not kept:
        with closing(open_file(part)) as store, store.writing() as connection:
            let_nobody_in(connection)


def let_nobody_in(connection: Connection) -> None:
    """End all that lets in by itself: what was ended since a backup, nobody can tell.

    Sign-ins, tokens, devices, feeds, hooks, open invitations and links for a new password end; people stay, with their
    passwords and passkeys.

    Args:
        connection: A connection that writes; on a server it works for one firm, and those rows are ended.
    """
    for table in (MESSAGES, HOOKS, CALENDAR_FEEDS, DEVICES, accounts.SIGN_INS, accounts.TOKENS):
        connection.execute(table.delete())
    codes, links = accounts.CODES, accounts.INVITATIONS
    connection.execute(codes.delete().where(codes.c.kind == NEW_PASSWORD))
    connection.execute(
        links.update().where(links.c.used.is_(None), links.c.withdrawn.is_(None)).values(withdrawn=now())
    )


def _as_at_present(raw: sqlite3.Connection, path: Path) -> bool:
    """Take over who may come in from the present store; return False, nothing done, where it cannot tell."""
    try:
        raw.execute("ATTACH ? AS present", (f"file:{quote(str(path.absolute()))}?mode=ro",))
        raw.execute("BEGIN IMMEDIATE")
        first, here = (raw.execute(_FIRST_FIRM.format(where=where)).fetchall() for where in ("present", "main"))
        if first == here:
            _take_over(raw)
            raw.execute("COMMIT")
            return True
        raw.execute("ROLLBACK")
    except sqlite3.Error:  # missing, damaged, or older than these tables
        if raw.in_transaction:
            raw.execute("ROLLBACK")
    return False


def _take_over(raw: sqlite3.Connection) -> None:
    for table in reversed(_AS_THEY_ARE):
        raw.execute(f"DELETE FROM main.{table.name}")  # noqa: S608 - a fixed name
    for table in _AS_THEY_ARE:
        names = _columns_of(raw, table)
        raw.execute(f"INSERT INTO main.{table.name} ({names}) SELECT {names} FROM present.{table.name}")  # noqa: S608 - fixed names
    raw.execute(
        "INSERT INTO main.account_firm (id, name, made, first) SELECT id, name, made, first FROM present.account_firm "
        "WHERE id NOT IN (SELECT id FROM main.account_firm)"
    )
    noted = "firm_id, person_id, at, code, facts, address"
    since = f"SELECT {noted} FROM present.account_audit EXCEPT SELECT {noted} FROM main.account_audit"  # noqa: S608 - fixed names
    raw.execute(f"INSERT INTO main.account_audit ({noted}) SELECT {noted} FROM ({since}) ORDER BY at")  # noqa: S608


def _columns_of(raw: sqlite3.Connection, table: sa.Table) -> str:
    """Return the columns that a table has in both stores.

    Raises:
        sqlite3.OperationalError: the present store has no such table.
    """
    there = {row[1] for row in raw.execute(f"PRAGMA present.table_info({table.name})")}
    if not there:
        message = f"no such table: {table.name}"
        raise sqlite3.OperationalError(message)
    return ", ".join(f'"{each.name}"' for each in table.columns if each.name in there)
