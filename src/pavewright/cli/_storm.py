"""The command that lets a storm run over a plan."""

from __future__ import annotations

from pathlib import Path

import click

from pavewright.cli._asked import JOB, QUIET, plan_or_stop
from pavewright.cli._engine_asked import EngineAsked, engine_options, spread_or_stop
from pavewright.cli._progress import Progress
from pavewright.cli._stop import stop
from pavewright.cli._told import storm_lines
from pavewright.desk import film_drawing, run_storm_on, spread_storm
from pavewright.water import StormRefusedError


@click.command("storm")
@JOB
@click.option("--rain", "rain_mm_per_h", type=float, default=None, help="Rain in mm/h; else the design rain.")
@click.option("--minutes", "rain_min", type=float, default=10.0, show_default=True, help="How long it rains.")
@click.option("--cell", "cell_mm", type=float, default=100.0, show_default=True, help="Side of the cells in mm.")
@click.option("-o", "--output", "drawing", type=click.Path(dir_okay=False, path_type=Path), help="Map of depths, SVG.")
@engine_options
@QUIET
def storm_command(
    job: Path,
    *,
    rain_mm_per_h: float | None,
    rain_min: float,
    cell_mm: float,
    drawing: Path | None,
    asked_engine: EngineAsked,
    quiet: bool,
) -> None:
    """Let a storm run over the finished paving: flows, films and how soon it is clear, as bands.

    Each area is run twice, with the smallest and the greatest roughness of paving. With --workers or --cluster these
    runs are shared out, with the same answer.

    \b
    Example: pavewright storm examples/l_terrace.json --rain 75
             pavewright storm examples/gully_yard.json --cell 50 --minutes 5 -o film.svg
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_or_stop(job, quiet=quiet)
    try:
        if asked_engine.named:
            with spread_or_stop(asked_engine, job, None, quiet=quiet) as here:
                storms = spread_storm(made, here, rain_mm_per_h, rain_min, cell_mm)
        else:
            storms = run_storm_on(made, rain_mm_per_h, rain_min, cell_mm, Progress(quiet))
    except StormRefusedError as problem:
        stop(str(problem))
        return
    for line in storm_lines(storms):
        click.echo(line)
    if drawing is not None:
        try:
            drawing.write_text(film_drawing(made, storms), "utf-8")
        except OSError as problem:
            stop(f"{drawing} cannot be written ({problem.strerror}): choose another file with -o.")
