"""The commands of the firm's calendar: show it, let it settle, move a stretch."""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING, Any

import click

from pavewright.cli._asked import QUIET
from pavewright.cli._opened import store_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import stop
from pavewright.cli._where import DATA
from pavewright.desk import (
    CALENDAR_VERBS,
    EMPTY_CALENDAR_TEXT,
    beside_book,
    on_calendar,
    read_calendar,
)

if TYPE_CHECKING:
    from pathlib import Path

    from pavewright.store import Store

_TODAY = click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    default=None,
    help="The day from which on jobs are placed, as 2027-05-10. [today]",
)

_WEIGHED = (
    ("done", "until the jobs are done"),
    ("late", "after promised days"),
    ("rain", "rain"),
    ("moved", "parts moved"),
    ("changing", "changes of place"),
)
"""What weighs in a calendar, in the order in which it is said."""


@click.group("calendar")
def calendar_command() -> None:
    """Show the calendar of the firm, let it settle, or move a part of a job.

    \b
    Example: pavewright calendar show --data jobs.sqlite
             pavewright calendar solve --keep
             pavewright calendar move JOB 1 2027-05-10
    """  # noqa: D301 - the sign keeps click from joining lines


@calendar_command.command("show")
@DATA
@_TODAY
@QUIET
def show_command(data: Path | None, today: dt.datetime | None, *, quiet: bool) -> None:
    """Show who is where on which day, what has no place, and what breaks."""
    with store_or_stop(data) as store:
        at_hand = _AtHand(store, today, Progress(quiet))
        told = at_hand.ask("calendar_told", {})
        names = {each["id"]: each["name"] for each in told["people"]}
        for booking in at_hand.document.bookings:
            for day in booking.days:
                crew = ", ".join(names.get(each, each) for each in day.crew)
                click.echo(f"{day.on}  {at_hand.title(booking.job)}, part {booking.stretch + 1}: {crew}")
        if not (at_hand.document.bookings or told["not_placed"] or told["broken"]):
            click.echo("Nothing stands on the calendar.")
        for each in told["not_placed"]:
            click.echo(f"No place  {at_hand.title(each['job'])}: {' '.join(each['missing']) or 'not arranged yet'}")
        for each in told["broken"]:
            click.echo(f"{'Look' if each['soft'] else 'Breaks'}  {at_hand.title(each['job'])}: {each['words']}")


@calendar_command.command("solve")
@DATA
@_TODAY
@click.option("--keep", is_flag=True, help="Keep the result.")
@QUIET
def solve_command(data: Path | None, today: dt.datetime | None, *, keep: bool, quiet: bool) -> None:
    """Let the calendar settle round what is pinned, and say how good it is at the least."""
    with store_or_stop(data) as store:
        at_hand = _AtHand(store, today, Progress(quiet))
        told = at_hand.ask("calendar_arrange", {})
        click.echo(
            f"{told['job_days']:.1f} job-days; none is below {told['bound_job_days']:.1f}: "
            f"gap {told['gap_percent']:.1f} %"
        )
        weighed = told["weighed"]
        for name, words in _WEIGHED:
            if weighed[name]:
                click.echo(f"of these {words}: {weighed[name]:.1f}")
        if weighed["place_changes"]:
            click.echo(f"changes of place: {weighed['place_changes']}")
        if weighed["travel_min"]:
            click.echo(f"minutes on the way, the same in every calendar of these jobs: {weighed['travel_min']}")
        for each in told["not_placed"]:
            click.echo(f"No place  {at_hand.title(each['job'])}: {each['words']}")
        if keep:
            at_hand.keep(told["document"], "settled")


@calendar_command.command("move")
@DATA
@_TODAY
@click.argument("job")
@click.argument("part", type=click.IntRange(min=1))
@click.argument("to", type=click.DateTime(["%Y-%m-%d"]), metavar="TO")
@click.option("--keep", is_flag=True, help="Keep the result.")
@QUIET
def move_command(
    data: Path | None, today: dt.datetime | None, job: str, part: int, to: dt.datetime, *, keep: bool, quiet: bool
) -> None:
    """Move PART of JOB so that it begins on TO, as 2027-05-10, and say what breaks and what it costs."""
    with store_or_stop(data) as store:
        at_hand = _AtHand(store, today, Progress(quiet))
        told = at_hand.ask("calendar_move", {"job": job, "stretch": part - 1, "to": to.date().isoformat()})
        click.echo(told["shift_words"] or "It stands there already.")
        for each in told["broken"]:
            click.echo(f"{'Look' if each['soft'] else 'Breaks'}  {at_hand.title(each['job'])}: {each['words']}")
        for name, words in (
            ("late_days", "days late"),
            ("idle_days", "idle days"),
            ("travel_min", "minutes on the way, where entered"),
            ("place_changes", "changes of place"),
        ):
            click.echo(f"{words}: {told['before'][name]} -> {told['after'][name]}")
        sums = [{each["currency"]: each["known_minor"] for each in told[when]["sums"]} for when in ("before", "after")]
        for currency in sorted({*sums[0], *sums[1]}):
            was, now = (each.get(currency, 0) for each in sums)
            click.echo(f"minor units of {currency or 'no named currency'} known: {was} -> {now}")
        if told["after"]["travel_unknown"]:
            click.echo(f"the way to {len(told['after']['travel_unknown'])} jobs is not entered: it is not counted")
        if keep:
            at_hand.keep(told["document"], "moved")


class _AtHand:
    """The jobs of a file and its calendar."""

    def __init__(self, store: Store, today: dt.datetime | None, progress: Progress) -> None:
        self._store = store
        self._progress = progress
        self._today = (dt.datetime.now(dt.UTC).astimezone() if today is None else today).date().isoformat()
        self._book = self._store.firm.book().document.encode()
        kept = self._store.calendar.standing()
        self._rev = kept.rev
        self.document = read_calendar(kept.document)
        self._plain: dict[str, Any] = json.loads(kept.document or EMPTY_CALENDAR_TEXT)
        needs = {}
        for row in self._store.jobs():
            progress(row.title)
            payload = self._today.encode() + b"\n" + self._store.job(row.id).document.encode()
            needs[row.id] = self._verb("calendar_needs", payload)
        self._needs = on_calendar(self.document, needs)
        self._titles = {name: need["title"] or name for name, need in needs.items()}

    def title(self, job: str) -> str:
        return str(self._titles.get(job, job))

    def _verb(self, name: str, payload: bytes) -> dict[str, Any]:
        from pavewright.desk import SCREEN_VERBS, ScreenRefusalError  # noqa: PLC0415 - the same

        assert name in CALENDAR_VERBS  # noqa: S101 - written here
        try:
            told: dict[str, Any] = json.loads(SCREEN_VERBS[name](beside_book(self._book, payload), self._progress))
        except ScreenRefusalError as refusal:
            stop(str(refusal))
            raise
        return told

    def ask(self, verb: str, more: dict[str, Any]) -> dict[str, Any]:
        asked = {"calendar": self._plain, "needs": self._needs, "today": self._today} | more
        return self._verb(verb, json.dumps(asked).encode())

    def keep(self, document: str, note: str) -> None:
        rev = self._store.calendar.save(self._rev, document, note)
        click.echo(f"Kept as revision {rev}.")
