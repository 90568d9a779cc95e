"""The commands that make the job pack, of a job and of the demo."""

from __future__ import annotations

import difflib
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FIRM, FOLDER, JOB, QUIET, plan_so_far_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import UNSOUND, stop
from pavewright.cli._told import plan_lines
from pavewright.desk import demo_document, make_pack_so_far, make_plan_so_far, photos_in, read_book, write_pack
from pavewright.findings import says_stop
from pavewright.papers import PAPERS, LeftOutReason, PaperKey, PapersTooLargeError, SheetSize, written_where
from pavewright.writing import told

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.papers import PaperPhoto
    from pavewright.pipeline import PlanSoFar


def _keys(_context: click.Context, _option: click.Parameter, value: str | None) -> frozenset[PaperKey] | None:
    """Return the papers that are named, or say which names there are."""
    if value is None:
        return None
    named = [each.strip().lower().replace("-", "_") for each in value.split(",") if each.strip()]
    keys = {kind.key.value for kind in PAPERS}
    strange = [each for each in named if each not in keys]
    if strange or not named:
        near = [found for each in strange for found in difflib.get_close_matches(each, keys, n=1)]
        meant = f" Did you mean {near[0].replace('_', '-')}?" if near else ""
        first = f'There is no paper "{strange[0].replace("_", "-")}".{meant} ' if strange else "No paper is named. "
        listed = ", ".join(dict.fromkeys(kind.key.value.replace("_", "-") for kind in PAPERS))
        message = f"{first}The papers are: {listed}."
        raise click.BadParameter(message)
    return frozenset(PaperKey(each) for each in named)


@click.command("pack")
@JOB
@FOLDER
@FIRM
@click.option(
    "--only",
    callback=_keys,
    metavar="PAPERS",
    help="Make these papers alone, with commas between: --only quotation,orders. A wrong name lists those there are.",
)
@click.option("--text", "twins", is_flag=True, help="Write each document as plain text too, beside its PDF.")
@click.option(
    "--photos",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    help="Folder of photos (JPEG, PNG, WebP) for the handover: their names stand under them, the last by name go in.",
)
@click.option(
    "--drawings",
    type=click.Choice(["a4", "a3"], case_sensitive=False),
    help="Size of the drawings for the customer. a4: no plans on A3 either. Left out: A4, and the plans on A3 beside.",
)
@QUIET
def pack_command(
    job: Path,
    folder: Path,
    firm: Path | None,
    only: frozenset[PaperKey] | None,
    photos: Path | None,
    drawings: str | None,
    *,
    twins: bool,
    quiet: bool,
) -> None:
    """Make the whole job pack: PDFs, drawings, order list, set-out points, programme.

    Papers are written also when a finding says stop; the first page then says so. Of a job that is not whole those
    papers are written that can be made, and the others are listed with what is missing. Exit codes as for plan; 2 also
    where none of the papers that --only names can be made.

    \b
    Example: pavewright pack examples/curved_path.json -o pack
    Example: pavewright pack examples/curved_path.json -o pack --only customer-pack,programme --text
    Example: pavewright pack examples/curved_path.json -o pack --only handover --photos site-photos
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    book = None if firm is None else read_book(firm.read_bytes())
    size = None if drawings is None else SheetSize(drawings.upper())
    _pack(made, folder, _Wish(only, twins, _photos_or_stop(photos), size), quiet=quiet, firm=book)


def _photos_or_stop(folder: Path | None) -> tuple[PaperPhoto, ...]:
    try:
        return () if folder is None else photos_in(folder)
    except OSError as problem:
        stop(f"{folder} cannot be read ({problem.strerror}): choose another folder with --photos.")
        return ()


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
    _pack(made, folder, _Wish(None, twins=False), quiet=quiet)


@dataclass(frozen=True, slots=True)
class _Wish:
    """Which papers are wanted, whether with their text twins, the photos and the size of drawings for them."""

    only: frozenset[PaperKey] | None
    twins: bool
    photos: tuple[PaperPhoto, ...] = ()
    drawings: SheetSize | None = None


def _pack(made: PlanSoFar, folder: Path, wish: _Wish, *, quiet: bool, firm: FirmBook | None = None) -> None:
    try:
        papers, left_out = make_pack_so_far(
            made,
            Progress(quiet),
            firm,
            wish.only,
            twins=wish.twins,
            photos=wish.photos,
            drawings=wish.drawings,
        )
        written = write_pack(papers, folder)
    except OSError as problem:
        stop(f"{folder} cannot be written ({problem.strerror}): choose another folder with -o.")
        return
    except PapersTooLargeError as refusal:
        stop(str(refusal))
        return
    if written:
        click.echo(f"{len(written)} {'paper' if len(written) == 1 else 'papers'} in {folder}:")
    for path in written:
        click.echo(f"  {path.relative_to(folder)}")
    # what a job has nothing for is said to who asked for it by name alone
    unmade = [each for each in left_out if wish.only is not None or each.reason is LeftOutReason.NOT_KNOWN]
    if unmade:
        click.echo("Not made:" if wish.only else "Not made yet:")
    for each in unmade:
        click.echo(f"  {each.name}: {' '.join(each.why)}")
    if not written:
        sys.exit(UNSOUND)
    sys.exit(1 if says_stop(made.findings) else 0)
