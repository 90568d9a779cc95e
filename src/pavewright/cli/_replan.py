"""The command that plans every open job again."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import click

from pavewright.cli._engine_asked import EngineAsked, engine_options, engine_or_stop
from pavewright.cli._stop import UNSOUND
from pavewright.cli._where import DATA, open_kept

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.desk import Replan
    from pavewright.engine import Engine, Progress
    from pavewright.store import Run

_OF = ("prices", "outputs", "edition", "all")
_STATES = ("enquiry", "visit", "quoted", "accepted", "planned", "on_site", "snagging", "paid", "watched")


@click.command("replan")
@DATA
@click.option("--of", type=click.Choice(_OF), default="all", show_default=True, help="What changed.")
@click.option("--since", type=click.IntRange(1), help="Revision of the book before the change.")
@click.option("--state", "states", multiple=True, type=click.Choice(_STATES), help="Only jobs in this state.")
@engine_options
@click.option("--json", "form", flag_value="json", help="Print all of it as JSON.")
@click.option("--csv", "form", flag_value="csv", help="Print a table.")
@click.option("--quiet", is_flag=True, help="No progress lines.")
def replan_command(
    *,
    data: Path | None,
    of: str,
    since: int | None,
    states: tuple[str, ...],
    asked_engine: EngineAsked,
    form: str | None,
    quiet: bool,
) -> None:
    """Plan every open job again after a change, and show what it does to each: no job is changed.

    A run that was stopped goes on where it was left. Exit code 1: a job cannot be planned. Exit code 2: the jobs or the
    cluster cannot be reached.

    \b
    Example: pavewright replan --of prices
             pavewright replan --cluster tcp://127.0.0.1:8786 --csv > changes.csv
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.desk import Of, Replan, ReplanQuestion, replan_rows  # noqa: PLC0415 - loading takes its time
    from pavewright.desk._replan_question import STATES  # noqa: PLC0415
    from pavewright.job.standing import JobState  # noqa: PLC0415
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    wanted = frozenset(JobState(each) for each in states) or STATES
    try:
        store = open_kept(data)
        try:
            with engine_or_stop(asked_engine) as engine:
                replan = Replan(store, ReplanQuestion(Of(of), since, wanted))
                run = _done(replan, engine, quiet=quiet)
            rows = replan_rows(store, run.id)
        finally:
            store.close()
    except StoreTroubleError as trouble:
        _stop(str(trouble))
    _show(rows, form)
    sys.exit(any(each["standing"] in {"no_plan", "failed"} for each in rows))


def _done(replan: Replan, engine: Engine, *, quiet: bool) -> Run:
    told = [-1]

    def report(progress: Progress) -> None:
        if not quiet and progress.done // 10 != told[0] and progress.done:
            told[0] = progress.done // 10
            click.echo(f"… {progress.done} planned, {progress.failed} failed", err=True)

    run = replan.begin()
    if run.done and not quiet:
        click.echo(f"… goes on where it was left: {run.done} of {run.pieces} jobs are done", err=True)
    replan.do(run, engine, report)
    counts = replan.counts
    if not quiet:
        words = (
            f"… {counts.jobs} jobs: {counts.planned} plans made, {counts.kept + counts.twins} known without making them"
        )
        click.echo(words, err=True)
    return run


def _show(rows: list[dict[str, object]], form: str | None) -> None:
    from pavewright.desk import replan_csv, replan_told  # noqa: PLC0415

    if form == "json":
        click.echo(json.dumps(rows, indent=1, ensure_ascii=False))
        return
    if form == "csv":
        sys.stdout.buffer.write(replan_csv(rows))
        return
    for row in replan_told(rows):
        click.echo(f"{row['title'] or row['job_id']}: {row['headline']}")
        for each in row["details"]:
            click.echo(f"    {each}")
    if not rows:
        click.echo("No job is in one of these states.")


def _stop(words: str) -> None:
    click.echo(words, err=True)
    sys.exit(UNSOUND)
