"""The commands of people: the first owner of a firm, a new password, erasing, exporting, and who did what."""

from __future__ import annotations

import datetime as dt
import hashlib
import secrets
from typing import TYPE_CHECKING

import click

from pavewright.cli._people_opened import REPLACE, TARGET, firm_called, opened, refuse, tell_out
from pavewright.cli._people_words import WORDS
from pavewright.cli._where import DATA

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.store import Installation

_INVITATION_DAYS, _PASSWORD_DAYS = 7, 1
_ADDRESS = click.option(
    "--address",
    default="http://localhost:8321",
    show_default=True,
    help="Address at which the pages are reached.",
)
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
        refuse("Give the owner a name.")
    installation = opened(data, begin=True)
    try:
        firm = firm_called(installation, firm_name)
        if any(each.role == "owner" for each in installation.accounts.people(firm.id)):
            refuse("This firm has an owner already: an owner invites others on the page People.")
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
    installation = opened(data)
    try:
        person = installation.accounts.person_called(sign_in)
        if person is None:
            refuse("Nobody signs in by that name.")
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

    installation = opened(data)
    try:
        accounts = installation.accounts
        person = accounts.person_called(sign_in)
        if person is None:
            refuse(WORDS.nobody)
            return
        if not yes:
            click.confirm(WORDS.sure(name=person.name or person.sign_in), abort=True, err=True)
        accounts.erase_person(person.id, keep_one="owner")
        accounts.audit(None, None, "person erased", {"person": person.id}, "command")
        click.echo(WORDS.erased(id=person.id))
        _tell_left(installation, still_named(installation, (person.name, person.sign_in)))
    except LastOneError:
        refuse(WORDS.last_owner)
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


@people_command.command("audit")
@_FIRM
@click.option("--no-firm", is_flag=True, help="What is of no firm alone, such as tries by a name that nobody has.")
@click.option("--last", default=50, show_default=True, type=click.IntRange(1, 10_000), help="How many lines.")
@DATA
def audit_command(firm_name: str, last: int, data: Path | None, *, no_firm: bool) -> None:
    """Print who did what with people, rights and keys, the last first.

    Exit code 2: there is no such firm.

    \b
    Example: pavewright people audit --no-firm
             pavewright people audit --firm "Kerb and Sons" --last 200
    """  # noqa: D301 - the sign keeps click from joining lines
    installation = opened(data)
    try:
        accounts, firm_id = installation.accounts, None if no_firm else firm_called(installation, firm_name).id
        names = accounts.names()
        for each in accounts.audit_entries(firm_id, limit=last):
            who = names.get(each.person_id or "", "") or WORDS.nobody_signed_in
            click.echo(WORDS.audited(at=each.at, code=each.code, who=who, address=each.address or WORDS.no_address))
    finally:
        installation.close()


@people_command.command("export")
@click.argument("sign_in")
@TARGET
@REPLACE
@DATA
def export_person_command(sign_in: str, target: Path, data: Path | None, *, replace: bool) -> None:
    """Write all that is kept of who signs in as SIGN_IN into one zip file, without secrets and without anybody else.

    Its README.txt says what stands in it and what is left out. Exit code 2: nobody signs in by that name, or the file
    is there already.

    \b
    Example: pavewright people export flagg -o flagg.zip
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store.handed_out import hand_out_person  # noqa: PLC0415 - the quick commands load no database

    installation = opened(data)
    try:
        person = installation.accounts.person_called(sign_in)
        if person is None:
            refuse(WORDS.nobody)
            return
        tell_out(target, lambda: hand_out_person(installation, person.id, target, replace=replace))
    finally:
        installation.close()


def _in_days(days: int) -> dt.datetime:
    return dt.datetime.now(dt.UTC) + dt.timedelta(days=days)
