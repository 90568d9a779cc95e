"""The command that opens the working screens."""

from __future__ import annotations

import shlex
import sys
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import click

from pavewright.cli._where import DATA, DATABASE, FILES, NEW_STORE, files_at, kept_at

if TYPE_CHECKING:
    from pavewright.web import HostName

_FILE = click.Path(path_type=Path, exists=True, dir_okay=False)


@click.command("serve")
@DATA
@click.option("--database", help=f"Database server in place of a file; {DATABASE} says it too.")
@FILES
@click.option("--port", type=click.IntRange(0, 65535), default=8321, show_default=True, help="0 takes a free one.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
@click.option("--on-network", is_flag=True, help="Let phones of this network in, each paired once by a code.")
@click.option("--certificate", type=_FILE, help="Certificate of this machine (PEM), for secure connections.")
@click.option("--private-key", type=_FILE, help="Its key (PEM).")
@click.option("--host-name", "host_names", multiple=True, help="Name by which others call this server; again for more.")
@click.option("--log", type=click.Choice(["json", "plain"]), help="Write a line for each request and each trouble.")
@click.option(
    "--scan-command", help="Program with its options that looks at each file sent, such as one that knows viruses."
)
@click.option("--customers-port", type=click.IntRange(1, 65535), help="Port that answers quotations and nothing else.")
@click.option("--customers-address", help="Address at which customers reach that port from anywhere.")
def serve_command(
    data: Path | None,
    database: str | None,
    files: str | None,
    port: int,
    certificate: Path | None,
    private_key: Path | None,
    host_names: tuple[str, ...],
    log: str | None,
    scan_command: str | None,
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
             pavewright serve --database postgresql://paver@db.example/paving
             pavewright serve --files /srv/paving-files --scan-command "scan-file --quiet"
             pavewright serve --on-network --certificate office.pem --private-key office-key.pem
             pavewright serve --on-network --host-name office.example:443 --certificate office.pem --private-key key.pem
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
    kept = kept_at(data, database)
    if isinstance(kept, Path) and not kept.exists():
        click.echo(NEW_STORE.format(name=kept), err=True)
    try:
        reach = Reach(port, on_network, both, customers, _names_of(host_names))
        serve(
            kept,
            reach,
            browser=not no_browser,
            say=click.echo,
            log=log,
            files=files_at(files),
            scan=_words_of(scan_command),
        )
    except (PortTakenError, CertificateError, StoreTroubleError) as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)


def _names_of(typed: tuple[str, ...]) -> tuple[HostName, ...]:
    """Return the names by which others call this server."""
    from pavewright.web import host_name_in  # noqa: PLC0415 - as the server is

    found = [host_name_in(each) for each in typed]
    for name, each in zip(typed, found, strict=True):
        if each is None:
            message = f"--host-name {name}: give a name such as office.example, or office.example:443 with a port."
            raise click.UsageError(message)
    return tuple(each for each in found if each is not None)


def _words_of(command: str | None) -> tuple[str, ...]:
    """Return a command in its words: no shell ever reads it."""
    try:
        return tuple(shlex.split(command or ""))
    except ValueError as problem:
        message = "--scan-command has a quotation mark that is not closed."
        raise click.UsageError(message) from problem


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
