"""A whole copy of a store while people work in it, and bringing one back.

A store in use is more than its one file: the last changes stand in a log beside it. A copy is therefore made by the
database itself, never by copying the file.
"""

from __future__ import annotations

import contextlib
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING
from urllib.parse import quote

from pavewright.store._kept_records import keep_records
from pavewright.store._open import look_at, make_folder_of, raw_file
from pavewright.store._placing import aside_of, name_it, part_of, put_aside, remove, settle_down
from pavewright.store._shut_out import keep_shut_out
from pavewright.store._store import open_file
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words, trouble_of
from pavewright.store._types import Contents, Restored
from pavewright.store.outside._bringing_in import bring_in
from pavewright.store.outside._of_firm import Outside

if TYPE_CHECKING:
    from pathlib import Path


def back_up(path: Path, target: Path, outside: Outside | None = None) -> Contents:
    """Write a whole copy of a store, also while people work in it, and return what is in it.

    Photos and papers that are kept outside stand in the copy itself.

    Args:
        path: File of the store.
        target: Where to write the copy; nothing may be there yet.
        outside: Its files; None where none of them is kept outside.

    Raises:
        StoreTroubleError: the store cannot be read, or the copy cannot be written; nothing is left of it then.
    """
    _must_be_store(path)
    if target.exists():
        raise StoreTroubleError(Trouble.IN_THE_WAY, str(target))
    return _written(path, target, outside or Outside())


def _written(path: Path, target: Path, outside: Outside | None) -> Contents:
    """Write a copy of a store, and bring the files of a firm into it where they are given."""
    part = part_of(target)
    try:
        _copy(path, part)
        if outside is not None:
            bring_in(part, outside)
        with in_words(str(target)):
            settle_down(part)
            name_it(part, target)
            return contents_of(target)
    finally:
        remove(part)


def restore(backup: Path, path: Path) -> Restored:
    """Put a backup in the place of a store and return what became of both; the store as it was is kept beside it.

    Args:
        backup: File that was made by a backup.
        path: File of the store; it need not be there.

    Raises:
        StoreTroubleError: the backup is no store, or the store is in use; nothing is changed then.
    """
    _must_be_store(backup)
    if path.exists() and path.samefile(backup):
        raise StoreTroubleError(Trouble.SAME_FILE, str(path))
    make_folder_of(path)
    part = part_of(path)
    try:
        _copy(backup, part)
        open_file(part).close()  # brought up to date before anything is put aside
        carry_over(path, part)
        with in_words(str(path)):
            settle_down(part)
            aside = put_aside(path)
            part.rename(path)
            return Restored(contents_of(path), aside)
    finally:
        remove(part)


def restore_open(backup: Path, path: Path) -> Restored:
    """Put a backup in the place of a store while that is open; the store as it was is kept beside it.

    Whoever reads meanwhile sees all of the one or all of the other.

    Args:
        backup: File that was made by a backup.
        path: File of the store, which this program has open.

    Raises:
        StoreTroubleError: the backup is no store, or the store cannot be written; nothing is changed then.
    """
    _must_be_store(backup)
    part, aside = part_of(path), aside_of(path)
    try:
        _copy(backup, part)
        open_file(part).close()  # brought up to date before anything is put aside
        carry_over(path, part)
        _must_be_store(path)
        _written(path, aside, None)  # what it names outside stays there as long as it is kept
        with in_words(str(path)), closing(raw_file(part)) as source, closing(raw_file(path)) as target:
            source.backup(target)
        return Restored(contents_of(path), aside)
    finally:
        remove(part)


def contents_of(path: Path) -> Contents:
    """Return how much a store holds."""
    with closing(raw_file(path)) as raw:
        jobs, revisions, photos = (
            raw.execute(f"SELECT count(*) FROM {table}").fetchone()[0]  # noqa: S608 - three fixed names
            for table in ("job", "revision", "photo")
        )
    return Contents(jobs, revisions, photos, path.stat().st_size)


def _must_be_store(path: Path) -> None:
    if not look_at(path):
        raise StoreTroubleError(Trouble.NOT_A_STORE, str(path))


def _copy(path: Path, part: Path) -> None:
    """Let the database write all that was acknowledged into a file of its own."""
    try:
        with closing(raw_file(path)) as raw:
            raw.execute("VACUUM INTO ?", (str(part),))
    except (sqlite3.Error, OSError) as problem:
        trouble = trouble_of(problem)
        if trouble is None:
            raise
        of_target = trouble in {Trouble.FULL, Trouble.NOT_WRITABLE}
        raise StoreTroubleError(trouble, str(part.parent if of_target else path)) from problem
    look_at(part)


def carry_over(path: Path, part: Path) -> None:
    """Carry from a store into a backup that takes its place what does not go back: who may come in, links, records.

    Args:
        path: The store that is there; it may be missing or damaged.
        part: The backup, brought up to date.
    """
    keep_shut_out(path, part)
    _keep_links(path, part)
    keep_records(path, part)


def _keep_links(path: Path, part: Path) -> None:
    """Let no link open again that was withdrawn since the backup, and lose nothing that customers sent or accepted."""
    with closing(raw_file(part)) as raw, contextlib.suppress(sqlite3.Error):  # an older or damaged store has no links
        raw.execute("ATTACH ? AS present", (f"file:{quote(str(path.absolute()))}?mode=ro",))
        raw.execute("BEGIN")
        raw.execute(
            "UPDATE quotation_link SET withdrawn = (SELECT p.withdrawn FROM present.quotation_link AS p "
            "WHERE p.id = quotation_link.id) WHERE withdrawn IS NULL"
        )
        for table, key in (("quotation_link", "id"), ("quotation_question", "id"), ("acceptance", "link_id")):
            there, here = (
                {row[1] for row in raw.execute(f"PRAGMA {which}.table_info({table})")} for which in ("present", "main")
            )
            names = ", ".join(f'"{name}"' for name in sorted(there & here))
            raw.execute(
                f"INSERT INTO main.{table} ({names}) SELECT {names} FROM present.{table} "  # noqa: S608 - fixed names
                f"WHERE job_id IN (SELECT id FROM main.job) AND {key} NOT IN (SELECT {key} FROM main.{table})"
            )
        raw.execute("COMMIT")
