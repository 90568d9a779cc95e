"""A fall turned towards the house, with a channel at its foot: the option where the road lies higher than the house."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright.findings import FieldChange, Option
from pavewright.geometry import distance
from pavewright.job import Folding, OutfallKind
from pavewright.levels.clashes import _words as words
from pavewright.levels.design import fold_as
from pavewright.levels.edges import away_from, contacts

if TYPE_CHECKING:
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import PlanArea, Survey

_SAME_MM = 0.5
"""A point this near to a place is at it. [mm]"""
_RUNS_TO = 0.5
"""A wall is at the foot of a fall that runs to it within 60 degrees. [-]"""
_ORDER = (
    OutfallKind.SOAKAWAY,
    OutfallKind.BORDER,
    OutfallKind.LAWN,
    OutfallKind.WATERCOURSE,
    OutfallKind.SURFACE_WATER_SEWER,
    OutfallKind.COMBINED_SEWER,
)
"""Outfalls in the order in which a channel is led to them."""


def with_channel(
    area: PlanArea, surface: FoldedSurface, job: Job, survey: Survey, figures: LevelFigures
) -> tuple[Option, ...]:
    """Return the option that turns the fall towards the wall at its foot and puts a channel along it."""
    downhill = surface.main.plane.downhill
    for wall in survey.site.walls:
        inward = away_from(wall.start, wall.end, area.gross.centre_mm)
        if -(inward[0] * downhill[0] + inward[1] * downhill[1]) < _RUNS_TO:
            continue
        met = contacts(area, wall.start, wall.end, figures.meets_mm)
        if not met:
            continue
        longest = max(met, key=lambda contact: contact.length_mm)
        drained, outfall = channel_along(longest.start, longest.end, job, survey)
        said = words.turn_to_wall(area.name, wall.name, outfall)
        return (Option(said, (*drained, *fold_as(area, Folding.TO_HOUSE))),)
    return ()


def with_channel_across(area: PlanArea, direction: XY, job: Job, survey: Survey) -> tuple[Option, ...]:
    """Return the option that lets both ends of an area fall to a channel laid across its middle."""
    polygon = area.gross.polygon
    middle, reach = polygon.centroid, polygon.length
    along = -direction[1] * reach, direction[0] * reach
    line = LineString([(middle.x - along[0], middle.y - along[1]), (middle.x + along[0], middle.y + along[1])])
    cut = polygon.intersection(line)
    if not isinstance(cut, LineString) or any(area.gross.contains(placed.at) for placed in survey.site.gullies):
        return ()
    (x1, y1), (x2, y2) = cut.coords[0], cut.coords[-1]
    drained, outfall = channel_along((float(x1), float(y1)), (float(x2), float(y2)), job, survey)
    said = words.channel_across(area.name, outfall)
    return (Option(said, (*drained, *fold_as(area, Folding.VALLEY))),)


def channel_along(start: XY, end: XY, job: Job, survey: Survey) -> tuple[tuple[FieldChange, ...], str]:
    """Return the changes that put a channel between two places, and the name of the outfall that it is led to.

    Led to an outfall on the plot that somebody saw run, else to one not yet seen, else to a soakaway that is added.
    """
    site = job.site
    names, changes = [], []
    count = len(job.measurements.points)
    taken = {point.name for point in survey.points}
    for at in (start, end):
        known = next((each.name for each in survey.points if distance((each.x_mm, each.y_mm), at) < _SAME_MM), None)
        if known is None:
            known = _free("Channel end", taken)
            taken.add(known)
            path = f"measurements.points.{count}"
            changes += [FieldChange(f"{path}.name", known)]
            changes += [FieldChange(f"{path}.x_mm", round(at[0], 1)), FieldChange(f"{path}.y_mm", round(at[1], 1))]
            count += 1
        names.append(known)
    able = [outfall for outfall in site.outfalls if outfall.kind in _ORDER]
    best = min(able, key=lambda each: (not each.confirmed, _ORDER.index(each.kind)), default=None)
    outfall = best.name if best is not None else _free("Soakaway", {each.name for each in site.outfalls})
    if best is None:
        path = f"site.outfalls.{len(site.outfalls)}"
        changes += [
            FieldChange(f"{path}.name", outfall),
            FieldChange(f"{path}.kind", OutfallKind.SOAKAWAY.value),
            FieldChange(f"{path}.confirmed", value=False),
        ]
    path = f"site.channels.{len(site.channels)}"
    channel = _free("Channel", {each.name for each in site.channels})
    changes += [FieldChange(f"{path}.{field}", value) for field, value in (("name", channel), ("outfall", outfall))]
    changes += [FieldChange(f"{path}.start", names[0]), FieldChange(f"{path}.end", names[1])]
    return tuple(changes), outfall


def _free(name: str, taken: set[str]) -> str:
    """Return a name that nothing has yet."""
    number = 1
    while f"{name} {number}" in taken:
        number += 1
    return f"{name} {number}"
