"""A whole copy of a store while people work in it, and bringing one back.

A store in use is more than its one file: the last changes stand in a log beside it. A copy is therefore made by the
database itself, never by copying the file.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import secrets
import sqlite3
from contextlib import closing
from pathlib import Path
from urllib.parse import quote

from pavewright.store._open import look_at, make_folder_of, raw_file
from pavewright.store._store import open_file
from pavewright.store._troubles import StoreTroubleError, Trouble, in_words, trouble_of
from pavewright.store._types import Contents, Restored

_BESIDE = ("-wal", "-shm", "-journal")
"""Files that the database keeps beside its own."""


def back_up(path: Path, target: Path) -> Contents:
    """Write a whole copy of a store, also while people work in it, and return what is in it.

    Args:
        path: File of the store.
        target: Where to write the copy; nothing may be there yet.

    Raises:
        StoreTroubleError: the store cannot be read, or the copy cannot be written; nothing is left of it then.
    """
    _must_be_store(path)
    if target.exists():
        raise StoreTroubleError(Trouble.IN_THE_WAY, str(target))
    part = _part_of(target)
    try:
        _copy(path, part)
        with in_words(str(target)):
            _settle_down(part)
            _name_it(part, target)
            return contents_of(target)
    finally:
        _remove(part)


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
    part = _part_of(path)
    try:
        _copy(backup, part)
        open_file(part).close()  # brought up to date before anything is put aside
        _keep_devices(path, part)
        _keep_links(path, part)
        with in_words(str(path)):
            _settle_down(part)
            aside = _put_aside(path)
            part.rename(path)
            return Restored(contents_of(path), aside)
    finally:
        _remove(part)


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
    part, aside = _part_of(path), _aside_of(path)
    try:
        _copy(backup, part)
        open_file(part).close()  # brought up to date before anything is put aside
        _keep_devices(path, part)
        _keep_links(path, part)
        back_up(path, aside)
        with in_words(str(path)), closing(raw_file(part)) as source, closing(raw_file(path)) as target:
            source.backup(target)
        return Restored(contents_of(path), aside)
    finally:
        _remove(part)


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


def _part_of(target: Path) -> Path:
    """Return a name beside a target under which it is made, so that a copy is there whole or not at all."""
    if not target.absolute().parent.is_dir():
        raise StoreTroubleError(Trouble.MISSING, f"folder {target.parent}")
    return target.absolute().with_name(f".{target.name}.{secrets.token_hex(4)}.part")


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


def _keep_devices(path: Path, part: Path) -> None:
    """Let those devices in that the present store lets in: a device that was withdrawn since the backup stays out."""
    with closing(raw_file(part)) as raw:
        raw.execute("DELETE FROM device")
        with contextlib.suppress(sqlite3.Error):  # a store that is damaged or of an older version lets nobody in
            raw.execute("ATTACH ? AS present", (f"file:{quote(str(path.absolute()))}?mode=ro",))
            raw.execute("INSERT INTO device SELECT id, name, paired, seen, digest FROM present.device")


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
            names = ", ".join(f'"{row[1]}"' for row in raw.execute(f"PRAGMA main.table_info({table})"))
            raw.execute(
                f"INSERT INTO main.{table} ({names}) SELECT {names} FROM present.{table} "  # noqa: S608 - fixed names
                f"WHERE job_id IN (SELECT id FROM main.job) AND {key} NOT IN (SELECT {key} FROM main.{table})"
            )
        raw.execute("COMMIT")


def _settle_down(part: Path) -> None:
    """Have a file written through to the disk."""
    with part.open("rb+") as opened:
        os.fsync(opened.fileno())


def _name_it(part: Path, target: Path) -> None:
    """Give a finished copy its name, never over another file."""
    try:
        os.link(part, target)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no second names
        with target.open("xb"):
            pass
        part.replace(target)


def _remove(part: Path) -> None:
    for ending in ("", *_BESIDE):
        with contextlib.suppress(OSError):
            Path(f"{part}{ending}").unlink(missing_ok=True)


def _put_aside(path: Path) -> Path | None:
    """Give a store another name and return it; None where there is none.

    Raises:
        StoreTroubleError: somebody works in it.
    """
    if path.exists():
        _close_the_log(path)
    aside = _aside_of(path)
    for ending in _BESIDE:
        beside = Path(f"{path}{ending}")
        if beside.exists():
            beside.rename(f"{aside}{ending}")
    if not path.exists():
        return None
    path.rename(aside)
    return aside


def _aside_of(path: Path) -> Path:
    """Return a name for a store that is put aside."""
    stamp = dt.datetime.now(dt.UTC).strftime("%Y%m%d-%H%M%S")
    aside = path.with_name(f"{path.stem}.before-{stamp}{path.suffix}")
    while aside.exists():
        aside = aside.with_name(f"{aside.stem}-{secrets.token_hex(2)}{path.suffix}")
    return aside


def _close_the_log(path: Path) -> None:
    """Bring the log of a store into its file; that is refused while another program has it open.

    A file that is no store any more has no log that could be brought in: it is put aside as it is.
    """
    try:
        with closing(raw_file(path)) as raw:
            raw.execute("PRAGMA journal_mode=DELETE")
    except sqlite3.Error as problem:
        if trouble_of(problem) not in {Trouble.DAMAGED, Trouble.NOT_A_STORE}:
            raise
