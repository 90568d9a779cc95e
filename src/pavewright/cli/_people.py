"""The commands of people and firms: the first owner of a firm, a new password, one more firm in an installation."""

from __future__ import annotations

import datetime as dt
import hashlib
import secrets
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._people_words import WORDS
from pavewright.cli._stop import UNSOUND
from pavewright.cli._where import DATA, open_kept_installation

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.store import Firm, Installation
    from pavewright.store.handed_out import HandedOut

_INVITATION_DAYS, _PASSWORD_DAYS = 7, 1
_ADDRESS = click.option(
    "--address",
    default="http://localhost:8321",
    show_default=True,
    help="Address at which the pages are reached.",
)
_TARGET = click.option(
    "-o", "--output", "target", type=click.Path(path_type=Path, dir_okay=False), required=True, help="File to write."
)
_REPLACE = click.option("--replace", is_flag=True, help="Write over a file that is there.")
_FIRM = click.option("--firm", "firm_name", default="", help="Name of the firm; the first one where none is given.")


@click.group("people")
def people_command() -> None:
    """Let the first owner of a firm in, or somebody who lost his password, by a link that opens once.

    \b
    Example: pavewright people first-owner "A. Flagg"
             pavewright people new-password flagg
    """  # noqa: D301 - the sign keeps click from joining lines


@people_command.command("first-owner")
@click.argument("name")
@DATA
@_ADDRESS
@_FIRM
def first_owner_command(name: str, data: Path | None, address: str, firm_name: str) -> None:
    """Print a link by which NAME becomes the first owner: from then on everybody signs in.

    A link that was printed before opens nothing from then on.

    Exit code 2: the firm has an owner already, there is no such firm, or NAME is empty.

    \b
    Example: pavewright people first-owner "A. Flagg"
             pavewright people first-owner "B. Kerb" --firm "Kerb and Sons"
    """  # noqa: D301 - the sign keeps click from joining lines
    name = name.strip()
    if not name:
        _refuse("Give the owner a name.")
    installation = _opened(data, begin=True)
    try:
        firm = _firm_called(installation, firm_name)
        if any(each.role == "owner" for each in installation.accounts.people(firm.id)):
            _refuse("This firm has an owner already: an owner invites others on the page People.")
        accounts = installation.accounts
        for earlier in accounts.invitations(firm.id):
            if earlier.role == "owner":
                accounts.withdraw_invitation(firm.id, earlier.id)
        _, token = accounts.invite(firm.id, role="owner", by="", expires=_in_days(_INVITATION_DAYS), name=name)
    finally:
        installation.close()
    click.echo(f"{address.rstrip('/')}/join/{token}")
    click.echo(f"It opens once, within {_INVITATION_DAYS} days.", err=True)


@people_command.command("new-password")
@click.argument("sign_in")
@DATA
@_ADDRESS
def new_password_command(sign_in: str, data: Path | None, address: str) -> None:
    """Print a link by which whoever signs in as SIGN_IN chooses a new password.

    Exit code 2: nobody signs in by that name.

    \b
    Example: pavewright people new-password flagg
    """  # noqa: D301 - the sign keeps click from joining lines
    installation = _opened(data)
    try:
        person = installation.accounts.person_called(sign_in)
        if person is None:
            _refuse("Nobody signs in by that name.")
        else:
            token = secrets.token_urlsafe(32)
            digest = hashlib.sha256(token.encode()).hexdigest()
            installation.accounts.keep_codes(person.id, "reset", (digest,), _in_days(_PASSWORD_DAYS))
            installation.accounts.audit(None, None, "link for a new password", {"person": person.id}, "command")
            click.echo(f"{address.rstrip('/')}/new-password/{token}")
            click.echo("It opens once, within a day.", err=True)
    finally:
        installation.close()


@people_command.command("erase")
@click.argument("sign_in")
@click.option("--yes", is_flag=True, help="Do not ask again.")
@DATA
def erase_command(sign_in: str, data: Path | None, *, yes: bool) -> None:
    """Erase who signs in as SIGN_IN: name, sign-in, password, passkeys, devices and tokens go for good.

    What he did stays provable under an id that says nothing of him. Says where his name still stands in what the firm
    wrote itself. Exit code 2: nobody signs in by that name, or a firm would be left without an owner.

    \b
    Example: pavewright people erase flagg
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import LastOneError, still_named  # noqa: PLC0415 - the quick commands load no database

    installation = _opened(data)
    try:
        accounts = installation.accounts
        person = accounts.person_called(sign_in)
        if person is None:
            _refuse(WORDS.nobody)
            return
        if not yes:
            click.confirm(WORDS.sure(name=person.name or person.sign_in), abort=True, err=True)
        accounts.erase_person(person.id, keep_one="owner")
        accounts.audit(None, None, "person erased", {"person": person.id}, "command")
        click.echo(WORDS.erased(id=person.id))
        _tell_left(installation, still_named(installation, (person.name, person.sign_in)))
    except LastOneError:
        _refuse(WORDS.last_owner)
    finally:
        installation.close()


def _tell_left(installation: Installation, found: dict[tuple[str, str], int]) -> None:
    if not found:
        click.echo(WORDS.nowhere)
        return
    click.echo(WORDS.left)
    names = {firm.id: firm.name or WORDS.first_firm for firm in installation.accounts.firms()}
    for (firm_id, table), rows in found.items():
        click.echo(WORDS.stands(firm=names.get(firm_id, WORDS.installation), table=table, rows=rows))


@people_command.command("export")
@click.argument("sign_in")
@_TARGET
@_REPLACE
@DATA
def export_person_command(sign_in: str, target: Path, data: Path | None, *, replace: bool) -> None:
    """Write all that is kept of who signs in as SIGN_IN into one zip file, without secrets and without anybody else.

    Its README.txt says what stands in it and what is left out. Exit code 2: nobody signs in by that name, or the file
    is there already.

    \b
    Example: pavewright people export flagg -o flagg.zip
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.handed_out import hand_out_person  # noqa: PLC0415 - the quick commands load no database

    installation = _opened(data)
    try:
        person = installation.accounts.person_called(sign_in)
        if person is None:
            _refuse(WORDS.nobody)
            return
        _tell_out(target, lambda: hand_out_person(installation, person.id, target, replace=replace))
    finally:
        installation.close()


def _tell_out(target: Path, make: Callable[[], HandedOut]) -> None:
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        made = make()
    except StoreTroubleError as trouble:
        _refuse(str(trouble))
    else:
        click.echo(WORDS.handed_out(to=str(target), files=made.files, rows=sum(made.rows.values())))


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
        _refuse("Give the firm a name.")
    installation = _opened(data, begin=True)
    try:
        if any(each.name == name for each in installation.accounts.firms()):
            _refuse("There is a firm of that name already.")
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
    installation = _opened(data)
    try:
        for each in installation.accounts.firms():
            click.echo(f"{each.name or '(the first firm, without a name)'}: {_count(installation, each)}")
    finally:
        installation.close()


@firms_command.command("export")
@click.argument("name", required=False, default="")
@_TARGET
@_REPLACE
@DATA
def export_firm_command(name: str, target: Path, data: Path | None, *, replace: bool) -> None:
    """Write all that is kept of the firm NAME, or of the first one, into one zip file in open formats, without secrets.

    Its README.txt says what stands in it and what is left out. It is no backup: nothing is brought back from it. Exit
    code 2: there is no such firm, or the file is there already.

    \b
    Example: pavewright firms export "Kerb and Sons" -o kerb.zip
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.handed_out import hand_out_firm  # noqa: PLC0415 - the quick commands load no database

    installation = _opened(data)
    try:
        firm = _firm_called(installation, name)
        _tell_out(target, lambda: hand_out_firm(installation, firm.id, target, replace=replace))
    finally:
        installation.close()


def _count(installation: Installation, firm: Firm) -> str:
    people = len(installation.accounts.people(firm.id))
    return f"{people} {'person' if people == 1 else 'people'}"


def _opened(data: Path | None, *, begin: bool = False) -> Installation:
    # the database is loaded for these commands only: the others start quicker without it
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        return open_kept_installation(data, begin=begin)
    except StoreTroubleError as trouble:
        _refuse(str(trouble))
        raise


def _firm_called(installation: Installation, name: str) -> Firm:
    """Return a firm by its name, the first one where none is given."""
    firms = installation.accounts.firms()
    found = firms[:1] if not name else [each for each in firms if each.name == name]
    if not found:
        _refuse("There is no firm of that name: pavewright firms list shows them.")
    return found[0]


def _refuse(words: str) -> None:
    click.echo(words, err=True)
    sys.exit(UNSOUND)


def _in_days(days: int) -> dt.datetime:
    return dt.datetime.now(dt.UTC) + dt.timedelta(days=days)
