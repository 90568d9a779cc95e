"""The command that works out a plan."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from pavewright.cli._asked import FIRM, JOB, QUIET, plan_so_far_or_stop
from pavewright.cli._told import plan_lines
from pavewright.findings import says_stop
from pavewright.papers import plan_json, written_where
from pavewright.writing import told

if TYPE_CHECKING:
    from pathlib import Path


@click.command("plan")
@JOB
@click.option("--json", "as_json", is_flag=True, help="Print the whole plan as JSON.")
@FIRM
@QUIET
def plan_command(job: Path, firm: Path | None, *, as_json: bool, quiet: bool) -> None:
    """Work out the plan of a job as far as it is known: headline figures, findings and what is missing next.

    Exit code 0: clean. 1: a finding says stop. 2: the document is not a job, or its readings contradict each other.

    \b
    Example: pavewright plan examples/front_drive.json
             pavewright plan examples/front_drive.json --json > plan.json
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    if as_json:
        click.echo(plan_json(made.whole or made).decode("utf-8"), nl=False)
    else:
        with written_where(made):
            for line in plan_lines(made):
                click.echo(told(line))
    sys.exit(1 if says_stop(made.findings) else 0)
