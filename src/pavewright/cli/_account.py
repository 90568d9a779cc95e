"""The commands of the account: show it, record an acceptance, enter and decide variations, bill, credit."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any, NoReturn

import click

from pavewright.cli._asked import FIRM, JOB, QUIET, book_or_stop, tell_faults
from pavewright.cli._progress import Progress
from pavewright.cli._stop import UNSOUND
from pavewright.desk import AccountRefusedError, AccountStep, account_step, account_told, read_job_file
from pavewright.findings import Severity
from pavewright.job import JobInvalid, load_document, up_to_date
from pavewright.job.agreed import AcceptedMeans, VariationCause, VariationState
from pavewright.job.operations import apply
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator
    from pathlib import Path

_STOPS = 1
"""Exit code where a finding says stop."""
_DAY = click.DateTime(("%Y-%m-%d",))
_ON = click.option("--on", required=True, type=_DAY, help="Day, as year-month-day.")
_BILLS = (
    *(AccountStep.STAGE, AccountStep.PART, AccountStep.VARIATION),
    *(AccountStep.FINAL, AccountStep.RETENTION, AccountStep.CREDIT),
)


@click.command("account")
@JOB
@click.option("--json", "as_json", is_flag=True, help="Print the account as JSON.")
def account_command(job: Path, *, as_json: bool) -> None:
    """Show what was agreed, billed, held back, paid and owing in a job that was accepted.

    \b
    Example: pavewright account job.json
    """  # noqa: D301 - the sign keeps click from joining lines
    try:
        told = account_told(read_job_file(job))
    except JobInvalid as invalid:
        tell_faults(job, invalid)
    if as_json:
        click.echo(json.dumps(told, indent=1, ensure_ascii=False))
    else:
        for line in _lines(told):
            click.echo(line)
    if any(each["severity"] == Severity.STOP for each in told["findings"]):
        sys.exit(_STOPS)


def _lines(told: dict[str, Any]) -> Iterator[str]:
    """Give the account in lines."""
    if not told["agreed"]:
        yield "Nothing was accepted yet."

    def row(minor: int, words: str) -> str:
        return f"{minor_to_text(minor, told['currency']):>16}  {words}"

    for line in told["agreed"]:
        yield row(line["gross_minor"], f"{line['kind']}{': ' if line['name'] else ''}{line['name']}")
    yield row(told["agreed_minor"], "agreed in all")
    for line in told["proposed"]:
        yield row(line["gross_minor"], f"not decided: {line['name']}")
    for bill in told["bills"]:
        yield row(bill["gross_minor"], f"bill {bill['number']}, {bill['kind']}, {bill['on']}")
    yield row(told["billed_minor"], "billed, less credits")
    yield row(told["to_bill_minor"], "left to bill")
    yield row(told["held_minor"], "held back")
    yield row(told["paid_minor"], "received")
    yield row(told["owing_minor"], "owing")
    yield "This is the final account." if told["is_final"] else "This is not the final account yet."
    for each in told["findings"]:
        yield f"{each['severity'].upper()}: {each['message']} ({each['place']})"


@click.command("accept")
@JOB
@FIRM
@_ON
@click.option("--by", required=True, help="Who accepted.")
@click.option("--option", "options", multiple=True, help="An option that was taken; may be given several times.")
@click.option("--means", type=click.Choice([each.value for each in AcceptedMeans]), default=AcceptedMeans.PAPER.value)
@QUIET
def accept_command(
    job: Path, firm: Path | None, on: dt.datetime, by: str, options: tuple[str, ...], means: str, *, quiet: bool
) -> None:
    """Print a job with the acceptance of its quotation: the sums stay as they are, whatever prices do later.

    \b
    Example: pavewright accept job.json --by "A. Customer" --on 2027-04-12 > accepted.json
    """  # noqa: D301 - the sign keeps click from joining lines
    _print_step(job, firm, AccountStep.ACCEPT, on, {"by": by, "options": options, "means": means}, quiet=quiet)


@click.command("vary")
@JOB
@FIRM
@_ON
@click.option("--name", required=True, help="What changes, in a few words.")
@click.option("--cause", type=click.Choice([each.value for each in VariationCause]), required=True)
@click.option("--reason", default="", help="The reason in words.")
@click.option("--asked-by", default="", help="Who asked for it.")
@click.option("--before", type=click.Path(exists=True, dir_okay=False), help="The job as it was agreed.")
@click.option("--dig-deeper", nargs=2, type=(str, float), help="An area, and how much deeper it is dug, in mm.")
@QUIET
def vary_command(
    job: Path,
    firm: Path | None,
    on: dt.datetime,
    before: str | None,
    dig_deeper: tuple[str, float] | None,
    *,
    quiet: bool,
    **head: str,
) -> None:
    """Print a job with a variation: what it adds to the job as it was agreed, or an area that is dug deeper.

    \b
    Example: pavewright vary job.json --before agreed.json --name "Wider" --cause asked --on 2027-05-02 > varied.json
    """  # noqa: D301 - the sign keeps click from joining lines
    if (before is None) == (dig_deeper is None):
        _refuse(job, "Give either --before or --dig-deeper.")
    if dig_deeper is not None:
        asked = {**head, "area": dig_deeper[0], "deeper_mm": dig_deeper[1]}
        _print_step(job, firm, AccountStep.DIG_DEEPER, on, asked, quiet=quiet)
        return
    with click.open_file(str(before), encoding="utf-8") as file:
        _print_step(job, firm, AccountStep.VARY, on, {**head, "before": file.read()}, quiet=quiet)


@click.command("decide")
@JOB
@click.argument("number", type=int)
@click.argument("state", type=click.Choice([VariationState.APPROVED.value, VariationState.REFUSED.value]))
@_ON
@click.option("--by", required=True, help="Who decided for the customer.")
def decide_command(job: Path, number: int, state: str, on: dt.datetime, by: str) -> None:
    """Print a job with variation NUMBER approved or refused.

    \b
    Example: pavewright decide job.json 1 approved --by "A. Customer" --on 2027-05-03 > decided.json
    """  # noqa: D301 - the sign keeps click from joining lines
    document = up_to_date(load_document(read_job_file(job)))
    mine = next((each for each in document.get("variations", ()) if each.get("number") == number), None)
    if mine is None:
        _refuse(job, f"There is no variation {number}.")
    mine |= {"state": state, "decided_on": on.date().isoformat(), "decided_by": by}
    click.echo(json.dumps(document, indent=1, ensure_ascii=False))


@click.command("bill")
@JOB
@click.argument("kind", type=click.Choice([each.value for each in _BILLS]))
@_ON
@click.option("--number", type=int, help="Which payment, variation or bill.")
@click.option("--gross-minor", type=int, help="A sum with tax, in the smallest coin.")
@click.option("--words", default="", help="What else to say on it; of a credit note, why.")
def bill_command(
    job: Path, kind: str, on: dt.datetime, number: int | None, gross_minor: int | None, words: str
) -> None:
    """Print a job with the next bill or credit note.

    \b
    Example: pavewright bill job.json stage --number 1 --on 2027-04-14 > billed.json
    """  # noqa: D301 - the sign keeps click from joining lines
    asked = {"number": number, "gross_minor": gross_minor, "words": words}
    _print_step(job, None, AccountStep(kind), on, asked, quiet=True)


def _print_step(
    job: Path, firm: Path | None, step: AccountStep, on: dt.datetime, asked: dict[str, Any], *, quiet: bool
) -> None:
    """Print a job with a step of its account."""
    content = read_job_file(job)
    book = None if firm is None else book_or_stop(firm)
    try:
        found = account_step(content, step, {**asked, "on": on.date().isoformat()}, book, Progress(quiet))
    except AccountRefusedError as refusal:
        _refuse(job, str(refusal))
    document = apply(up_to_date(load_document(content)), found).document
    click.echo(json.dumps(document, indent=1, ensure_ascii=False))


def _refuse(job: Path, words: str) -> NoReturn:
    click.echo(f"{job.name}: {words}", err=True)
    sys.exit(UNSOUND)
