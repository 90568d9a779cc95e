"""What several commands ask for and say: the job, the folder, and words for what cannot be planned."""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from pavewright.cli._progress import Progress
from pavewright.cli._stop import UNSOUND
from pavewright.desk import make_plan, make_plan_so_far, read_book, read_job_file
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from pavewright.pipeline import Plan, PlanSoFar

QUIET = click.option("--quiet", is_flag=True, help="No progress lines.")
FOLDER = click.option(
    "-o", "--output", "folder", required=True, type=click.Path(file_okay=False, path_type=Path), help="Folder to fill."
)
FIRM = click.option(
    "--firm",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="The firm's book: what the job leaves out comes from it.",
)
JOB = click.argument("job", type=click.Path(path_type=Path))

_SELDOM = 100_000
"""New things after which Python looks for garbage among them."""


def plan_or_stop(path: Path, *, quiet: bool) -> Plan:
    """Return the whole plan of a file, or tell every fault and leave with exit code 2."""
    _look_for_garbage_seldom()
    try:
        return make_plan(read_job_file(path), Progress(quiet))
    except JobInvalid as invalid:
        tell_faults(path, invalid)


def _look_for_garbage_seldom() -> None:
    """What is loaded stays, and a command makes one plan: looking for garbage takes half of its time."""
    gc.freeze()
    gc.set_threshold(_SELDOM)


def plan_so_far_or_stop(path: Path, *, quiet: bool, firm: Path | None = None) -> PlanSoFar:
    """Return the plan of a file as far as it goes; leave with exit code 2 where it is no job or contradicts itself."""
    _look_for_garbage_seldom()
    book = None if firm is None else book_or_stop(firm)
    try:
        made = make_plan_so_far(read_job_file(path), Progress(quiet), book)
    except JobInvalid as invalid:
        tell_faults(path, invalid)
    if made.faults:
        tell_faults(path, JobInvalid(made.faults))
    return made


def book_or_stop(path: Path) -> bytes:
    """Return the document of a firm's book, or tell every fault of it and leave with exit code 2."""
    content = path.read_bytes()
    try:
        read_book(content)
    except JobInvalid as invalid:
        tell_faults(path, invalid, "a firm's book that can be read")
    return content


def tell_faults(path: Path, invalid: JobInvalid, what: str = "a job that can be planned") -> NoReturn:
    """Tell every fault of a document and leave."""
    click.echo(f"{path.name} is not {what}:", err=True)
    for fault in invalid.faults:
        click.echo(f"  {f'{fault.path}: ' if fault.path else ''}{fault.message}", err=True)
    sys.exit(UNSOUND)
