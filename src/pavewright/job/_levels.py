"""Levels: heights that were written in metres or centimetres among others in millimetres."""

from __future__ import annotations

import statistics
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job._base import AssumedLevel
from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._base import LevelOrPoint
    from pavewright.job._document import Job

_REACH_MM = 3000.0
"""Levels of one job lie within this of their middle; what does so only when read as metres was written in metres. [mm]"""
_TEN = 10.0
_ENOUGH = 3
"""So many levels tell where the middle is."""


def levels_in_metres(job: Job) -> Iterator[Fault]:
    """Give levels that fit the others only when they are read as metres or as centimetres.

    Levels of a job lie within a few metres of each other. One that lies far from the rest and comes among them when it
    is multiplied by a thousand was written in metres; by ten, in centimetres.
    """
    stated = tuple(_stated(job))
    laid = _laid(job)
    if len(stated) < _ENOUGH:
        return
    middle = statistics.median(level for _, _, level in stated)
    for path, what, level in stated:
        fits = _unit_of(level, middle)
        if fits:
            words = f"{what} is {level:g}: that looks like {fits[0]}. Write millimetres, {fits[1]:g}."
            yield Fault(path, words)
    wrong = [(level, fits) for level in laid if (fits := _unit_of(level, middle))]
    if wrong:
        level, fits = wrong[0]
        words = (
            f"{len(wrong)} of {len(laid)} levels as laid look like {fits[0]}, the first is {level:g}. Write "
            f"millimetres, {fits[1]:g}."
        )
        yield Fault("as_laid.readings", words)


def _laid(job: Job) -> tuple[float, ...]:
    """Return the levels read on the paving and on fixed marks, as laid and later. [mm]."""
    told = job.as_laid
    if told is None:
        return ()
    read = [each.level_mm for each in told.readings] + [each.level_mm for each in told.marks]
    for visit in told.later_visits:
        read += [each.level_mm for each in visit.read_again] + [each.level_mm for each in visit.marks]
    return tuple(level for level in read if level is not None)


def _unit_of(level: float, middle_mm: float) -> tuple[str, float] | None:
    """Return the unit in which a level that lies far from the others comes among them, and its millimetres."""
    if abs(level - middle_mm) <= _REACH_MM:
        return None
    whole = (("metres", units.m_to_mm(level)), ("centimetres", _TEN * level))
    return next((each for each in whole if abs(each[1] - middle_mm) <= _REACH_MM), None)


def _stated(job: Job) -> Iterator[tuple[str, str, float]]:
    """Give place, owner and value of every level that is written down and not read off a staff."""
    found: list[tuple[str, str, LevelOrPoint | None]] = []
    for number, mark in enumerate(job.measurements.benchmarks):
        found.append((f"measurements.benchmarks.{number}.level_mm", f"The level of {mark.point}", mark.level_mm))
    for number, point in enumerate(job.measurements.points):
        found.append((f"measurements.points.{number}.level_mm", f"The level of {point.name}", point.level_mm))
    found.extend(_of_walls(job))
    found.extend(_of_drains(job))
    for number, area in enumerate(job.areas):
        found.append((f"areas.{number}.fall.level_mm", f"The level asked for {area.name}", area.fall.level_mm))
    for path, what, level in found:
        value = level.assumed_mm if isinstance(level, AssumedLevel) else level
        if value is not None and not isinstance(value, str):
            yield path, what, value


def _of_walls(job: Job) -> Iterator[tuple[str, str, LevelOrPoint | None]]:
    for number, wall in enumerate(job.site.walls):
        path = f"site.walls.{number}"
        yield f"{path}.dpc_level_mm", f"The damp-proof course of {wall.name}", wall.dpc_level_mm
        for place, door in enumerate(wall.openings):
            yield (
                f"{path}.openings.{place}.threshold_level_mm",
                f"The threshold of {door.name}",
                door.threshold_level_mm,
            )
        for place, brick in enumerate(wall.air_bricks):
            yield (
                f"{path}.air_bricks.{place}.underside_level_mm",
                f"The underside of {brick.name}",
                (brick.underside_level_mm),
            )
    for number, edge in enumerate(job.site.tie_ins):
        yield f"site.tie_ins.{number}.start_level_mm", f"The start of {edge.name}", edge.start_level_mm
        yield f"site.tie_ins.{number}.end_level_mm", f"The end of {edge.name}", edge.end_level_mm
    for number, line in enumerate(job.site.boundaries):
        yield f"site.boundaries.{number}.top_level_mm", f"The top of {line.name}", line.top_level_mm


def _of_drains(job: Job) -> Iterator[tuple[str, str, LevelOrPoint | None]]:
    site = job.site
    for number, gully in enumerate(site.gullies):
        path = f"site.gullies.{number}"
        yield f"{path}.grating_level_mm", f"The grating of {gully.name}", gully.grating_level_mm
        yield f"{path}.invert_level_mm", f"The invert of {gully.name}", gully.invert_level_mm
    for number, channel in enumerate(site.channels):
        yield f"site.channels.{number}.invert_level_mm", f"The invert of {channel.name}", channel.invert_level_mm
    for number, cover in enumerate(site.covers):
        yield f"site.covers.{number}.level_mm", f"The level of {cover.name}", cover.level_mm
    for number, outfall in enumerate(site.outfalls):
        yield f"site.outfalls.{number}.invert_level_mm", f"The invert of {outfall.name}", outfall.invert_level_mm
