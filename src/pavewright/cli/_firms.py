"""The commands of firms: those of an installation, one more, and all that is kept of one in open formats."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from pavewright.cli._people_opened import REPLACE, TARGET, firm_called, opened, refuse, tell_out
from pavewright.cli._where import DATA

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.store import Firm, Installation


@click.group("firms")
def firms_command() -> None:
    """Show the firms of an installation, or enter one more: nothing of one is seen in another.

    \b
    Example: pavewright firms add "Kerb and Sons"
    """  # noqa: D301 - the sign keeps click from joining lines


@firms_command.command("add")
@click.argument("name")
@DATA
def add_firm_command(name: str, data: Path | None) -> None:
    """Enter one more firm called NAME.

    Exit code 2: there is a firm of that name already, or the name is empty.

    \b
    Example: pavewright firms add "Kerb and Sons"
    """  # noqa: D301 - the sign keeps click from joining lines
    name = name.strip()
    if not name:
        refuse("Give the firm a name.")
    installation = opened(data, begin=True)
    try:
        if any(each.name == name for each in installation.accounts.firms()):
            refuse("There is a firm of that name already.")
        installation.accounts.add_firm(name)
    finally:
        installation.close()
    click.echo(f'{name} is entered. Next: pavewright people first-owner NAME --firm "{name}"')


@firms_command.command("list")
@DATA
def list_firms_command(data: Path | None) -> None:
    """Print the firms, the first one first.

    \b
    Example: pavewright firms list
    """  # noqa: D301 - the sign keeps click from joining lines
    installation = opened(data)
    try:
        for each in installation.accounts.firms():
            click.echo(f"{each.name or '(the first firm, without a name)'}: {_count(installation, each)}")
    finally:
        installation.close()


@firms_command.command("export")
@click.argument("name", required=False, default="")
@TARGET
@REPLACE
@DATA
def export_firm_command(name: str, target: Path, data: Path | None, *, replace: bool) -> None:
    """Write all that is kept of the firm NAME, or of the first one, into one zip file in open formats, without secrets.

    Its README.txt says what stands in it and what is left out. It is no backup: nothing is brought back from it. Exit
    code 2: there is no such firm, or the file is there already.

    \b
    Example: pavewright firms export "Kerb and Sons" -o kerb.zip
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.handed_out import hand_out_firm  # noqa: PLC0415 - the quick commands load no database

    installation = opened(data)
    try:
        firm = firm_called(installation, name)
        tell_out(target, lambda: hand_out_firm(installation, firm.id, target, replace=replace))
    finally:
        installation.close()


def _count(installation: Installation, firm: Firm) -> str:
    people = len(installation.accounts.people(firm.id))
    return f"{people} {'person' if people == 1 else 'people'}"
