"""The commands that make the job pack, of a job and of the demo."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FIRM, FOLDER, JOB, QUIET, plan_so_far_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import stop
from pavewright.cli._told import plan_lines
from pavewright.desk import demo_document, make_pack_so_far, make_plan_so_far, read_book, write_pack
from pavewright.findings import says_stop
from pavewright.papers import PapersTooLargeError, written_where
from pavewright.writing import told

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.firm import FirmBook
    from pavewright.pipeline import PlanSoFar


@click.command("pack")
@JOB
@FOLDER
@FIRM
@QUIET
def pack_command(job: Path, folder: Path, firm: Path | None, *, quiet: bool) -> None:
    """Make the whole job pack: PDFs, drawings, order list, set-out points, programme.

    Papers are written also when a finding says stop; the first page then says so. Of a job that is not whole those
    papers are written that can be made, and the others are listed with what is missing. Exit codes as for plan.

    \b
    Example: pavewright pack examples/curved_path.json -o pack
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    _pack(made, folder, quiet=quiet, firm=None if firm is None else read_book(firm.read_bytes()))


@click.command("demo")
@FOLDER
@QUIET
def demo_command(folder: Path, *, quiet: bool) -> None:
    """Make the plan and the job pack of an invented terrace.

    \b
    Example: pavewright demo -o demo
    """  # noqa: D301 - the sign keeps click from joining lines
    made = make_plan_so_far(demo_document(), Progress(quiet))
    with written_where(made):
        for line in plan_lines(made):
            click.echo(told(line))
    _pack(made, folder, quiet=quiet)


def _pack(made: PlanSoFar, folder: Path, *, quiet: bool, firm: FirmBook | None = None) -> None:
    try:
        papers, left_out = make_pack_so_far(made, Progress(quiet), firm)
        written = write_pack(papers, folder)
    except OSError as problem:
        stop(f"{folder} cannot be written ({problem.strerror}): choose another folder with -o.")
        return
    except PapersTooLargeError as refusal:
        stop(str(refusal))
        return
    click.echo(f"{len(written)} papers in {folder}:")
    for path in written:
        click.echo(f"  {path.relative_to(folder)}")
    if left_out:
        click.echo("Not made yet:")
    for each in left_out:
        click.echo(f"  {each.name}: {' '.join(each.why)}")
    sys.exit(1 if says_stop(made.findings) else 0)
