"""The command that searches where to begin the pattern."""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import JOB, QUIET, tell_faults
from pavewright.cli._progress import Progress
from pavewright.cli._told import starts_lines
from pavewright.desk import find_starts, read_job_file
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from pathlib import Path


@click.command("starts")
@JOB
@click.option("--json", "as_json", is_flag=True, help="Print the choices as JSON.")
@QUIET
def starts_command(job: Path, *, as_json: bool, quiet: bool) -> None:
    """Search the best starts of every area: where to begin, how to turn the courses, how wide to make the joints.

    Thousands of starts are counted, the best of them laid and cut. Each choice comes with the fields to write into
    the laying of its area; the job itself is not changed.

    \b
    Example: pavewright starts examples/l_terrace.json
             pavewright starts examples/front_drive.json --json > starts.json
    """  # noqa: D301 - the sign keeps click from joining lines
    try:
        found = find_starts(read_job_file(job), Progress(quiet))
    except JobInvalid as invalid:
        tell_faults(job, invalid)
    if as_json:
        click.echo(json.dumps([dataclasses.asdict(area) for area in found], indent=1, ensure_ascii=False))
        return
    for line in starts_lines(found):
        click.echo(line)
