"""The command that makes a table of months from daily weather."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from pavewright.desk import weather_told
from pavewright.files import FileRefusedError
from pavewright.job import load_document

_UNSOUND = 2


@click.command("weather")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--into", "job", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Job to put it into.")
def weather_command(file: Path, job: Path | None) -> None:
    """Make the table of months of a job from a CSV of daily weather: wet, frosty and hot days, mean temperature.

    The first line names the columns: date (year first), rain_mm or rain_in, min_c or min_f, max_c or max_f. A line that
    makes no sense is reported and left out. By the table bays harden, and the programme has its finish with chances.

    Example: pavewright weather daily.csv --into job.json > with-weather.json
    """
    try:
        document = None if job is None else load_document(job.read_bytes())
        locality = (document or {}).get("identity", {}).get("locality", "")
        told = weather_told(file.read_bytes(), locality) if locality else weather_told(file.read_bytes())
    except FileRefusedError as refused:
        click.echo(f"{file.name}: {refused}", err=True)
        sys.exit(_UNSOUND)
    for line in told.bad:
        click.echo(line.said, err=True)
    if told.bad_count:
        click.echo(f"{told.bad_count} lines left out, {told.days} days read.", err=True)
    rows = list(told.weather)
    if document is None:
        click.echo(json.dumps(rows, indent=1))
        return
    calendar = {**document.get("calendar", {}), "weather": rows}
    click.echo(json.dumps({**document, "calendar": calendar}, indent=1, ensure_ascii=False))
