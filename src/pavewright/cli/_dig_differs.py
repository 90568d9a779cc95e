"""The command that enters what the dig found."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FIRM, JOB, QUIET, book_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import UNSOUND
from pavewright.desk import AccountRefusedError, dig_step, read_job_file
from pavewright.job import load_document, up_to_date
from pavewright.job.on_site import FoundKind
from pavewright.job.operations import apply

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

_DAY = click.DateTime(("%Y-%m-%d",))


@click.command("dig-differs")
@JOB
@FIRM
@click.option("--kind", type=click.Choice([each.value for each in FoundKind]), required=True, help="What was found.")
@click.option("--name", required=True, help="The same in a few words.")
@click.option("--area", required=True, help="In whose dig.")
@click.option("--depth-mm", type=float, required=True, help="How much deeper, or how thick; below formation, in mm.")
@click.option("--area-m2", type=float, help="How much of the ground it takes up, in m².")
@click.option("--length-mm", type=float, help="Of a drain: how long it is in the dig, in mm.")
@click.option("--new-pipe", is_flag=True, help="Of a drain: that length is laid anew.")
@click.option("--reason", default="", help="What was seen.")
@click.option("--found-by", default="", help="Who found it.")
@click.option("--on", required=True, type=_DAY, help="Day, as year-month-day.")
@click.option("--compare", is_flag=True, help="Print what it adds to price and days, and not the job.")
@QUIET
def dig_differs_command(
    job: Path,
    firm: Path | None,
    on: dt.datetime,
    found_by: str,
    *,
    compare: bool,
    quiet: bool,
    **found: str | float | bool | None,
) -> None:
    """Print a job with what its dig found: in plan, price and days, as a variation where the job was accepted.

    \b
    Example: pavewright dig-differs job.json --kind soft_spot --name Clay --area Drive --depth-mm 300 --area-m2 6 \
--on 2027-05-10 > found.json
    """  # noqa: D301 - the sign keeps click from joining lines
    content = read_job_file(job)
    book = None if firm is None else book_or_stop(firm)
    asked = {**found, "asked_by": found_by, "on": on.date().isoformat()}
    try:
        made = dig_step(content, asked, book, Progress(quiet))
    except AccountRefusedError as refusal:
        click.echo(f"{job.name}: {refusal}", err=True)
        sys.exit(UNSOUND)
    if compare:
        click.echo(json.dumps(made["variation"], indent=1, ensure_ascii=False))
        return
    document = apply(up_to_date(load_document(content)), made["operations"]).document
    click.echo(json.dumps(document, indent=1, ensure_ascii=False))
