"""What the commands of people and firms share: the installation opened, a firm by its name, a file handed out."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._people_words import WORDS
from pavewright.cli._stop import UNSOUND
from pavewright.cli._where import open_kept_installation

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store import Firm, Installation
    from pavewright.store.handed_out import HandedOut

TARGET = click.option(
    "-o", "--output", "target", type=click.Path(path_type=Path, dir_okay=False), required=True, help="File to write."
)
"""The file to write."""
REPLACE = click.option("--replace", is_flag=True, help="Write over a file that is there.")
"""Whether a file that is there is written over."""


def tell_out(target: Path, make: Callable[[], HandedOut]) -> None:
    """Have a file made and say what stands in it, or refuse with why it could not be."""
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        made = make()
    except StoreTroubleError as trouble:
        refuse(str(trouble))
    else:
        click.echo(WORDS.handed_out(to=str(target), files=made.files, rows=sum(made.rows.values())))


def opened(data: Path | None, *, begin: bool = False) -> Installation:
    """Return the installation, or refuse with what is the matter with it."""
    # the database is loaded for these commands only: the others start quicker without it
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        return open_kept_installation(data, begin=begin)
    except StoreTroubleError as trouble:
        refuse(str(trouble))
        raise


def firm_called(installation: Installation, name: str) -> Firm:
    """Return a firm by its name, the first one where none is given."""
    firms = installation.accounts.firms()
    found = firms[:1] if not name else [each for each in firms if each.name == name]
    if not found:
        refuse("There is no firm of that name: pavewright firms list shows them.")
    return found[0]


def refuse(words: str) -> None:
    """Say why nothing was done, and end the command."""
    click.echo(words, err=True)
    sys.exit(UNSOUND)
