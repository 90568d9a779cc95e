"""Checks across the document: names that stand twice, names that nobody knows, wishes that contradict each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job._document import Job
    from pavewright.job._paving import Area

_SMALLEST_MM = 100.0
"""No tape, wall or side of a paved area is shorter than all of these together: such numbers are metres. [mm]"""
_PACKED_AS = {
    "cement": {"kg"},
    "sharp_sand": {"kg", "m3"},
    "soft_sand": {"kg", "m3"},
    "ballast": {"kg", "m3"},
    "sub_base": {"kg", "m3"},
    "joint_sand": {"kg", "m3"},
    "geotextile": {"m2"},
    "edging": {"m", "each"},
    "kerb": {"m", "each"},
    "channel": {"m", "each"},
    "plasticiser": {"litre"},
    "bond_coat": {"kg"},
}
"""Units in which a material can be ordered; materials that are not listed take any."""


def cross_faults(job: Job) -> tuple[Fault, ...]:
    """Return every fault that no single field shows."""
    return tuple(
        fault for check in (_doubles, _references, _points_named, _wishes, _sizes, _trade) for fault in check(job)
    )


def known_points(job: Job) -> frozenset[str]:
    """Return the names of all points that are placed by coordinates, offsets or tapes."""
    measured = job.measurements
    names = {point.name for point in measured.points} | {point.name for point in measured.offsets}
    if measured.tape_plan is not None:
        names |= {measured.tape_plan.base_from, measured.tape_plan.base_to}
        names |= {end for tape in measured.tape_plan.tapes for end in (tape.start, tape.end)}
    return frozenset(names)


def _doubles(job: Job) -> Iterator[Fault]:
    """Give names that stand twice where each has to be told from the others."""
    site = job.site
    lists: tuple[tuple[str, str, Iterable[str]], ...] = (
        ("areas", "area", (each.name for each in job.areas)),
        ("units", "paving unit", (each.name for each in job.units)),
        ("steps", "flight of steps", (each.name for each in job.steps)),
        ("site.walls", "wall", (each.name for each in site.walls)),
        ("site.outfalls", "outfall", (each.name for each in site.outfalls)),
        ("site.gullies", "gully", (each.name for each in site.gullies)),
        ("site.channels", "channel", (each.name for each in site.channels)),
        ("site.covers", "cover", (each.name for each in site.covers)),
        ("site.boundaries", "boundary", (each.name for each in site.boundaries)),
        ("site.tie_ins", "edge to meet", (each.name for each in site.tie_ins)),
        ("measurements.level_books", "level book", (each.name for each in job.measurements.level_books)),
        ("rates.materials", "material", (each.key for each in job.rates.materials)),
    )
    for path, what, names in lists:
        seen: set[str] = set()
        for number, name in enumerate(names):
            if name in seen:
                yield Fault(f"{path}.{number}", f"There are two of {what} {name}: give one of them another name.")
            seen.add(name)
    for number, area in enumerate(job.areas):
        corners = [corner.point for corner in area.outline]
        for place, point in enumerate(corners):
            if point in corners[:place]:
                words = f"Area {area.name} goes through {point} twice: check the order of its corners."
                yield Fault(f"areas.{number}.outline.{place}", words)


def _references(job: Job) -> Iterator[Fault]:
    """Give names of units, walls, outfalls, areas and corners that are nowhere defined."""
    laid, walls = {each.name for each in job.units}, {each.name for each in job.site.walls}
    for number, area in enumerate(job.areas):
        path, wall = f"areas.{number}", area.fall.away_from
        if area.laying.unit not in laid:
            words = f"Area {area.name} is laid in {area.laying.unit}, which is not among the units."
            yield Fault(f"{path}.laying.unit", words)
        if wall is not None and wall not in walls:
            yield Fault(f"{path}.fall.away_from", f"Area {area.name} falls away from {wall}, which is no wall here.")
        yield from _corners(area, path)
    outfalls = {each.name for each in job.site.outfalls}
    drains = [(f"gullies.{n}", each.name, each.outfall) for n, each in enumerate(job.site.gullies)]
    drains += [(f"channels.{n}", each.name, each.outfall) for n, each in enumerate(job.site.channels)]
    for place, name, outfall in drains:
        if outfall is not None and outfall not in outfalls:
            words = f"{name} runs to {outfall}, which is not among the outfalls: say where it goes."
            yield Fault(f"site.{place}.outfall", words)
    yield from _steps_and_readings(job)


def _steps_and_readings(job: Job) -> Iterator[Fault]:
    """Give flights of steps and readings as laid that name areas or corners that are not there."""
    areas = {each.name: each for each in job.areas}
    for number, steps in enumerate(job.steps):
        for field, name in (("upper_area", steps.upper_area), ("lower_area", steps.lower_area)):
            if name not in areas:
                yield Fault(f"steps.{number}.{field}", f"{steps.name} joins {name}, which is no area here.")
        if steps.upper_area == steps.lower_area:
            yield Fault(f"steps.{number}", f"{steps.name} joins {steps.upper_area} to itself: name two areas.")
        upper = areas.get(steps.upper_area)
        if upper is not None and steps.corner not in {corner.point for corner in upper.outline}:
            words = f"{steps.name} leaves {upper.name} at {steps.corner}, which is none of its corners."
            yield Fault(f"steps.{number}.corner", words)
    for number, reading in enumerate(job.as_laid.readings if job.as_laid is not None else ()):
        if reading.area not in areas:
            words = f"There is no area {reading.area}: name the area that was read on."
            yield Fault(f"as_laid.readings.{number}.area", words)


def _corners(area: Area, path: str) -> Iterator[Fault]:
    corners = {corner.point for corner in area.outline}
    seen: set[str] = set()
    for number, edge in enumerate(area.edges):
        if edge.corner not in corners:
            words = f"An edge of {area.name} starts at {edge.corner}, which is none of its corners."
            yield Fault(f"{path}.edges.{number}.corner", words)
        if edge.corner in seen:
            words = f"The side of {area.name} that leaves {edge.corner} is held twice: keep one."
            yield Fault(f"{path}.edges.{number}", words)
        seen.add(edge.corner)


def _points_named(job: Job) -> Iterator[Fault]:
    """Give points that a wish or a laying names and nobody measured."""
    known = known_points(job)
    for number, area in enumerate(job.areas):
        named = [("fall.level_at", area.fall.level_at), ("laying.origin", area.laying.origin)]
        named += [(f"laying.along.{place}", point) for place, point in enumerate(area.laying.along or ())]
        for field, point in named:
            if point is not None and point not in known:
                yield Fault(f"areas.{number}.{field}", f"Point {point} is not measured: measure it or name another.")
        along = area.laying.along
        if along is not None and along[0] == along[1]:
            yield Fault(f"areas.{number}.laying.along", f"Courses of {area.name} run from {along[0]} to itself.")


def _wishes(job: Job) -> Iterator[Fault]:
    """Give wishes for a fall that contradict each other or are half said."""
    for number, area in enumerate(job.areas):
        wish, path = area.fall, f"areas.{number}.fall"
        if wish.away_from is not None and wish.bearing_deg is not None:
            yield Fault(
                path, f"{area.name} is to fall away from {wish.away_from} and to a bearing: keep one of the two."
            )
        if (wish.level_at is None) != (wish.level_mm is None):
            yield Fault(
                path, f"{area.name}: a level asked for takes both, level_at for the point and level_mm for the level."
            )


def _sizes(job: Job) -> Iterator[Fault]:
    """Give sizes that look like metres, and obstacles without a size."""
    measured = job.measurements
    if measured.tape_plan is not None and measured.tape_plan.tapes:
        longest = max(tape.length_mm for tape in measured.tape_plan.tapes)
        if longest < _SMALLEST_MM:
            words = f"The longest tape is {longest:g}: that looks like metres. Write millimetres, {units.m_to_mm(longest):g}."
            yield Fault("measurements.tape_plan.tapes", words)
    places = {point.name: (point.x_mm, point.y_mm) for point in measured.points}
    for number, area in enumerate(job.areas):
        corners = [places[corner.point] for corner in area.outline if corner.point in places]
        if len(corners) < len(area.outline):
            continue
        reach = max(max(values) - min(values) for values in zip(*corners, strict=True))
        if 0.0 < reach < _SMALLEST_MM:
            words = f"Area {area.name} is {reach:g} across: that looks like metres. Write millimetres, {units.m_to_mm(reach):g}."
            yield Fault(f"areas.{number}.outline", words)
    for number, post in enumerate(job.site.obstacles):
        round_one, square = post.diameter_mm is not None, post.length_mm is not None and post.width_mm is not None
        if round_one == square or (post.length_mm is None) != (post.width_mm is None):
            words = f"{post.name} needs either a diameter, or a length and a width: measure it."
            yield Fault(f"site.obstacles.{number}", words)


def _trade(job: Job) -> Iterator[Fault]:
    """Give prices in units in which a material is not ordered, and ends of a range the wrong way round."""
    for number, material in enumerate(job.rates.materials):
        allowed = _PACKED_AS.get(material.key)
        if allowed is not None and material.pack_unit not in allowed:
            words = f"{material.key} is ordered by {' or '.join(sorted(allowed))}, not by {material.pack_unit}."
            yield Fault(f"rates.materials.{number}.pack_unit", words)
    for number, unit in enumerate(job.units):
        if unit.joint_least_mm > unit.joint_most_mm:
            words = f"{unit.name}: the least joint is wider than the greatest."
            yield Fault(f"units.{number}.joint_least_mm", words)
    for wall_number, wall in enumerate(job.site.walls):
        for number, door in enumerate(wall.openings):
            if door.most_step_mm is not None and door.most_step_mm < door.least_step_mm:
                words = f"{door.name}: the greatest step is smaller than the least."
                yield Fault(f"site.walls.{wall_number}.openings.{number}", words)
