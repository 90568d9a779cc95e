"""The commands that quote a job and show what re-pricing changes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FIRM, JOB, QUIET, book_or_stop, tell_faults
from pavewright.cli._progress import Progress
from pavewright.desk import find_repricing, quoted_document, read_job_file, repricing_told
from pavewright.job import JobInvalid
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path
    from typing import Any

_DAY = click.DateTime(("%Y-%m-%d",))


@click.command("quote")
@JOB
@FIRM
@click.option("--on", required=True, type=_DAY, help="Day of the quotation, as year-month-day.")
def quote_command(job: Path, firm: Path | None, on: dt.datetime) -> None:
    """Print a job with the prices of the day put in: it keeps them, whatever the firm's book says later.

    \b
    Example: pavewright quote job.json --firm firm.json --on 2027-04-01 > quoted.json
    """  # noqa: D301 - the sign keeps click from joining lines
    book = None if firm is None else book_or_stop(firm)
    try:
        document = quoted_document(read_job_file(job), book, on.date())
    except JobInvalid as invalid:
        tell_faults(job, invalid)
    click.echo(json.dumps(document, indent=1, ensure_ascii=False))


@click.command("reprice")
@JOB
@FIRM
@click.option("--json", "as_json", is_flag=True, help="Print the changes as JSON.")
@QUIET
def reprice_command(job: Path, firm: Path | None, *, as_json: bool, quiet: bool) -> None:
    """Show line by line what the prices of today would change in a job that was quoted.

    \b
    Example: pavewright reprice quoted.json --firm firm.json
    """  # noqa: D301 - the sign keeps click from joining lines
    book = None if firm is None else book_or_stop(firm)
    content = read_job_file(job)
    try:
        told = repricing_told(find_repricing(content, book, Progress(quiet)))
    except JobInvalid as invalid:
        tell_faults(job, invalid, "a quoted job that can be priced again")
    if as_json:
        click.echo(json.dumps(told, indent=1, ensure_ascii=False))
        return
    currency = json.loads(content)["identity"].get("currency", "GBP")
    for line in _lines(told, currency):
        click.echo(line)


def _lines(told: dict[str, Any], currency: str) -> list[str]:
    """Return what changes, in lines."""
    found = [_line(each, currency) for each in told["lines"]] or ["No line changes."]
    for step in told["steps"]:
        old, new = step["old_minor"], step["new_minor"]
        found.append(f"{step['step'].capitalize():<10}{minor_to_text(old, currency)} -> {minor_to_text(new, currency)}")
    found.append(f"Not in the price: {told['gaps_old']} as quoted, {told['gaps_new']} with the prices of today.")
    return found


def _line(each: dict[str, Any], currency: str) -> str:
    sides = [
        "none" if side is None else f"{side['quantity']:.6g} × {minor_to_text(side['rate_minor'], currency)}"
        for side in (each["old"], each["new"])
    ]
    sign = "+" if each["extra_minor"] >= 0 else "−"
    extra = f"{sign}{minor_to_text(abs(each['extra_minor']), currency)}"
    return f"{extra:>14}  {each['description']}: {sides[0]} -> {sides[1]} {each['unit']}"
