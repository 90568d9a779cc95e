"""The command that takes points over from a file."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from pavewright.cli._commands import main
from pavewright.desk import points_with, read_points
from pavewright.files import ORDERS, TO_MM, FileRefusedError, first_lines

_UNSOUND = 2


@main.command("points")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--order", type=click.Choice(list(ORDERS)), help="How the columns stand; a note may follow.")
@click.option("--unit", type=click.Choice(list(TO_MM)), help="Unit of the coordinates.")
@click.option("--into", "job", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Job to add them to.")
def points_command(file: Path, order: str | None, unit: str | None, job: Path | None) -> None:
    """Take points over from a CSV file and print them, or a job with them added, as JSON.

    Without --order and --unit the first lines are shown: nobody can tell north from east but you.

    Example: pavewright points survey.csv --order name,east,north,level --unit m --into job.json > with-points.json
    """
    content = file.read_bytes()
    if order is None or unit is None:
        click.echo(first_lines(content))
        click.echo("Say with --order and --unit how these columns stand.", err=True)
        sys.exit(_UNSOUND)
    try:
        points = read_points(content, order, unit)
        told = points if job is None else points_with(json.loads(job.read_bytes()), points)
    except (FileRefusedError, ValueError) as refused:
        click.echo(str(refused), err=True)
        sys.exit(_UNSOUND)
    click.echo(json.dumps(told, indent=1, ensure_ascii=False))
