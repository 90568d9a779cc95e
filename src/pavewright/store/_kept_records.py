"""Records when a backup is brought back: jobs go back to what they were, their records go on."""

from __future__ import annotations

import contextlib
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING
from urllib.parse import quote

from pavewright.store._open import raw_file
from pavewright.store._store import open_file

if TYPE_CHECKING:
    from pathlib import Path


def keep_records(path: Path, part: Path) -> None:
    """Lose nothing that was recorded since the backup, and record that each job went back.

    Args:
        path: The store that is there; it may be missing, damaged or older than records.
        part: The backup, brought up to date.
    """
    with closing(raw_file(part)) as raw, contextlib.suppress(sqlite3.Error):
        raw.execute("ATTACH ? AS present", (f"file:{quote(str(path.absolute()))}?mode=ro",))
        raw.execute("BEGIN")
        for (job_id,) in raw.execute("SELECT id FROM main.job").fetchall():
            _go_on(raw, job_id)
        raw.execute(
            "INSERT INTO main.removed_record (job, at, entries, head) SELECT job, at, entries, head "
            "FROM present.removed_record AS p WHERE NOT EXISTS "
            "(SELECT 1 FROM main.removed_record AS m WHERE m.job = p.job AND m.at = p.at)"
        )
        raw.execute("COMMIT")
    with closing(open_file(part)) as store:
        store.records.note_restored()


def _go_on(raw: sqlite3.Connection, job_id: str) -> None:
    """Add what the present store recorded after the last entry of the backup, where that is its own entry too."""
    last = "SELECT number, digest FROM main.record_entry WHERE job_id = ? ORDER BY number DESC LIMIT 1"
    number, digest = raw.execute(last, (job_id,)).fetchone() or (0, "")
    same = "SELECT digest FROM present.record_entry WHERE job_id = ? AND number = ?"
    if number and raw.execute(same, (job_id, number)).fetchone() != (digest,):
        return
    raw.execute(
        "INSERT INTO main.record_entry (job_id, number, line, digest) SELECT job_id, number, line, digest "
        "FROM present.record_entry WHERE job_id = ? AND number > ? ORDER BY number",
        (job_id, number),
    )
