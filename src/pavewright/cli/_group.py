"""The group of commands: each is loaded when asked for; output for every console; a fault of the program says so."""

from __future__ import annotations

import errno
import gc
import sys
import traceback
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

import click

FAULT = 3
"""Exit code of a fault of the program."""


_SWEEPS = (20_000, 20, 50)
"""How seldom memory is swept for rings of objects: loading the rooms makes many objects and hardly any ring."""


class Place(NamedTuple):
    """Where a command stands, and the line that the list of commands shows for it.

    Attributes:
        module: Module of this door, without its name.
        function: Name of the command in it.
        line: First sentence of its help.
    """

    module: str
    function: str
    line: str


PLACES = {
    "accept": Place(
        "_account",
        "accept_command",
        "Print a job with the acceptance of its quotation: the sums stay as they are, whatever prices do later.",
    ),
    "account": Place(
        "_account",
        "account_command",
        "Show what was agreed, billed, held back, paid and owing in a job that was accepted.",
    ),
    "backup": Place(
        "_backup",
        "backup_command",
        "Write a whole copy of all jobs, revisions and photos into TARGET, also while people work.",
    ),
    "bill": Place("_account", "bill_command", "Print a job with the next bill or credit note."),
    "better": Place(
        "_better",
        "better_command",
        "Look for better ways to build a job: whole plans with other starts, sizes, falls, edges and build-ups.",
    ),
    "build-ups": Place(
        "_build_ups",
        "build_ups_command",
        "Compare the build-ups that a job could have: dig, price, mass, days, carbon, and what published rules say.",
    ),
    "calendar": Place(
        "_calendar",
        "calendar_command",
        "Show the calendar of the firm, let it settle, or move a part of a job.",
    ),
    "check-cloud": Place(
        "_check_cloud",
        "check_cloud_command",
        "Check a point cloud of the finished paving against the plan: planes, falls, and a straight edge on it.",
    ),
    "compile": Place(
        "_compile",
        "compile_command",
        "Compile the kernels, so that the first plan is as quick as any other; what is compiled already is kept.",
    ),
    "decide": Place("_account", "decide_command", "Print a job with variation NUMBER approved or refused."),
    "demo": Place("_pack", "demo_command", "Make the plan and the job pack of an invented terrace."),
    "dig-differs": Place(
        "_dig_differs",
        "dig_differs_command",
        "Print a job with what its dig found: in plan, price and days, as a variation where the job was accepted.",
    ),
    "drill": Place(
        "_backup",
        "drill_command",
        "Bring a whole BACKUP back into an empty place and compare every table and file; nothing of it stays.",
    ),
    "due": Place("_jobs", "due_command", "List what is due over all jobs, what is past first."),
    "export": Place(
        "_export", "export_command", "Write the finished work for other programs: a building model (IFC) or GeoJSON."
    ),
    "files": Place(
        "_files",
        "files_command",
        "See to photos and papers that are kept in a folder or in a store that speaks S3 (docs/database.md).",
    ),
    "firm": Place(
        "_firm",
        "firm_command",
        "Show the firm's book, write it out, bring one in, or bring in a supplier's price list.",
    ),
    "firms": Place(
        "_firms",
        "firms_command",
        "Show the firms of an installation, or enter one more: nothing of one is seen in another.",
    ),
    "jobs": Place("_jobs", "jobs_command", "List the jobs with how far they are and why."),
    "openapi": Place(
        "_openapi", "openapi_command", "Print what every route of the server takes and answers, as OpenAPI 3.1."
    ),
    "pack": Place(
        "_pack", "pack_command", "Make the whole job pack: PDFs, drawings, order list, set-out points, programme."
    ),
    "people": Place(
        "_people",
        "people_command",
        "Let the first owner of a firm in, or somebody who lost his password, by a link that opens once.",
    ),
    "plan": Place(
        "_plan",
        "plan_command",
        "Work out the plan of a job as far as it is known: headline figures, findings and what is missing next.",
    ),
    "points": Place(
        "_points", "points_command", "Take points over from a file and print them, or a job with them added, as JSON."
    ),
    "quote": Place(
        "_quote",
        "quote_command",
        "Print a job with the prices of the day put in: it keeps them, whatever the firm's book says later.",
    ),
    "record": Place(
        "_record",
        "record_command",
        "Write the record of JOB as one PDF with its data attached, or as a zip file with the photos.",
    ),
    "replan": Place(
        "_replan",
        "replan_command",
        "Plan every open job again after a change, and show what it does to each: no job is changed.",
    ),
    "reprice": Place(
        "_quote",
        "reprice_command",
        "Show line by line what the prices of today would change in a job that was quoted.",
    ),
    "restore": Place(
        "_backup",
        "restore_command",
        "Put BACKUP in the place of the jobs that are kept; those are kept beside it under another name.",
    ),
    "risk": Place(
        "_risk",
        "risk_command",
        "Work out what a price risks: how it falls, what moves it, how much to order, what one other fact would do.",
    ),
    "schema": Place("_schema", "schema_command", "Print the JSON Schema of the job document."),
    "serve": Place("_serve", "serve_command", "Open the working screens in the browser, on this machine only."),
    "starts": Place(
        "_starts",
        "starts_command",
        "Search the best starts of every area: where to begin, how to turn the courses, how wide to make the joints.",
    ),
    "storm": Place(
        "_storm",
        "storm_command",
        "Let a storm run over the finished paving: flows, films and how soon it is clear, as bands.",
    ),
    "sum": Place("_sums", "sum_command", "Work out one sum."),
    "survey-out": Place(
        "_points",
        "survey_out",
        "Write every point of a job at its adjusted place, in millimetres; read in again, they are the same.",
    ),
    "survey-form": Place(
        "_survey_form",
        "survey_form_command",
        "Make the form that is filled in by hand at the house: sketch, tapes, level book, walk round.",
    ),
    "vary": Place(
        "_account",
        "vary_command",
        "Print a job with a variation: what it adds to the job as it was agreed, or an area that is dug deeper.",
    ),
    "verify": Place("_verify", "verify_command", "Compare published examples with our own answers."),
    "verify-record": Place(
        "_record",
        "verify_record_command",
        "Check a record that was handed out: a PDF, a zip file or record.jsonl.",
    ),
    "watch": Place(
        "_watch",
        "watch_command",
        "Plan every job that is dropped into FOLDER, and bring every file of points into a list of points.",
    ),
    "weather": Place(
        "_weather",
        "weather_command",
        "Make the table of months of a job from a CSV of daily weather: wet, frosty and hot days, mean temperature.",
    ),
}
"""Every command: listing them loads none."""


class Commands(click.Group):
    """Commands that are loaded when asked for, write UTF-8 and tell a fault of the program from a fault of the job."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click has it
        """Return the names of all commands."""
        return sorted(PLACES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - as click has it
        """Return a command, with the rooms that it needs."""
        place = PLACES.get(cmd_name)
        if place is None:
            return None
        found: click.Command = getattr(import_module(f"pavewright.cli.{place.module}"), place.function)
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - as click has it
        """Write the list of commands from their lines, without loading them."""
        room = formatter.width - 6 - max(len(name) for name in PLACES)
        with formatter.section("Commands"):
            lines = ((name, click.Command(name, help=place.line)) for name, place in sorted(PLACES.items()))
            formatter.write_dl([(name, command.get_short_help_str(room)) for name, command in lines])

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - as click has it
        """Run a command.

        A fault of the program is one line that can be reported, and exit code 3: what it says of the job is nothing.
        """
        gc.set_threshold(*_SWEEPS)
        write_utf8()
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except OSError as problem:
            if problem.errno == errno.EPIPE:
                raise
            click.echo(_line(problem), err=True)
        except Exception as problem:  # noqa: BLE001 - whatever it is, it is ours
            click.echo(_line(problem), err=True)
        sys.exit(FAULT)


def write_utf8() -> None:
    """Let both streams write UTF-8 into files and pipes, and a mark for what a console cannot show."""
    for stream in (sys.stdout, sys.stderr):
        change = getattr(stream, "reconfigure", None)
        if change is not None:
            change(encoding=None if stream.isatty() else "utf-8", errors="replace")


def _line(problem: Exception) -> str:
    """Return what to report of a fault: its kind, its words and the place where it arose."""
    home = str(Path(__file__).parents[1])
    own = [frame for frame in traceback.extract_tb(problem.__traceback__) if frame.filename.startswith(home)]
    at = f"{Path(own[-1].filename).relative_to(home).as_posix()}:{own[-1].lineno}" if own else "an unknown place"
    words = " ".join(str(problem).split())[:200]
    return (
        f"This is a fault of the program, not of your job; nothing was changed. Please report this line: "
        f"{type(problem).__name__} {words!r} at {at}"
    )
