"""Putting a finished file in its place: whole or not at all, never over another, what was there kept beside it."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import secrets
import sqlite3
from contextlib import closing
from pathlib import Path

from pavewright.store._open import raw_file
from pavewright.store._troubles import StoreTroubleError, Trouble, trouble_of

BESIDE = ("-wal", "-shm", "-journal")
"""Files that the database keeps beside its own."""


def part_of(target: Path) -> Path:
    """Return a name beside a target under which it is made, so that a copy is there whole or not at all."""
    if not target.absolute().parent.is_dir():
        raise StoreTroubleError(Trouble.MISSING, f"folder {target.parent}")
    return target.absolute().with_name(f".{target.name}.{secrets.token_hex(4)}.part")


def settle_down(part: Path) -> None:
    """Have a file written through to the disk."""
    with part.open("rb+") as opened:
        os.fsync(opened.fileno())


def name_it(part: Path, target: Path) -> None:
    """Give a finished copy its name, never over another file."""
    try:
        os.link(part, target)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no second names
        with target.open("xb"):
            pass
        part.replace(target)


def remove(part: Path) -> None:
    for ending in ("", *BESIDE):
        with contextlib.suppress(OSError):
            Path(f"{part}{ending}").unlink(missing_ok=True)


def put_aside(path: Path) -> Path | None:
    """Give a store another name and return it; None where there is none.

    Raises:
        StoreTroubleError: somebody works in it.
    """
    if path.exists():
        close_the_log(path)
    aside = aside_of(path)
    for ending in BESIDE:
        beside = Path(f"{path}{ending}")
        if beside.exists():
            beside.rename(f"{aside}{ending}")
    if not path.exists():
        return None
    path.rename(aside)
    return aside


def aside_of(path: Path) -> Path:
    """Return a name for a store that is put aside."""
    stamp = dt.datetime.now(dt.UTC).strftime("%Y%m%d-%H%M%S")
    aside = path.with_name(f"{path.stem}.before-{stamp}{path.suffix}")
    while aside.exists():
        aside = aside.with_name(f"{aside.stem}-{secrets.token_hex(2)}{path.suffix}")
    return aside


def close_the_log(path: Path) -> None:
    """Bring the log of a store into its file; that is refused while another program has it open.

    A file that is no store any more has no log that could be brought in: it is put aside as it is.
    """
    try:
        with closing(raw_file(path)) as raw:
            raw.execute("PRAGMA journal_mode=DELETE")
    except sqlite3.Error as problem:
        if trouble_of(problem) not in {Trouble.DAMAGED, Trouble.NOT_A_STORE}:
            raise
