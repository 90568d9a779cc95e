"""The commands for photos and papers that are kept outside the database."""

from __future__ import annotations

import datetime as dt
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._backup import PASSPHRASE_FILE, passphrase_of
from pavewright.cli._files_words import WORDS
from pavewright.cli._stop import stop
from pavewright.cli._where import DATA, FILES, open_kept_installation

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.store import Store

_MB = 1 << 20
"""Bytes in a megabyte."""


@click.group("files")
def files_command() -> None:
    """See to photos and papers that are kept in a folder or in a store that speaks S3 (docs/database.md).

    \b
    Example: pavewright files check --files /srv/paving-files
    """  # noqa: D301 - the sign keeps click from joining lines


@files_command.command("check")
@DATA
@FILES
def check_command(data: Path | None, files: str | None) -> None:
    """Read every photo and paper that is named and hold it against its hash.

    Exit code 1: one is missing or damaged; its hash is printed.

    \b
    Example: pavewright files check --files s3://paving/files
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.outside import check_files  # noqa: PLC0415 - the quick commands load no database

    whole = True
    with _firms(data, files) as firms:
        for name, store in firms:
            found = check_files(store)
            counts = {"outside": found.outside, "inside": found.inside, "unnamed": found.unnamed}
            lost = {"missing": len(found.missing), "damaged": len(found.damaged)}
            click.echo(WORDS.checked(firm=name, size=_mb(found.outside_bytes), **counts, **lost))
            for digest in found.missing:
                click.echo(WORDS.missing(digest=digest))
            for digest in found.damaged:
                click.echo(WORDS.damaged(digest=digest))
            whole = whole and found.whole
    if not whole:
        raise SystemExit(1)


@files_command.command("sweep")
@DATA
@FILES
@click.option("--after-hours", type=click.FloatRange(0), default=24, show_default=True, help="How long none named it.")
def sweep_command(data: Path | None, files: str | None, after_hours: float) -> None:
    """Delete files that no photo or paper names any more: those that an earlier sweep saw so, long enough ago.

    A server does this by itself. Stores that were put aside when a backup was brought back keep their files.

    \b
    Example: pavewright files sweep --files /srv/paving-files
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.outside import sweep_files  # noqa: PLC0415 - the quick commands load no database

    with _firms(data, files) as firms:
        for name, store in firms:
            found = sweep_files(store, dt.timedelta(hours=after_hours))
            counts = {"held": found.held, "deleted": found.deleted, "waiting": found.waiting}
            click.echo(WORDS.swept(firm=name, size=_mb(found.deleted_bytes), **counts))


@files_command.command("move")
@DATA
@FILES
@click.option("--back", is_flag=True, help="Back into the database.")
def move_command(data: Path | None, files: str | None, *, back: bool) -> None:
    """Move photos and papers that stand in the database to the place of files, one by one, also while people work.

    \b
    Example: pavewright files move --files /srv/paving-files
             pavewright files move --back --files /srv/paving-files
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.outside import move_files  # noqa: PLC0415 - the quick commands load no database

    with _firms(data, files) as firms:
        for name, store in firms:
            found = move_files(store, back=back)
            told = WORDS.moved_back if back else WORDS.moved_out
            click.echo(told(firm=name, files=found.files, size=_mb(found.bytes)))


@files_command.command("mend")
@click.argument("backup", type=click.Path(path_type=Path))
@DATA
@FILES
@PASSPHRASE_FILE
def mend_command(backup: Path, data: Path | None, files: str | None, passphrase_file: Path | None) -> None:
    """Bring missing and damaged photos and papers back out of a whole BACKUP; nothing else is changed.

    Exit code 1: one of them is not in BACKUP.

    \b
    Example: pavewright files mend monday.zip --files /srv/paving-files
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.outside import check_files  # noqa: PLC0415 - the quick commands load no database
    from pavewright.store.whole import mend_files  # noqa: PLC0415

    whole = True
    with _firms(data, files) as firms:
        for name, store in firms:
            found = check_files(store)
            wanted = (*found.missing, *found.damaged)
            mended = mend_files(store, wanted, backup, passphrase_of(backup, passphrase_file)) if wanted else 0
            click.echo(WORDS.mended(firm=name, found=mended, wanted=len(wanted)))
            whole = whole and mended == len(wanted)
    if not whole:
        raise SystemExit(1)


@contextmanager
def _firms(data: Path | None, files: str | None) -> Iterator[Iterator[tuple[str, Store]]]:
    """Give the firms with their names, and stop with a sentence where the store or the place refuses."""
    from pavewright.store import StoreTroubleError  # noqa: PLC0415 - the quick commands load no database

    try:
        with closing(open_kept_installation(data, files=files)) as kept:
            listed = enumerate(kept.accounts.firms(), 1)
            yield ((each.name or WORDS.firm(number=number), kept.store_of(each.id)) for number, each in listed)
    except StoreTroubleError as problem:
        stop(str(problem))


def _mb(size_bytes: int) -> str:
    return f"{size_bytes / _MB:.1f}"
