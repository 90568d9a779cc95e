"""The command that takes points over from a file."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from pavewright.desk import file_told, points_with, read_job_file, surveyed_points
from pavewright.files import ORDERS, TO_MM, FileRefusedError, first_lines
from pavewright.job import JobInvalid, load_document

_UNSOUND = 2


_BY_ENDING = {
    ".csv": "csv", ".txt": "csv", ".dxf": "dxf", ".geojson": "geojson", ".json": "geojson", ".xml": "landxml",
    ".las": "las", ".laz": "las", ".ply": "ply",
}  # fmt: skip


@click.command("points")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--order", type=click.Choice(list(ORDERS)), help="CSV: how the columns stand; a note may follow.")
@click.option("--unit", type=click.Choice(list(TO_MM)), help="Unit of the coordinates, where the file tells none.")
@click.option("--layer", "layers", multiple=True, help="DXF: a layer to take; may be said again.")
@click.option("--every", "every_mm", type=float, default=500.0, help="Clouds: one spot in each square so wide. [mm]")
@click.option("--ground-only", is_flag=True, help="LAS, LAZ: only points of the class ground.")
@click.option("--into", "job", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Job to add them to.")
def points_command(
    file: Path,
    order: str | None,
    unit: str | None,
    layers: tuple[str, ...],
    every_mm: float,
    job: Path | None,
    *,
    ground_only: bool,
) -> None:
    """Take points over from a file and print them, or a job with them added, as JSON.

    Files of points (CSV), drawings (DXF), surveys (GeoJSON in a local grid, LandXML) and clouds (LAS, LAZ, PLY) are
    read. What the file does not tell has to be said: without --order and --unit the first lines of a CSV file are
    shown, without --layer the layers of a drawing. Nobody can tell north from east but you.

    Example: pavewright points survey.csv --order name,east,north,level --unit m --into job.json > with-points.json
    """
    content, kind = file.read_bytes(), _BY_ENDING.get(file.suffix.lower(), "csv")
    if kind == "csv" and (order is None or unit is None):
        click.echo(first_lines(content))
        click.echo("Say with --order and --unit how these columns stand.", err=True)
        sys.exit(_UNSOUND)
    asked = {"kind": kind, "order": order or "", "unit": unit or "", "layers": list(layers), "every_mm": every_mm}
    try:
        found = file_told(content, {**asked, "ground_only": ground_only})
        if kind == "dxf" and not layers:
            click.echo("\n".join(f"{name}: {count}" for name, count in found["layers"].items()))
            known = found["unit"] or "no unit: say it with --unit"
            click.echo(f"Say with --layer which to take; the drawing is in {known}.", err=True)
            sys.exit(_UNSOUND)
        reported = found["points"] if job is None else points_with(load_document(read_job_file(job)), found["points"])
    except JobInvalid as invalid:
        for fault in invalid.faults:
            click.echo(f"{'' if job is None else job.name}: {fault.message}", err=True)
        sys.exit(_UNSOUND)
    except FileRefusedError as refused:
        click.echo(str(refused), err=True)
        sys.exit(_UNSOUND)
    for caveat in found["caveats"]:
        click.echo(caveat, err=True)
    click.echo(json.dumps(reported, indent=1, ensure_ascii=False))


@click.command("survey-out")
@click.argument("job", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "-o", "--out", type=click.Path(dir_okay=False, path_type=Path), required=True, help="A .csv or .dxf file."
)
def survey_out(job: Path, out: Path) -> None:
    """Write every point of a job at its adjusted place, in millimetres; read in again, they are the same.

    CSV stands as name, east, north, level, note. DXF has the points on SURVEY_POINTS and the break lines beside them.

    Example: pavewright survey-out my-job.json -o survey.dxf
    """
    try:
        out.write_bytes(surveyed_points(read_job_file(job), out.suffix.lower()))
    except JobInvalid as invalid:
        for fault in invalid.faults:
            click.echo(fault.message, err=True)
        sys.exit(_UNSOUND)
    except FileRefusedError as refused:
        click.echo(str(refused), err=True)
        sys.exit(_UNSOUND)
    except OSError as problem:
        click.echo(f"{out} cannot be written ({problem.strerror}): choose another place with -o.", err=True)
        sys.exit(_UNSOUND)
    click.echo(f"Written: {out.name}")
