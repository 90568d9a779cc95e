"""The command that opens the working screens, and those that copy the jobs away and bring them back."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import click

if TYPE_CHECKING:
    from pavewright.store import Contents


_DATA = click.option("--data", type=click.Path(path_type=Path), help="File in which jobs are kept.")


def _store_file(data: Path | None) -> Path:
    return data or Path.home() / ".pavewright" / "jobs.sqlite"


_FILE = click.Path(path_type=Path, exists=True, dir_okay=False)


@click.command("serve")
@_DATA
@click.option("--port", type=click.IntRange(0, 65535), default=8321, show_default=True, help="0 takes a free one.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
@click.option("--on-network", is_flag=True, help="Let phones of this network in, each paired once by a code.")
@click.option("--certificate", type=_FILE, help="Certificate of this machine (PEM), for secure connections.")
@click.option("--private-key", type=_FILE, help="Its key (PEM).")
@click.option("--customers-port", type=click.IntRange(1, 65535), help="Port that answers quotations and nothing else.")
@click.option("--customers-address", help="Address at which customers reach that port from anywhere.")
def serve_command(
    data: Path | None,
    port: int,
    certificate: Path | None,
    private_key: Path | None,
    customers_port: int | None,
    customers_address: str | None,
    *,
    no_browser: bool,
    on_network: bool,
) -> None:
    """Open the working screens in the browser, on this machine only.

    Jobs are kept in one file; the example is one touch away. With --on-network the phones of the crew reach it too:
    each is paired once by a code, and nothing is answered to a device that is not. Only over a secure connection does
    a phone keep the pages for places without signal: docs/phone.md tells how a certificate is made. Customers open
    their quotations by a link: docs/customer-door.md tells how a tunnel leads to a port that answers nothing else.

    \b
    Example: pavewright serve
             pavewright serve --data jobs.sqlite --port 8400
             pavewright serve --on-network --certificate office.pem --private-key office-key.pem
             pavewright serve --customers-port 8322 --customers-address https://quotes.example
    """  # noqa: D301 - the sign keeps click from joining lines
    # the server and the database are loaded for this command only: the others start quicker without them
    from pavewright.store import StoreTroubleError  # noqa: PLC0415
    from pavewright.web import Certificate, CertificateError, ForCustomers, PortTakenError, Reach, serve  # noqa: PLC0415

    if (certificate is None) != (private_key is None):
        message = "--certificate and --private-key go together: give both."
        raise click.UsageError(message)
    customers = ForCustomers(_address_of(customers_port, customers_address), customers_port)
    both = Certificate(certificate, private_key) if certificate is not None and private_key is not None else None
    try:
        serve(_store_file(data), Reach(port, on_network, both, customers), browser=not no_browser, say=click.echo)
    except (PortTakenError, CertificateError, StoreTroubleError) as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)


def _address_of(port: int | None, address: str | None) -> str:
    """Return the address of customers without a slash at its end; the port and the address go together."""
    if (port is None) != (address is None):
        message = "--customers-port and --customers-address go together: give both."
        raise click.UsageError(message)
    found = urlsplit(address or "")
    if address is not None and (
        found.scheme not in {"http", "https"} or not found.netloc or found.path.strip("/") or found.query
    ):
        message = "--customers-address is an address such as https://quotes.example, without anything after it."
        raise click.UsageError(message)
    return (address or "").rstrip("/")


@click.command("backup")
@click.argument("target", required=False, type=click.Path(path_type=Path))
@_DATA
def backup_command(target: Path | None, data: Path | None) -> None:
    """Write a whole copy of all jobs, revisions and photos into TARGET, also while people work.

    Copying the file of the jobs by hand is no backup: what was saved last may not stand in it yet. Nothing is written
    over. Exit code 2: the jobs cannot be read, or the copy cannot be written.

    \b
    Example: pavewright backup
             pavewright backup /media/stick/jobs-monday.sqlite --data jobs.sqlite
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import StoreTroubleError, back_up  # noqa: PLC0415

    store = _store_file(data)
    to = target or Path(f"pavewright-{dt.datetime.now(dt.UTC):%Y-%m-%d-%H%M%S}.sqlite")
    try:
        contents = back_up(store, to)
    except StoreTroubleError as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)
    click.echo(f"{_told(contents)} of {store} copied to {to}, {contents.size_bytes / _MB:.1f} MB.")


_MB = 1 << 20
"""Bytes in a megabyte."""


@click.command("restore")
@click.argument("backup", type=click.Path(path_type=Path))
@_DATA
def restore_command(backup: Path, data: Path | None) -> None:
    """Put BACKUP in the place of the jobs that are kept; those are kept beside it under another name.

    Stop pavewright serve first. Exit code 2: BACKUP is no store of jobs, or the jobs are in use; nothing is changed.

    \b
    Example: pavewright restore pavewright-2027-05-04-1830.sqlite
             pavewright restore /media/stick/jobs-monday.sqlite --data jobs.sqlite
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.store import StoreTroubleError, restore  # noqa: PLC0415

    store = _store_file(data)
    try:
        restored = restore(backup, store)
    except StoreTroubleError as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)
    click.echo(f"{_told(restored.contents)} brought back from {backup} to {store}.")
    if restored.aside is not None:
        click.echo(f"What was kept there before is in {restored.aside}.")


def _told(contents: Contents) -> str:
    """Return how much a store holds, in words."""
    counts = (("job", contents.jobs), ("revision", contents.revisions), ("photo", contents.photos))
    jobs, revisions, photos = (f"{count} {word}{'' if count == 1 else 's'}" for word, count in counts)
    return f"{jobs}, {revisions} and {photos}"
