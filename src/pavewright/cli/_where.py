"""Where jobs are kept: in a file of this machine, or by a database server."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn
from urllib.parse import parse_qs, urlsplit

import click

if TYPE_CHECKING:
    from pavewright.store import Installation, Store

DATABASE = "PAVEWRIGHT_DATABASE"
"""What the environment calls the address of a database server: its password then stands on no command line."""
NEW_STORE = "A new store of jobs is made in {name}: nothing was kept there before."
"""What is said where a command makes a store."""
DATABASE_FILE = "PAVEWRIGHT_DATABASE_FILE"
"""What the environment calls a file that holds that address, as a secret of a container or of systemd is given."""
PASSWORD_SEEN = (
    f"The password of the database stands on the command line, where others of this machine read it: "
    f"put the address into a file and name that in {DATABASE_FILE}."
)
"""What is said where somebody gives a password on the command line."""
DATA = click.option("--data", type=click.Path(path_type=Path), help="File in which jobs are kept.")
PLACE_OF_FILES = "PAVEWRIGHT_FILES"
"""What the environment calls the place of photos and papers."""
FILES = click.option(
    "--files", help=f"Folder or s3://BUCKET/PREFIX for photos and papers; {PLACE_OF_FILES} says it too. [the database]"
)


def files_at(files: str | None) -> str | None:
    """Return where photos and papers are kept; None for the database itself.

    Args:
        files: The place that the command names; None where it names none.
    """
    return files or os.environ.get(PLACE_OF_FILES) or None


def kept_at(data: Path | None, database: str | None = None) -> Path | str:
    """Return where jobs are kept: the file or the server that is named, the one of the environment, else the own file.

    Args:
        data: The file that the command names; None where it names none.
        database: The address of the server that the command names; None where it names none.
    """
    if data is not None and database is not None:
        message = "--data names a file and --database a server: give one of them."
        raise click.UsageError(message)
    if data is not None:
        return data
    if database is not None and _holds_password(database):
        click.echo(PASSWORD_SEEN, err=True)
    address = database or os.environ.get(DATABASE) or _address_in_file()
    if address and "://" not in address:
        _refuse("NO_ADDRESS", "What was given")  # it may hold a password
    return address or Path.home() / ".pavewright" / "jobs.sqlite"


def _holds_password(address: str) -> bool:
    """Return whether an address of a database holds a password, before the host or among its settings."""
    try:
        parts = urlsplit(address)
    except ValueError:
        return False
    return bool(parts.password) or "password" in parse_qs(parts.query)


def _address_in_file() -> str | None:
    """Return the address that the file named in the environment holds; None where none is named."""
    named = os.environ.get(DATABASE_FILE)
    if not named:
        return None
    try:
        return Path(named).read_text("utf-8").strip() or _refuse("NO_ADDRESS", f"The file of {DATABASE_FILE}")
    except (OSError, UnicodeDecodeError):
        _refuse("MISSING", f"file of {DATABASE_FILE} that can be read")


def open_kept(data: Path | None, *, begin: bool = False) -> Store:
    """Return the store of the first firm, opened.

    Args:
        data: The file that the command names; None where it names none.
        begin: Whether a new store is made where there is none.

    Raises:
        StoreTroubleError: it is not there or no store, or cannot be opened or written.
    """
    return open_kept_installation(data, begin=begin).first


def open_kept_installation(data: Path | None, *, begin: bool = False, files: str | None = None) -> Installation:
    """Return the firms and their people, opened.

    Args:
        data: The file that the command names; None where it names none.
        begin: Whether a new store is made where there is none, which is said then.
        files: The place of photos and papers that the command names; None where it names none.

    Raises:
        StoreTroubleError: it is not there or no store, or cannot be opened or written.
    """
    # the quick commands load no database
    from pavewright.store import StoreTroubleError, Trouble, open_installation  # noqa: PLC0415

    kept = kept_at(data)
    if isinstance(kept, Path) and not kept.exists():
        if not begin:
            raise StoreTroubleError(Trouble.NO_STORE, str(kept))
        click.echo(NEW_STORE.format(name=kept), err=True)
    return open_installation(kept, files_at(files))


def _refuse(trouble: str, name: str) -> NoReturn:
    from pavewright.store import StoreTroubleError, Trouble  # noqa: PLC0415 - the quick commands load no database

    click.echo(str(StoreTroubleError(Trouble[trouble], name)), err=True)
    sys.exit(2)
