"""What is assumed of levels, soil and outfalls, as typed facts: every paper and the price read them here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import AssumedLevel
from pavewright.survey._types import PlacedBy
from pavewright.survey._types_known import AssumedFact, AssumedWhat

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.job import Assumed, Job, LevelOrPoint, Site
    from pavewright.survey._types import PlanArea, SurveyedPoint

    _Level = tuple[AssumedWhat, str, str, LevelOrPoint | None]


def assumed_facts(job: Job) -> tuple[AssumedFact, ...]:
    """Return everything that a job assumes, in the order of the document.

    A level that is said to be that of a point is assumed where the level of the point is.
    """
    points = {each.name: each for each in job.measurements.points if each.assumed is not None}
    found = [
        AssumedFact(AssumedWhat.POINT, each.name, each.level_mm, "mm", each.assumed.by, each.assumed.why, path)
        for number, each in enumerate(job.measurements.points)
        if each.assumed is not None and each.level_mm is not None
        for path in (f"measurements.points.{number}.level_mm",)
    ]
    for what, place, path, level in _levels_or_points(job.site):
        if isinstance(level, AssumedLevel):
            found.append(AssumedFact(what, place, level.assumed_mm, "mm", level.by, level.why, path))
        elif isinstance(level, str) and level in points:
            point = points[level]
            if point.assumed is not None and point.level_mm is not None:
                found.append(AssumedFact(what, place, point.level_mm, "mm", point.assumed.by, point.assumed.why, path))
    for what, place, path, level, assumed in _levels(job.site):
        if assumed is not None and level is not None:
            found.append(AssumedFact(what, place, level, "mm", assumed.by, assumed.why, path))
    return (*found, *_outfalls(job.site), *_ground(job.site))


def places_by_eye(job: Job, points: Sequence[SurveyedPoint], areas: Sequence[PlanArea]) -> tuple[AssumedFact, ...]:
    """Return the points that paving, walls or the ground rest on and whose place is by eye: sketched, or tapped.

    Args:
        job: The job, for what names points.
        points: All points.
        areas: What is paved.
    """
    sketched = {each.name: number for number, each in enumerate(job.measurements.sketch)}
    given = enumerate(job.measurements.points)
    tapped = {each.name: n for n, each in given if each.place_sd_mm is not None and each.by_photo is None}
    used = {corner.name for area in areas for corner in area.ring.corners} | set(job.measurements.ground_spots)
    used |= {name for wall in job.site.walls for name in (wall.start, wall.end)}
    found = []
    for point in points:
        if point.name not in used or point.sd_mm is None:
            continue
        if point.found_by is PlacedBy.SKETCH and point.name in sketched:
            path, why = f"measurements.sketch.{sketched[point.name]}", "sketch"
        elif point.found_by is PlacedBy.GIVEN and point.name in tapped:
            path, why = f"measurements.points.{tapped[point.name]}", "tap"
        else:
            continue
        found.append(AssumedFact(AssumedWhat.PLACE, point.name, point.sd_mm, "mm", "", why, path))
    return tuple(found)


def _levels_or_points(site: Site) -> Iterator[_Level]:
    """Give kind, owner, place in the document and level of what may be assumed by itself."""
    for number, wall in enumerate(site.walls):
        path = f"site.walls.{number}"
        yield AssumedWhat.DPC, wall.name, f"{path}.dpc_level_mm", wall.dpc_level_mm
        for place, door in enumerate(wall.openings):
            at = f"{path}.openings.{place}.threshold_level_mm"
            yield AssumedWhat.THRESHOLD, door.name, at, door.threshold_level_mm
        for place, brick in enumerate(wall.air_bricks):
            at = f"{path}.air_bricks.{place}.underside_level_mm"
            yield AssumedWhat.AIR_BRICK, brick.name, at, brick.underside_level_mm
    for number, cover in enumerate(site.covers):
        yield AssumedWhat.COVER, cover.name, f"site.covers.{number}.level_mm", cover.level_mm
    for number, edge in enumerate(site.tie_ins):
        path = f"site.tie_ins.{number}"
        yield AssumedWhat.EDGE, edge.name, f"{path}.start_level_mm", edge.start_level_mm
        yield AssumedWhat.EDGE, edge.name, f"{path}.end_level_mm", edge.end_level_mm


def _levels(site: Site) -> Iterator[tuple[AssumedWhat, str, str, float | None, Assumed | None]]:
    """Give kind, owner, place in the document, level and who assumes it, of what says so for all its levels."""
    for number, gully in enumerate(site.gullies):
        path = f"site.gullies.{number}"
        yield AssumedWhat.GULLY, gully.name, f"{path}.grating_level_mm", gully.grating_level_mm, gully.assumed
        yield AssumedWhat.GULLY, gully.name, f"{path}.invert_level_mm", gully.invert_level_mm, gully.assumed
    for number, channel in enumerate(site.channels):
        path = f"site.channels.{number}.invert_level_mm"
        yield AssumedWhat.CHANNEL, channel.name, path, channel.invert_level_mm, channel.assumed
    for number, outfall in enumerate(site.outfalls):
        path = f"site.outfalls.{number}.invert_level_mm"
        yield AssumedWhat.OUTFALL_LEVEL, outfall.name, path, outfall.invert_level_mm, outfall.assumed
    for number, line in enumerate(site.boundaries):
        path = f"site.boundaries.{number}.top_level_mm"
        yield AssumedWhat.BOUNDARY, line.name, path, line.top_level_mm, line.assumed


def _outfalls(site: Site) -> Iterator[AssumedFact]:
    """Give the outfalls at which nobody has seen water run."""
    for number, outfall in enumerate(site.outfalls):
        if not outfall.confirmed:
            by, why = (outfall.assumed.by, outfall.assumed.why) if outfall.assumed is not None else ("", "")
            path = f"site.outfalls.{number}.confirmed"
            yield AssumedFact(AssumedWhat.OUTFALL_TAKES_WATER, outfall.name, outfall.kind.value, "", by, why, path)


def _ground(site: Site) -> Iterator[AssumedFact]:
    """Give soil and topsoil where nobody dug a hole."""
    ground, path = site.ground, "site.ground"
    if ground.assumed is None:
        return
    by, why = ground.assumed.by, ground.assumed.why
    yield AssumedFact(AssumedWhat.SOIL, "", ground.soil.value, "", by, why, f"{path}.soil")
    if ground.topsoil_mm is not None:
        yield AssumedFact(AssumedWhat.TOPSOIL, "", ground.topsoil_mm, "mm", by, why, f"{path}.topsoil_mm")
