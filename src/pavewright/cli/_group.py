"""The group of commands: output that every console takes, and a fault of the program that says so."""

from __future__ import annotations

import errno
import sys
import traceback
from pathlib import Path
from typing import Any

import click

FAULT = 3
"""Exit code of a fault of the program."""


class Commands(click.Group):
    """Commands that write UTF-8 and tell a fault of the program from a fault of the job."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - as click has it
        """Run a command.

        A fault of the program is one line that can be reported, and exit code 3: what it says of the job is nothing.
        """
        write_utf8()
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except OSError as problem:
            if problem.errno == errno.EPIPE:
                raise
            click.echo(_line(problem), err=True)
        except Exception as problem:  # noqa: BLE001 - whatever it is, it is ours
            click.echo(_line(problem), err=True)
        sys.exit(FAULT)


def write_utf8() -> None:
    """Let both streams write UTF-8 into files and pipes, and a mark for what a console cannot show."""
    for stream in (sys.stdout, sys.stderr):
        change = getattr(stream, "reconfigure", None)
        if change is not None:
            change(encoding=None if stream.isatty() else "utf-8", errors="replace")


def _line(problem: Exception) -> str:
    """Return what to report of a fault: its kind, its words and the place where it arose."""
    home = str(Path(__file__).parents[1])
    own = [frame for frame in traceback.extract_tb(problem.__traceback__) if frame.filename.startswith(home)]
    at = f"{Path(own[-1].filename).relative_to(home).as_posix()}:{own[-1].lineno}" if own else "an unknown place"
    words = " ".join(str(problem).split())[:200]
    return (
        f"This is a fault of the program, not of your job; nothing was changed. Please report this line: "
        f"{type(problem).__name__} {words!r} at {at}"
    )
