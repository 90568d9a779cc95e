"""The commands of the order book: the jobs with how far they are, and what is due."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from pavewright.cli._opened import store_or_stop
from pavewright.cli._where import DATA

if TYPE_CHECKING:
    from pathlib import Path

_STATES = click.Choice(
    [
        *("enquiry", "visit", "quoted", "accepted", "planned", "on_site", "snagging", "paid", "watched"),
        *("lost", "declined"),
    ]
)


@click.command("jobs")
@click.argument("words", nargs=-1)
@click.option("--state", type=_STATES, help="Only jobs that are so far.")
@click.option("--place", help="Only jobs of this place.")
@click.option("--person", default="", help="Only jobs in which this name stands among the people.")
@click.option("--owing", is_flag=True, help="Only jobs with money owing.")
@click.option("--most", type=click.IntRange(1, 10_000), default=100, show_default=True, help="At most so many.")
@DATA
def jobs_command(
    *,
    words: tuple[str, ...],
    state: str | None,
    place: str | None,
    person: str,
    owing: bool,
    most: int,
    data: Path | None,
) -> None:
    """List the jobs with how far they are and why.

    With WORDS those that hold all of them in title, number, client or address.

    \b
    Example: pavewright jobs
             pavewright jobs --state quoted --place "Ashford Green"
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.desk import state_told  # noqa: PLC0415 - loads the database
    from pavewright.order_book import JobState  # noqa: PLC0415
    from pavewright.store import JobsAsked  # noqa: PLC0415

    asked = JobsAsked(
        _today(),
        " ".join(words),
        state=None if state is None else JobState(state),
        place=place,
        person=person,
        owing=owing,
        limit=most,
    )
    with store_or_stop(data) as store:
        page = store.orders.page(asked)
    for one in page.jobs:
        told = None if one.facts is None else state_told(one.facts)
        said = "not worked out yet: open the list of jobs" if told is None else f"{told['words']}. {told['reason']}"
        click.echo(f"{one.row.id}  {one.row.title}: {said}")
    click.echo(f"{len(page.jobs)} of {page.total} jobs")


@click.command("due")
@click.option("--on", "day", type=click.DateTime(["%Y-%m-%d"]), help="The day, as 2027-05-10. [today]")
@click.option("--without-money", is_flag=True, help="Leave out everything about money.")
@DATA
def due_command(*, day: dt.datetime | None, without_money: bool, data: Path | None) -> None:
    """List what is due over all jobs, what is past first.

    \b
    Example: pavewright due
             pavewright due --on 2027-05-10
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.desk import due_told  # noqa: PLC0415 - loads the database
    from pavewright.order_book import due_items  # noqa: PLC0415
    from pavewright.units import minor_to_text  # noqa: PLC0415

    today, money = _today() if day is None else day.date(), not without_money
    with store_or_stop(data) as store:
        items = due_items(store.orders.dues(today), today, money=money)
        behind = len(store.orders.stale(10_000))
    for one in due_told(items, money=money):
        amount = one["amount_minor"]
        sum_of = "" if amount is None else f", {minor_to_text(amount, one['currency'])}"
        click.echo(f"{one['on']}  {one['words']} ({one['title']}), {one['by']}{sum_of}")
    click.echo(f"{len(items)} due" + _not_yet(behind))


def _not_yet(jobs: int) -> str:
    if not jobs:
        return ""
    return f"; {jobs} {'job is' if jobs == 1 else 'jobs are'} not worked out yet"


def _today() -> dt.date:
    return dt.datetime.now(dt.UTC).astimezone().date()
