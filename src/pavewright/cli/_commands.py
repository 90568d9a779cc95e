"""The commands."""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from pavewright import __version__
from pavewright.cli._group import Commands
from pavewright.cli._progress import Progress
from pavewright.cli._told import plan_lines, starts_lines, storm_lines
from pavewright.desk import (
    demo_document,
    film_drawing,
    find_starts,
    job_schema,
    make_pack,
    make_plan,
    read_job_file,
    run_storm_on,
    write_pack,
)
from pavewright.findings import says_stop
from pavewright.job import JobInvalid
from pavewright.papers import PapersTooLargeError, plan_json
from pavewright.water import StormRefusedError

if TYPE_CHECKING:
    from pavewright.pipeline import Plan

_UNSOUND = 2


@click.group(cls=Commands)
@click.version_option(__version__, prog_name="pavewright")
def main() -> None:
    """From a contractor's readings to a plan that can be trusted."""


def stop(words: str) -> None:
    click.echo(words, err=True)
    sys.exit(_UNSOUND)


_QUIET = click.option("--quiet", is_flag=True, help="No progress lines.")
_FOLDER = click.option(
    "-o", "--output", "folder", required=True, type=click.Path(file_okay=False, path_type=Path), help="Folder to fill."
)
_JOB = click.argument("job", type=click.Path(path_type=Path))


@main.command("plan")
@_JOB
@click.option("--json", "as_json", is_flag=True, help="Print the whole plan as JSON.")
@_QUIET
def plan_command(job: Path, *, as_json: bool, quiet: bool) -> None:
    """Work out the plan of a job and print headline figures and findings.

    Exit code 0: clean. 1: a finding says stop. 2: the document is not a job.

    \b
    Example: pavewright plan examples/front_drive.json
             pavewright plan examples/front_drive.json --json > plan.json
    """  # noqa: D301 - the sign keeps click from joining lines
    made = _plan_or_stop(job, quiet=quiet)
    if as_json:
        click.echo(plan_json(made).decode("utf-8"), nl=False)
    else:
        for line in plan_lines(made):
            click.echo(line)
    sys.exit(1 if says_stop(made.findings) else 0)


@main.command("storm")
@_JOB
@click.option("--rain", "rain_mm_per_h", type=float, default=None, help="Rain in mm/h; else the design rain.")
@click.option("--minutes", "rain_min", type=float, default=10.0, show_default=True, help="How long it rains.")
@click.option("--cell", "cell_mm", type=float, default=100.0, show_default=True, help="Side of the cells in mm.")
@click.option("-o", "--output", "drawing", type=click.Path(dir_okay=False, path_type=Path), help="Map of depths, SVG.")
@_QUIET
def storm_command(
    job: Path, *, rain_mm_per_h: float | None, rain_min: float, cell_mm: float, drawing: Path | None, quiet: bool
) -> None:
    """Let a storm run over the finished paving: flows, films and how soon it is clear, as bands.

    \b
    Example: pavewright storm examples/l_terrace.json --rain 75
             pavewright storm examples/gully_yard.json --cell 50 --minutes 5 -o film.svg
    """  # noqa: D301 - the sign keeps click from joining lines
    made = _plan_or_stop(job, quiet=quiet)
    try:
        storms = run_storm_on(made, rain_mm_per_h, rain_min, cell_mm, Progress(quiet))
    except StormRefusedError as problem:
        stop(str(problem))
        return
    for line in storm_lines(storms):
        click.echo(line)
    if drawing is not None:
        try:
            drawing.write_text(film_drawing(made, storms), "utf-8")
        except OSError as problem:
            stop(f"{drawing} cannot be written ({problem.strerror}): choose another file with -o.")


@main.command("starts")
@_JOB
@click.option("--json", "as_json", is_flag=True, help="Print the choices as JSON.")
@_QUIET
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
        _tell_faults(job, invalid)
    if as_json:
        click.echo(json.dumps([dataclasses.asdict(area) for area in found], indent=1, ensure_ascii=False))
        return
    for line in starts_lines(found):
        click.echo(line)


@main.command("pack")
@_JOB
@_FOLDER
@_QUIET
def pack_command(job: Path, folder: Path, *, quiet: bool) -> None:
    """Make the whole job pack: PDFs, drawings, order list, set-out points, programme.

    Papers are written also when a finding says stop; the first page then says so. Exit codes as for plan.

    \b
    Example: pavewright pack examples/curved_path.json -o pack
    """  # noqa: D301 - the sign keeps click from joining lines
    _pack(_plan_or_stop(job, quiet=quiet), folder, quiet=quiet)


@main.command("demo")
@_FOLDER
@_QUIET
def demo_command(folder: Path, *, quiet: bool) -> None:
    """Make the plan and the job pack of an invented terrace.

    \b
    Example: pavewright demo -o demo
    """  # noqa: D301 - the sign keeps click from joining lines
    made = make_plan(demo_document(), Progress(quiet))
    for line in plan_lines(made):
        click.echo(line)
    _pack(made, folder, quiet=quiet)


def _plan_or_stop(path: Path, *, quiet: bool) -> Plan:
    """Return the plan of a file, or tell every fault and leave with exit code 2."""
    try:
        return make_plan(read_job_file(path), Progress(quiet))
    except JobInvalid as invalid:
        _tell_faults(path, invalid)


def _tell_faults(path: Path, invalid: JobInvalid) -> NoReturn:
    """Tell every fault of a document and leave."""
    click.echo(f"{path.name} is not a job that can be planned:", err=True)
    for fault in invalid.faults:
        click.echo(f"  {f'{fault.path}: ' if fault.path else ''}{fault.message}", err=True)
    sys.exit(_UNSOUND)


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


@main.command("schema")
def schema_command() -> None:
    """Print the JSON Schema of the job document.

    Example: pavewright schema > job-schema.json
    """
    click.echo(json.dumps(job_schema(), indent=1, ensure_ascii=False))
