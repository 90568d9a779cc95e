"""The command that opens the working screens."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from pavewright.cli._commands import main


@main.command("serve")
@click.option("--data", type=click.Path(dir_okay=False, path_type=Path), help="File in which jobs are kept.")
@click.option("--port", type=click.IntRange(0, 65535), default=8321, show_default=True, help="0 takes a free one.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
def serve_command(data: Path | None, port: int, *, no_browser: bool) -> None:
    """Open the working screens in the browser, on this machine only.

    Jobs are kept in one file; a new file has the demo in it.

    \b
    Example: pavewright serve
             pavewright serve --data jobs.sqlite --port 8400
    """  # noqa: D301 - the sign keeps click from joining lines
    # the server and the database are loaded for this command only: the others start quicker without them
    from pavewright.web import PortTakenError, serve  # noqa: PLC0415

    try:
        serve(data or Path.home() / ".pavewright" / "jobs.sqlite", port, browser=not no_browser, say=click.echo)
    except PortTakenError as problem:
        click.echo(str(problem), err=True)
        sys.exit(2)
