"""The command that checks a point cloud of the finished paving."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright import units
from pavewright.as_laid import BAY_STATES, BayState, Verdict
from pavewright.cli._asked import JOB, QUIET, plan_or_stop
from pavewright.desk import CloudFile, checked_cloud
from pavewright.files import TO_MM, XYZ_ORDERS, FileRefusedError, read_csv_points

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.as_laid import CloudBay, CloudCheck
    from pavewright.geometry import XYZ

_UNSOUND, _FAILS = 2, 1
_BY_ENDING = {".las": "las", ".laz": "las", ".ply": "ply", ".csv": "csv", ".txt": "csv", ".xyz": "csv"}


@click.command("check-cloud")
@JOB
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--mark", "names", multiple=True, help="A levelled point of the job, of a cloud on the site grid; again.")
@click.option(
    "--marks",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="CSV: name, east, north, level of levelled points as the cloud has them, in its unit.",
)
@click.option("--unit", type=click.Choice(list(TO_MM)), default="m", help="Unit of the cloud.", show_default=True)
@click.option(
    "--order", type=click.Choice(list(XYZ_ORDERS)), default="east,north,level", help="CSV: columns.", show_default=True
)
@click.option("--cell", "cell_mm", type=float, help="Side of a cell; the rulebook's where none is given. [mm]")
@click.option("--ground-only", is_flag=True, help="LAS, LAZ: only points of the class ground.")
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@QUIET
def check_cloud_command(
    job: Path,
    file: Path,
    names: tuple[str, ...],
    marks: Path | None,
    unit: str,
    order: str,
    cell_mm: float | None,
    *,
    ground_only: bool,
    as_json: bool,
    quiet: bool,
) -> None:
    """Check a point cloud of the finished paving against the plan: planes, falls, and a straight edge on it.

    The cloud (LAS, LAZ, PLY or lines of text) is laid onto four levelled points of the job or more. It indicates where
    to look; a scan may be warped where no levelled point stands, so read the staff before anybody is blamed.

    \b
    Example: pavewright check-cloud my-job.json scan.laz --mark A --mark B --mark C --mark D
             pavewright check-cloud my-job.json scan.ply --unit m --marks marks.csv
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_or_stop(job, quiet=quiet)
    kind = _BY_ENDING.get(file.suffix.lower(), "csv")
    try:
        places: dict[str, XYZ | None] = dict.fromkeys(names)
        if marks is not None:
            for point in read_csv_points(marks.read_bytes(), "name,east,north,level", unit):
                places[point.name] = None if point.level_mm is None else (point.x_mm, point.y_mm, point.level_mm)
        with file.open("rb") as stream:
            found = checked_cloud(made, CloudFile(stream, kind, unit, order, ground_only), places, cell_mm)
    except FileRefusedError as refused:
        click.echo(str(refused), err=True)
        sys.exit(_UNSOUND)
    if as_json:
        click.echo(json.dumps(asdict(found), indent=1, ensure_ascii=False))
    else:
        for line in cloud_lines(found):
            click.echo(line)
    if any(BayState.OFF_DESIGN in each.bay.states or _fails(each) for each in found.bays):
        sys.exit(_FAILS)


def _fails(bay: CloudBay) -> bool:
    return bay.edge is not None and bay.edge.verdict is Verdict.FAILS


def cloud_lines(found: CloudCheck) -> Iterator[str]:
    """Give a check line by line."""
    laid = f"laid onto {len(found.marks)} levelled points"
    yield f"indicative: {found.points} points in cells of {found.cell_mm:g} mm, {laid}"
    for mark in found.marks:
        yield f"  {mark.name}  {mark.off_plan_mm:.1f} mm off in plan, {mark.off_level_mm:+.1f} mm in level"
    yield from (
        f"  no other point would show that {name} is wrong: level another beside it" for name in found.unchecked
    )
    yield f"  scatter at a levelled point {found.level_sd_mm:.1f} mm, of a cell {found.noise_mm:.2f} mm"
    yield f"  dips shallower than {found.seen_from_mm:.1f} mm are not told from noise"
    for each in found.bays:
        yield from _bay_lines(each, found)
    yield from (f"{name}: no cell lies on it" for name in found.unseen)


def _bay_lines(each: CloudBay, found: CloudCheck) -> Iterator[str]:
    bay = each.bay
    states = ", ".join(BAY_STATES[state] for state in bay.states)
    yield f"{bay.area}, bay {bay.number}: {states} ({each.cells} cells, {each.left_out} left out)"
    if bay.fit is not None and bay.fall is not None and bay.fall_sd is not None:
        turned = "" if bay.turned_deg is None else f", turned {bay.turned_deg:+.1f}°"
        yield (
            f"  falls {units.fall_text(bay.fit.plane.fall)}{turned}; planned {units.fall_text(bay.planned_fall)}; "
            f"along the plan {units.m_to_mm(bay.fall):.2f} ± {units.m_to_mm(2.0 * bay.fall_sd):.2f} mm/m"
        )
    if bay.farthest_mm is not None and bay.farthest_sd_mm is not None:
        yield f"  worst corner {bay.farthest_mm:+.1f} ± {2.0 * bay.farthest_sd_mm:.1f} mm against the plan"
    yield (
        f"  nine cells in ten between {each.low_mm:+.1f} and {each.high_mm:+.1f} mm, {100.0 * each.beyond_share:.0f} % "
        f"beyond the limit; scatter about the plane {each.scatter_mm:.1f} mm"
    )
    if bay.twist is not None:
        yield f"  twist {bay.twist.twist_mm:+.1f} ± {2.0 * bay.twist.sd_mm:.1f} mm"
    edge = each.edge
    if edge is not None:
        verdict = "not judged" if edge.verdict is None else edge.verdict.words
        limit = "-" if edge.limit.max_mm is None else f"{edge.limit.max_mm:g}"
        yield (
            f"  largest gap under {units.mm_to_m(edge.edge_mm):g} m: {edge.gap_mm:.1f} ± {2.0 * edge.sd_mm:.1f} mm at "
            f"x {units.metres_text(edge.at[0])}, y {units.metres_text(edge.at[1])}; {limit} mm by "
            f"{found.regime.label}: {verdict}"
        )
