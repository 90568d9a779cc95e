"""Pipe runs as they are laid: levels at both ends, length, fall, and what they cross."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.geometry import distance
from pavewright.job import GullyState, OutfallKind
from pavewright.water._types_parts import DrainKind
from pavewright.water._types_runs import DrainRun, RunCrossing, RunEnd, RunFall
from pavewright.water.drains._parts import drain_parts

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Job, Outfall
    from pavewright.levels import Levels
    from pavewright.rules import Figure
    from pavewright.survey import Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types_parts import DrainParts


def drain_runs(job: Job, survey: Survey, levels: Levels, figures: WaterFigures) -> tuple[DrainRun, ...]:
    """Return the pipe from every gully and channel that has an outfall or a pipe, with what is known of it."""
    return tuple(
        _run(parts, job, survey, levels, figures)
        for parts in drain_parts(job.site, survey)
        if parts.run.outfall is not None or parts.run.length_m is not None
    )


def _run(parts: DrainParts, job: Job, survey: Survey, levels: Levels, figures: WaterFigures) -> DrainRun:
    outfall = next((each for each in job.site.outfalls if each.name == parts.run.outfall), None)
    to = _place(outfall, survey)
    start = _inlet(parts, to, survey, levels, figures)
    end = None if outfall is None else _outfall(outfall, to, survey, levels, figures)
    low = None if end is None else end.invert_level_mm
    fall_mm = None if start.invert_level_mm is None or low is None else start.invert_level_mm - low
    length_mm = None if parts.run.length_m is None else units.m_to_mm(parts.run.length_m)
    fall = None if fall_mm is None or not length_mm else fall_mm / length_mm
    flattest = figures.min_drain_one_in
    return DrainRun(
        pipe=parts.run,
        state=parts.state,
        start=start,
        end=end,
        fall_mm=fall_mm,
        fall=fall,
        verdict=_verdict(fall_mm, fall, flattest),
        crossings=() if start.at is None or to is None else _crossings(start.at, to, survey),
        line_known=start.at is not None and to is not None,
        bore=figures.soakaway_pipe_mm,
        min_one_in=flattest,
        min_cover=figures.soakaway_cover_mm,
        bed=figures.drain_bed_mm,
        trench=figures.drain_trench_mm,
        silt_traps=round(figures.silt_traps.value) if outfall is not None and _is_built(outfall) else 0,
    )


def _is_built(outfall: Outfall) -> bool:
    """Return whether the job builds it: what one that is there already has before it nobody knows."""
    return (
        outfall.kind is OutfallKind.SOAKAWAY
        and outfall.soakaway is not None
        and outfall.state is not GullyState.EXISTING
    )


def _verdict(fall_mm: float | None, fall: float | None, flattest: Figure | None) -> RunFall:
    """Return whether a pipe falls enough; one that does not fall is seen without its length."""
    if fall_mm is not None and fall_mm <= 0.0:
        return RunFall.NONE
    if fall is None or flattest is None:
        return RunFall.NOT_KNOWN
    return RunFall.ENOUGH if fall >= units.one_in_n_to_fall(flattest.value) else RunFall.FLAT


def _place(outfall: Outfall | None, survey: Survey) -> XY | None:
    pit = None if outfall is None else outfall.soakaway
    return None if pit is None or pit.point is None else survey.point(pit.point).xy


def _inlet(parts: DrainParts, to: XY | None, survey: Survey, levels: Levels, figures: WaterFigures) -> RunEnd:
    """Return the inlet of a run; the outlet of a channel is the nearer of its ends, not known without an outfall."""
    if parts.kind is DrainKind.GULLY:
        placed = next(each for each in survey.site.gullies if each.gully.name == parts.name)
        cover = _finished(placed.at, survey, levels, figures)
        if cover is None or placed.gully.fixed:
            cover = placed.gully.grating_level_mm
        gully = placed.gully
        return RunEnd(parts.name, parts.kind, placed.at, cover, gully.invert_level_mm, gully.assumed is not None)
    channel = next(each for each in survey.site.channels if each.name == parts.name)
    ends = (channel.start, channel.end)
    at = None if to is None else min(ends, key=lambda end: distance(end, to))
    cover = None if at is None else _finished(at, survey, levels, figures)
    assumed = any(fact.place == parts.name for fact in survey.assumed)
    return RunEnd(parts.name, parts.kind, at, cover, channel.invert_level_mm, assumed)


def _outfall(outfall: Outfall, at: XY | None, survey: Survey, levels: Levels, figures: WaterFigures) -> RunEnd:
    """Return the outfall of a run; over a soakaway lies the paving or the ground as it was read, nothing run on."""
    cover = None if at is None else _finished(at, survey, levels, figures)
    if at is not None and cover is None and survey.ground is not None:
        cover = survey.ground.level_at(at)
    return RunEnd(outfall.name, outfall.kind, at, cover, outfall.invert_level_mm, outfall.assumed is not None)


def _finished(at: XY, survey: Survey, levels: Levels, figures: WaterFigures) -> float | None:
    """Return the finished level at a place in or at an area; None away from all of them. [mm]."""
    reach = figures.meets_within_mm.value
    near = [(area.gross.polygon.distance(shapely.Point(at)), area.name) for area in survey.site.areas]
    found = min(near, default=None)
    return None if found is None or found[0] > reach else levels.area(found[1]).surface.level_at(at)


def _crossings(start: XY, end: XY, survey: Survey) -> tuple[RunCrossing, ...]:
    """Return the services that a straight run crosses, or passes at a point."""
    line = shapely.LineString((start, end))
    found = []
    for placed in survey.site.services:
        service = placed.service
        if len(placed.points) < 2:  # noqa: PLR2004 - a point has no line
            continue
        met = shapely.intersection(line, shapely.LineString(placed.points))
        for part in shapely.get_parts(met):
            if not part.is_empty:
                along = float(line.project(part.centroid))
                found.append(RunCrossing(service.name, service.kind, along, service.depth_mm))
    return tuple(sorted(found, key=lambda each: each.along_mm))
