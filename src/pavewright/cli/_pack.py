"""The commands that make the job pack, of a job and of the demo."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FOLDER, JOB, QUIET, plan_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import stop
from pavewright.cli._told import plan_lines
from pavewright.desk import demo_document, make_pack, make_plan, write_pack
from pavewright.findings import says_stop
from pavewright.papers import PapersTooLargeError

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.pipeline import Plan


@click.command("pack")
@JOB
@FOLDER
@QUIET
def pack_command(job: Path, folder: Path, *, quiet: bool) -> None:
    """Make the whole job pack: PDFs, drawings, order list, set-out points, programme.

    Papers are written also when a finding says stop; the first page then says so. Exit codes as for plan.

    \b
    Example: pavewright pack examples/curved_path.json -o pack
    """  # noqa: D301 - the sign keeps click from joining lines
    _pack(plan_or_stop(job, quiet=quiet), folder, quiet=quiet)


@click.command("demo")
@FOLDER
@QUIET
def demo_command(folder: Path, *, quiet: bool) -> None:
    """Make the plan and the job pack of an invented terrace.

    \b
    Example: pavewright demo -o demo
    """  # noqa: D301 - the sign keeps click from joining lines
    made = make_plan(demo_document(), Progress(quiet))
    for line in plan_lines(made):
        click.echo(line)
    _pack(made, folder, quiet=quiet)


def _pack(made: Plan, folder: Path, *, quiet: bool) -> None:
    try:
        written = write_pack(make_pack(made, Progress(quiet)), folder)
    except OSError as problem:
        stop(f"{folder} cannot be written ({problem.strerror}): choose another folder with -o.")
        return
    except PapersTooLargeError as refusal:
        stop(str(refusal))
        return
    click.echo(f"{len(written)} papers in {folder}:")
    for path in written:
        click.echo(f"  {path.relative_to(folder)}")
    sys.exit(1 if says_stop(made.findings) else 0)
