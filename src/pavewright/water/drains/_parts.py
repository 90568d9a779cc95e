"""What soakaways, gullies and channels consist of: to be bought, dug and laid."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import distance
from pavewright.job import PitFill
from pavewright.sums import Working
from pavewright.water._types_parts import DrainKind, DrainParts, DrainState, PipeRun, PitSize, SoakawayParts

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Site
    from pavewright.survey import Survey
    from pavewright.water._figures import WaterFigures


def soakaway_parts(size: PitSize, runs: tuple[PipeRun, ...], figures: WaterFigures) -> SoakawayParts:
    """Return what a soakaway consists of.

    Stone fills the pit less its pipe; crates fill it whole. The membrane goes round all of it, lapped on top, with both
    ends. One perforated pipe runs through stone, level and capped. Solid pipe comes from each inlet, in a straight line
    where the place of both is known.

    Args:
        size: The pit, as entered or as proposed.
        runs: Solid pipe that leads to it.
        figures: The figures of water.

    Source: drives and edges, parts of a soakaway: L·W·d less pipe; L·(2W + 2d + lap) + 2·W·d
    """
    bore = figures.soakaway_pipe_mm
    lap = figures.soakaway_lap_mm
    stone = size.fill is PitFill.STONE
    length, width, depth = size.length_mm, size.width_mm, size.depth_mm
    hole = units.mm3_to_m3(length * width * depth)
    pipe = units.mm3_to_m3(length * math.pi * bore.value**2 / 4.0) if stone else 0.0
    cloth = units.mm2_to_m2(length * (2.0 * width + 2.0 * depth + lap.value) + 2.0 * width * depth)
    run_m = _all_of(runs)
    return SoakawayParts(
        outfall=size.outfall,
        proposed=size.proposed,
        size=size,
        dig_m3=hole + units.mm3_to_m3(length * width * size.cover_mm),
        stone_m3=hole - pipe if stone else 0.0,
        stone_t=(hole - pipe) * figures.soakaway_stone_t_per_m3.value if stone else 0.0,
        crates_m3=0.0 if stone else hole,
        geotextile_m2=cloth,
        perforated_pipe_m=units.mm_to_m(length) if stone else 0.0,
        solid_pipe_m=run_m,
        pipe_bed_m3=None if run_m is None else run_m * pipe_bed_m3_per_m(figures),
        silt_traps=round(figures.silt_traps.value),
        runs=runs,
        workings=(
            Working(
                f"{'stone' if stone else 'crates'} = {_m(length)} × {_m(width)} × {_m(depth)} m − {pipe:.3f} m³ pipe",
                hole - pipe,
                "m³",
                (bore,) if stone else (),
                "size proposed" if size.proposed else "size as entered",
            ),
            Working(
                f"membrane = {_m(length)} × (2 × {_m(width)} + 2 × {_m(depth)} + {_m(lap.value)}) + 2 × {_m(width)} × "
                f"{_m(depth)}",
                cloth,
                "m²",
                (lap,),
                "round all of it, lapped, and both ends",
            ),
        ),
    )


def _all_of(runs: tuple[PipeRun, ...]) -> float | None:
    """Return the length of all runs of pipe; None where one is not known. [m]."""
    known = [run.length_m for run in runs if run.length_m is not None]
    return math.fsum(known) if runs and len(known) == len(runs) else None


def pipe_bed_m3_per_m(figures: WaterFigures) -> float:
    """Return the gravel round a metre of small pipe: trench, with a bed under the pipe and over it, less the pipe.

    Source: definition
    """
    bore, bed = figures.soakaway_pipe_mm.value, figures.drain_bed_mm.value
    return units.mm2_to_m2(figures.drain_trench_mm.value * (bore + 2.0 * bed) - math.pi * bore**2 / 4.0)


def _m(value_mm: float) -> str:
    return f"{units.mm_to_m(value_mm):.2f}"


def drain_parts(site: Site, survey: Survey) -> tuple[DrainParts, ...]:
    """Return what every gully and channel of the job consists of, and whether it is bought for it."""
    found = [
        DrainParts(
            kind=DrainKind.GULLY,
            name=gully.name,
            state=DrainState.EXISTING if gully.is_existing or gully.fixed else DrainState.NEW,
            pots=1,
            gratings=1,
            grating_mm=gully.size_mm,
            channel_m=0.0,
            end_caps=0,
            run=pipe_run(DrainKind.GULLY, gully.name, gully.outfall, site, survey),
        )
        for gully in site.gullies
    ]
    lengths = {each.name: units.mm_to_m(distance(each.start, each.end)) for each in survey.site.channels}
    found += [
        DrainParts(
            kind=DrainKind.CHANNEL,
            name=channel.name,
            state=DrainState.NOT_KNOWN if channel.state is None else DrainState(channel.state.value),
            pots=0,
            gratings=0,
            grating_mm=channel.width_mm,
            channel_m=lengths[channel.name],
            end_caps=1,
            run=pipe_run(DrainKind.CHANNEL, channel.name, channel.outfall, site, survey),
        )
        for channel in site.channels
    ]
    return tuple(found)


def pipe_run(kind: DrainKind, name: str, outfall: str | None, site: Site, survey: Survey) -> PipeRun:
    """Return the solid pipe from an inlet to the middle of its outfall; not known where that has no place.

    It is a straight line in plan; the outlet of a channel is taken to be the nearer of its ends.
    """
    entries = site.gullies if kind is DrainKind.GULLY else site.channels
    entered = next(each.pipe_mm for each in entries if each.name == name)
    if entered is not None:
        return PipeRun(kind, name, outfall, units.mm_to_m(entered))
    pit = next((each.soakaway for each in site.outfalls if each.name == outfall), None)
    if pit is None or pit.point is None:
        return PipeRun(kind, name, outfall, None)
    to = survey.point(pit.point).xy
    away = min(distance(at, to) for at in _outlets(kind, name, survey))
    return PipeRun(kind, name, outfall, units.mm_to_m(away))


def _outlets(kind: DrainKind, name: str, survey: Survey) -> tuple[XY, ...]:
    if kind is DrainKind.GULLY:
        return (next(placed.at for placed in survey.site.gullies if placed.gully.name == name),)
    channel = next(each for each in survey.site.channels if each.name == name)
    return channel.start, channel.end
