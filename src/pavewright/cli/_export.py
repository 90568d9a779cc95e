"""The command that writes the finished work for other programs."""

from __future__ import annotations

from pathlib import Path

import click

from pavewright.cli._asked import FIRM, JOB, QUIET, plan_so_far_or_stop
from pavewright.cli._stop import stop
from pavewright.exchange import Earth, ExchangeKind, ExchangeRefusedError, finished_work

_FILE = click.Path(dir_okay=False, path_type=Path)
_LAT_LON = 2


@click.command("export")
@JOB
@click.option("--ifc", type=_FILE, help="Building model to write, IFC 4.3.")
@click.option("--geojson", type=_FILE, help="Map features to write, GeoJSON.")
@click.option("--at", "at", help="LATITUDE,LONGITUDE of a point of the job, in degrees (WGS 84).")
@click.option("--at-point", "point", default="", help="The point that lies there; else the origin of the site grid.")
@click.option("--local", is_flag=True, help="GeoJSON: metres on the site grid, where no place on the earth is given.")
@FIRM
@QUIET
def export_command(
    job: Path,
    *,
    ifc: Path | None,
    geojson: Path | None,
    at: str | None,
    point: str,
    local: bool,
    firm: Path | None,
    quiet: bool,
) -> None:
    """Write the finished work for other programs: a building model (IFC) or GeoJSON.

    A job is measured on a grid of its own. With --at and the bearing of north in the job the files stand on the earth;
    without, the model says that it is local, and GeoJSON is written with --local only.

    \b
    Example: pavewright export examples/l_terrace.json --ifc terrace.ifc
             pavewright export examples/l_terrace.json --geojson terrace.geojson --at 51.5,-1.25 --at-point A
             pavewright export examples/l_terrace.json --geojson terrace.json --local
    """  # noqa: D301 - the sign keeps click from joining lines
    wanted = [(ExchangeKind.IFC, ifc), (ExchangeKind.GEOJSON, geojson)]
    if all(path is None for _, path in wanted):
        message = "Say what to write: --ifc FILE, --geojson FILE, or both."
        raise click.UsageError(message)
    earth = None if at is None else _earth(at, point)
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    for kind, path in wanted:
        if path is None:
            continue
        try:
            path.write_bytes(finished_work(made, kind, earth, local=local))
        except ExchangeRefusedError as refusal:
            stop(str(refusal))
        except OSError as problem:
            stop(f"{path} cannot be written ({problem.strerror}): choose another file.")
        click.echo(f"Written: {path.name}")


def _earth(at: str, point: str) -> Earth:
    try:
        numbers = [float(each) for each in at.split(",")]
    except ValueError:
        numbers = []
    if len(numbers) != _LAT_LON:
        message = "--at is a latitude and a longitude in degrees, such as 51.5,-1.25."
        raise click.UsageError(message)
    return Earth(numbers[0], numbers[1], point)
