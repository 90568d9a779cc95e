"""The command that looks for better ways to build a job."""

from __future__ import annotations

import base64
import contextlib
import json
import signal
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

import click

from pavewright import units
from pavewright.cli._asked import FIRM, JOB, QUIET, book_or_stop, tell_faults
from pavewright.cli._engine_asked import EngineAsked, engine_options, engine_or_stop
from pavewright.desk import MOST_PLANS, USUAL_PLANS, BetterAsked, Here, find_better, read_job_file
from pavewright.job import JobInvalid, load_document, parse, to_text, up_to_date
from pavewright.job.operations import apply
from pavewright.proposals import ALL_AIMS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.engine import Engine


@click.command("better")
@JOB
@FIRM
@click.option(
    "--aim",
    "aims",
    multiple=True,
    type=click.Choice([each.value for each in ALL_AIMS]),
    help="What matters; again for more than one. All of it where nothing is named.",
)
@click.option(
    "--plans",
    type=click.IntRange(1, MOST_PLANS),
    default=USUAL_PLANS,
    show_default=True,
    help="How many whole plans are made at most.",
)
@engine_options
@click.option(
    "--kept",
    type=click.Path(dir_okay=False, path_type=Path),
    help="File that keeps what was planned: a search that was stopped goes on where it ended.",
)
@click.option("--take", type=click.IntRange(1), help="Number of the proposal to take.")
@click.option(
    "-o", "--output", type=click.Path(dir_okay=False, path_type=Path), help="File for the job with what is taken."
)
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@QUIET
def better_command(
    job: Path,
    firm: Path | None,
    aims: tuple[str, ...],
    plans: int,
    kept: Path | None,
    take: int | None,
    output: Path | None,
    *,
    asked_engine: EngineAsked,
    as_json: bool,
    quiet: bool,
) -> None:
    """Look for better ways to build a job: whole plans with other starts, sizes, falls, edges and build-ups.

    Shown are the plans that no other one beats in what matters. What others own is never moved. Stop it with Ctrl-C:
    what was found so far is shown.

    \b
    Example: pavewright better examples/l_terrace.json --aim price --aim cuts
             pavewright better my-job.json --firm my-firm.json --take 1 -o better.json
    """  # noqa: D301 - the sign keeps click from joining lines
    if (take is None) is not (output is None):
        message = "Say with --take which one, and with -o where the job with it is to be written."
        raise click.UsageError(message)
    document, book = read_job_file(job), None if firm is None else book_or_stop(firm)
    asked = BetterAsked(tuple(each for each in ALL_AIMS if each.value in aims) or ALL_AIMS, plans)
    try:
        with engine_or_stop(asked_engine) as engine, _Kept(kept) as store:
            here = _Waiting(quiet=quiet).here(engine, store)
            found = find_better(document, book, asked, here)
    except JobInvalid as invalid:
        tell_faults(job, invalid)
    if as_json:
        click.echo(json.dumps(found, indent=1, ensure_ascii=False))
    else:
        for line in better_lines(found):
            click.echo(line)
    if take is not None and output is not None:
        _write(document, found, take, output)


class _Kept:
    """Answers in a file, line by line, each with its key; nothing where no file is named."""

    def __init__(self, path: Path | None) -> None:
        self.done: dict[str, bytes] = {}
        self._path = path
        self._file: Any = None

    def __enter__(self) -> Self:
        if self._path is None:
            return self
        if self._path.exists():
            for line in self._path.read_text("utf-8").splitlines():
                with contextlib.suppress(ValueError):  # a line that was cut short when it was written
                    key, answer = json.loads(line)
                    self.done[key] = base64.b64decode(answer)
        self._file = self._path.open("a", encoding="utf-8")
        return self

    def __exit__(self, *_: object) -> None:
        if self._file is not None:
            self._file.close()

    def keep(self, key: str, answer: bytes) -> None:
        if self._file is not None:
            self._file.write(json.dumps([key, base64.b64encode(answer).decode()]) + "\n")
            self._file.flush()


class _Waiting:
    """Somebody at a terminal, who may stop the search."""

    def __init__(self, *, quiet: bool) -> None:
        self._quiet = quiet
        self._stop = False

    def here(self, engine: Engine, kept: _Kept) -> Here:
        signal.signal(signal.SIGINT, self._halt)
        return Here(engine, self._report, lambda: self._stop, kept.done, kept.keep)

    def _halt(self, *_: object) -> None:
        self._stop = True

    def _report(self, done: int, of: int) -> None:
        if not self._quiet and (done % _EACH == 0 or done == of):
            click.echo(f"… {done} of {of} plans", err=True)


_EACH = 10


def better_lines(found: dict[str, Any]) -> Iterator[str]:
    """Give what was found line by line.

    Args:
        found: It, as the desk gives it.
    """
    ended = "" if found["whole"] else ", stopped before its end"
    yield f"{found['planned']} whole plans{ended}; {len(found['front'])} that no other one beats"
    yield f"     {'price':>14} {'cuts':>6} {'days':>6} {'carbon kg':>12} {'below DPC':>10}"
    yield f"  as {_figures(found['drawn'], found['currency'])}  as drawn"
    for number, row in enumerate(found["front"], 1):
        sign = "*" if found["best"] == number - 1 else " "
        said = "as drawn" if row["is_drawn"] else "; ".join(row["changes"])
        yield f"{sign}{number:>3}. {_figures(row, found['currency'])[1:]}  {said}"
        if row["new_checks"]:
            yield f"      {row['new_checks']} more to look at on site"
    yield found["why"]
    yield from (f"not compared: {words}" for words in found["refused"])
    yield from found["limits"]


def _figures(row: dict[str, Any], currency: str) -> str:
    price = "not known" if row["price_minor"] is None else units.minor_to_text(row["price_minor"], currency)
    price = f"{'> ' if row['price_at_least'] else ''}{price}"
    cut, days = ("?" if row[each] is None else str(row[each]) for each in ("cut", "days"))
    carbon = "not known" if row["carbon_kg"] is None else f"{row['carbon_kg'][0]:.0f}–{row['carbon_kg'][2]:.0f}"
    clear = (
        "no wall" if row["no_wall"] else "not known" if row["clearance_mm"] is None else f"{row['clearance_mm']:.0f}"
    )
    return f" {price:>14} {cut:>6} {days:>6} {carbon:>12} {clear:>10}"


def _write(document: bytes, found: dict[str, Any], take: int, output: Path) -> None:
    if take > len(found["front"]):
        message = f"There are {len(found['front'])} proposals."
        raise click.UsageError(message)
    row = found["front"][take - 1]
    made = apply(up_to_date(load_document(document)), row["operations"]).document
    output.write_text(to_text(parse(made)), encoding="utf-8")
    click.echo(f"wrote {output.name}: {'as drawn' if row['is_drawn'] else '; '.join(row['changes'])}")
