"""The commands that copy the jobs away, bring them back, and try whether a copy could be brought back."""

from __future__ import annotations

import datetime as dt
import os
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._backup_words import WORDS
from pavewright.cli._stop import stop
from pavewright.cli._where import DATA, DATABASE, FILES, files_at, kept_at, open_kept_installation

if TYPE_CHECKING:
    from pavewright.store import Contents
    from pavewright.store.whole import Drilled

PASSPHRASE = "PAVEWRIGHT_PASSPHRASE"  # noqa: S105 - the name of a variable
"""What the environment calls the passphrase of a copy: it then stands on no command line."""
_SHORTEST = 12
"""A passphrase has at least so many signs."""
_MB = 1 << 20
"""Bytes in a megabyte."""
PASSPHRASE_FILE = click.option(
    "--passphrase-file",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help=f"File whose first line is the passphrase; {PASSPHRASE} says it too.",
)
_SERVER = click.option("--database", help=f"Empty database of a server in place of a file; {DATABASE} says it too.")


@click.command("backup")
@click.argument("target", required=False, type=click.Path(path_type=Path))
@DATA
@click.option("--whole", is_flag=True, help="Every firm and its people in one file of an open format.")
@click.option("--lock", is_flag=True, help="Lock the file by a passphrase; it holds the whole then.")
@FILES
@PASSPHRASE_FILE
def backup_command(
    target: Path | None,
    data: Path | None,
    files: str | None,
    passphrase_file: Path | None,
    *,
    whole: bool,
    lock: bool,
) -> None:
    """Write a whole copy of all jobs, revisions and photos into TARGET, also while people work.

    Copying the file of the jobs by hand is no backup: what was saved last may not stand in it yet. Nothing is written
    over. Jobs of one firm in a file become a file of the same kind; with --whole or --lock, and from a database server
    always, all firms become one file that comes back on a file or a server alike (docs/database.md). Exit code 2: the
    jobs cannot be read, or the copy cannot be written.

    \b
    Example: pavewright backup
             pavewright backup /media/stick/jobs-monday.sqlite --data jobs.sqlite
             pavewright backup --lock --passphrase-file backup-passphrase.txt
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import StoreTroubleError  # noqa: PLC0415 - the quick commands load no database

    try:
        if whole or lock or isinstance(kept_at(data), str):
            _copy_whole(target, data, files, _new_passphrase(passphrase_file) if lock else None)
        else:
            _copy_file(target, data, files)
    except StoreTroubleError as problem:
        stop(str(problem))


def _copy_whole(target: Path | None, data: Path | None, files: str | None, passphrase: str | None) -> None:
    from pavewright.store.whole import back_up_whole  # noqa: PLC0415

    to = target or Path(f"{_stamp()}.{'zip' if passphrase is None else 'locked'}")
    with closing(open_kept_installation(data, files=files)) as kept:
        name, firms = kept.first.name, len(kept.accounts.firms())
        contents = back_up_whole(kept, to, passphrase)
    click.echo(WORDS.copied(told=_told(contents), store=name, to=str(to), size=_mb(contents.size_bytes)))
    click.echo(WORDS.locked if passphrase is not None else WORDS.unlocked)
    if firms > 1:
        click.echo(WORDS.firms(firms=firms))


def _copy_file(target: Path | None, data: Path | None, files: str | None) -> None:
    from pavewright.store import StoreTroubleError, Trouble, back_up  # noqa: PLC0415

    store, to = Path(kept_at(data)), target or Path(f"{_stamp()}.sqlite")
    if not store.exists():
        raise StoreTroubleError(Trouble.NO_STORE, str(store))
    if files_at(files) is None:
        contents = back_up(store, to)
    else:
        with closing(open_kept_installation(data, files=files)) as kept:
            contents = back_up(store, to, kept.first.outside)
    click.echo(WORDS.copied(told=_told(contents), store=str(store), to=str(to), size=_mb(contents.size_bytes)))
    others = len(list(store.with_name(f"{store.stem}.firms").glob("*.sqlite")))
    if others:
        click.echo(WORDS.first_firm_only)


@click.command("restore")
@click.argument("backup", type=click.Path(path_type=Path))
@DATA
@_SERVER
@FILES
@PASSPHRASE_FILE
def restore_command(
    backup: Path, data: Path | None, database: str | None, files: str | None, passphrase_file: Path | None
) -> None:
    """Put BACKUP in the place of the jobs that are kept; those are kept beside it under another name.

    Stop pavewright serve first. On a database server the database has to be empty. Whoever was shut out since the
    backup stays out (docs/people.md). Exit code 2: BACKUP cannot be brought back, or the jobs are in use; nothing is
    changed.

    \b
    Example: pavewright restore pavewright-2027-05-04-1830.sqlite
             pavewright restore /media/stick/jobs-monday.sqlite --data jobs.sqlite
             pavewright restore pavewright-2027-05-04-1830.zip --database postgresql://paver@db.example/paving
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import StoreTroubleError, restore  # noqa: PLC0415
    from pavewright.store.whole import is_whole_copy, restore_whole  # noqa: PLC0415

    where = kept_at(data, database)
    try:
        if isinstance(where, Path) and not is_whole_copy(backup):
            restored = restore(backup, where)
        else:
            restored = restore_whole(backup, where, passphrase_of(backup, passphrase_file))
    except StoreTroubleError as problem:
        stop(str(problem))
    else:
        name = str(where) if isinstance(where, Path) else WORDS.server
        click.echo(WORDS.brought_back(told=_told(restored.contents), backup=str(backup), store=name))
        if restored.aside is not None:
            click.echo(WORDS.aside(aside=str(restored.aside)))
        _move_out(where, files_at(files))


def _move_out(where: Path | str, files: str | None) -> None:
    """Move what was brought back to the place of files, where there is one; else all of it stands in the database."""
    from pavewright.store import StoreTroubleError, open_installation  # noqa: PLC0415
    from pavewright.store.outside import move_files  # noqa: PLC0415

    if files is None:
        return
    try:
        with closing(open_installation(where, files)) as kept:
            moved = [move_files(kept.store_of(each.id)).files for each in kept.accounts.firms()]
        click.echo(WORDS.moved_out(files=sum(moved), place=files))
    except StoreTroubleError as problem:
        stop(f"{problem} {WORDS.not_moved}")


@click.command("drill")
@click.argument("backup", type=click.Path(path_type=Path))
@click.option("--database", help="Empty database of a server to try it in; else a folder that is deleted afterwards.")
@PASSPHRASE_FILE
def drill_command(backup: Path, database: str | None, passphrase_file: Path | None) -> None:
    """Bring a whole BACKUP back into an empty place and compare every table and file; nothing of it stays.

    Prints rows and files of each table of each firm with their hashes. Exit code 1: something came back otherwise than
    it was copied; 2: BACKUP cannot be read or brought back.

    \b
    Example: pavewright drill pavewright-2027-05-04-1830.zip
             pavewright drill monday.locked --passphrase-file backup-passphrase.txt
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import StoreTroubleError  # noqa: PLC0415
    from pavewright.store.whole import drill  # noqa: PLC0415

    try:
        found = drill(backup, passphrase_of(backup, passphrase_file), database)
    except StoreTroubleError as problem:
        stop(str(problem))
    else:
        _tell_drill(found)


def _tell_drill(found: Drilled) -> None:
    firms = ["", *found.manifest.firms]
    click.echo(WORDS.copy_of(made=found.manifest.made, program=found.manifest.program, firms=len(firms) - 1))
    for each in found.tables:
        if each.copied.rows or not each.same:
            of = WORDS.installation if not each.copied.firm else WORDS.firm(number=firms.index(each.copied.firm))
            mark = WORDS.same if each.same else WORDS.differs
            told = WORDS.table(mark=mark, of=of, table=each.copied.table, rows=each.found.rows, copied=each.copied.rows)
            of_files = WORDS.files(files=each.files, size=_mb(each.bytes)) if each.copied.files else ""
            click.echo(f"{told}{of_files}  {each.found.sha256}")
    if not found.same:
        click.echo(WORDS.drill_failed, err=True)
        raise SystemExit(1)
    rows, files = sum(each.found.rows for each in found.tables), sum(each.files for each in found.tables)
    click.echo(WORDS.drill_held(tables=len(found.tables), rows=rows, files=files))


def _mb(size_bytes: int) -> str:
    return f"{size_bytes / _MB:.1f}"


def _stamp() -> str:
    return f"pavewright-{dt.datetime.now(dt.UTC):%Y-%m-%d-%H%M%S}"


def _told(contents: Contents) -> str:
    """Return how much a store holds, in words."""
    counts = (("job", contents.jobs), ("revision", contents.revisions), ("photo", contents.photos))
    jobs, revisions, photos = (f"{count} {word}{'' if count == 1 else 's'}" for word, count in counts)
    return f"{jobs}, {revisions} and {photos}"


def _given(file: Path | None) -> str | None:
    """Return the passphrase of a file or of the environment; None where there is none."""
    if file is not None:
        return file.read_text("utf-8-sig", "replace").partition("\n")[0].strip("\r")
    return os.environ.get(PASSPHRASE) or None


def _new_passphrase(file: Path | None) -> str:
    found = _given(file)
    if found is None:
        found = str(click.prompt(WORDS.lock_by, hide_input=True, confirmation_prompt=True, err=True))
    if len(found) < _SHORTEST:
        stop(WORDS.short(signs=_SHORTEST))
    return found


def passphrase_of(backup: Path, file: Path | None) -> str | None:
    from pavewright.store.whole import needs_passphrase  # noqa: PLC0415

    if not needs_passphrase(backup):
        return None
    found = _given(file)
    return str(click.prompt(WORDS.open_by, hide_input=True, err=True)) if found is None else found
