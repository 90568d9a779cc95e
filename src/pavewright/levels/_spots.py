"""Finished levels at named places, and clearances to what the paving meets."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset, point_along
from pavewright.levels._formulas import clearance_mm
from pavewright.levels._spot_types import SpotKind, SpotLevel
from pavewright.levels._types import DoorStep, WallClearance
from pavewright.levels.design import door_path
from pavewright.levels.edges import contacts
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.edges import Contact
    from pavewright.survey import PlanArea, PlanOpening, PlanWall, Survey


def corner_levels(area: PlanArea, surface: FoldedSurface) -> tuple[SpotLevel, ...]:
    """Return the finished level at each corner of an outline, holes included."""
    rings = (area.ring, *area.holes)
    return tuple(
        SpotLevel(SpotKind.CORNER, corner.name, corner.name, corner.xy, surface.level_at(corner.xy))
        for ring in rings
        for corner in ring.corners
    )


def spot_levels(area: PlanArea, surface: FoldedSurface, survey: Survey) -> tuple[SpotLevel, ...]:
    """Return finished levels at covers, gullies, doors and the ends of channels that the area holds or meets."""
    site = survey.site
    places = [(SpotKind.COVER, placed.cover.name, placed.at, "") for placed in site.covers]
    places += [(SpotKind.GULLY, placed.gully.name, placed.at, "") for placed in site.gullies]
    places += [
        (SpotKind.DOOR, door.name, _middle(door), door_path(number, place))
        for number, wall in enumerate(site.walls)
        for place, door in enumerate(wall.openings)
    ]
    for channel in site.channels:
        places.append((SpotKind.CHANNEL, f"{channel.name}, start", channel.start, ""))
        places.append((SpotKind.CHANNEL, f"{channel.name}, end", channel.end, ""))
    return tuple(
        SpotLevel(kind, name, name if kind is SpotKind.DOOR else f"{kind.value} {name}", at, surface.level_at(at), path)
        for kind, name, at, path in places
        if area.gross.contains(at, slack_mm=_NEAR_MM)
    )


def _middle(door: PlanOpening) -> XY:
    return (door.start[0] + door.end[0]) / 2.0, (door.start[1] + door.end[1]) / 2.0


_NEAR_MM = 200.0
"""How far past the edge a thing may stand to get a level of this area: a channel and its bed. [mm]"""


def wall_clearances(
    area: PlanArea, surface: FoldedSurface, survey: Survey, figures: LevelFigures
) -> tuple[WallClearance, ...]:
    """Return how far the paving lies below each damp-proof course that it meets."""
    found = []
    within = figures.meets_mm
    for wall in survey.site.walls:
        if wall.dpc_level_mm is None:
            continue
        met = [part for each in contacts(area, wall.start, wall.end, within) for part in parts_of(each, wall, surface)]
        for start, end in met:
            at_start = clearance_mm(wall.dpc_level_mm, surface.level_at(start))
            at_end = clearance_mm(wall.dpc_level_mm, surface.level_at(end))
            least = min(at_start, at_end)
            working = Working(
                f"clearance = {wall.dpc_level_mm:.1f} − {wall.dpc_level_mm - least:.1f}",
                least,
                "mm",
                (figures.below_dpc,),
                f"damp-proof course of wall {wall.name} less paving, where it is smallest",
            )
            found.append(WallClearance(wall.name, start, end, at_start, at_end, working))
    return tuple(found)


def parts_of(contact: Contact, wall: PlanWall, surface: FoldedSurface) -> list[tuple[XY, XY]]:
    """Return a stretch along a wall, split where a fold of the surface meets it."""
    cuts = {contact.from_mm, contact.to_mm}
    if not surface.is_plane:
        for facet in surface.facets:
            for corner in facet.outline:
                along, offset = along_and_offset(wall.start, wall.end, corner)
                if abs(offset) <= _FOLD_NEAR_MM and contact.from_mm < along < contact.to_mm:
                    cuts.add(along)
    places = [point_along(wall.start, wall.end, along) for along in sorted(cuts)]
    return [(start, end) for start, end in itertools.pairwise(places) if math.dist(start, end) > 1.0]


_FOLD_NEAR_MM = 50.0
"""A corner of a facet this near to a wall stands at it. [mm]"""


def door_steps(area: PlanArea, surface: FoldedSurface, survey: Survey, figures: LevelFigures) -> tuple[DoorStep, ...]:
    """Return the step down at each door that the area meets."""
    found = []
    within = figures.meets_mm
    for number, wall in enumerate(survey.site.walls):
        met = contacts(area, wall.start, wall.end, within)
        for place, door in enumerate(wall.openings):
            ends = math.dist(wall.start, door.start), math.dist(wall.start, door.end)
            if door.threshold_level_mm is not None and any(contact.overlaps(*ends) for contact in met):
                path = door_path(number, place)
                found.append(_door_step(area, surface, wall, door, path, door.threshold_level_mm))
    return tuple(found)


def _door_step(
    area: PlanArea, surface: FoldedSurface, wall: PlanWall, door: PlanOpening, path: str, threshold_mm: float
) -> DoorStep:
    """Return the step at a door, its jambs named as a person on the paving sees them."""
    first, half, last = (threshold_mm - surface.level_at(at) for at in (door.start, _middle(door), door.end))
    # with the paving to the left of the wall a person faces back along it: its end is on his left hand
    _, offset = along_and_offset(wall.start, wall.end, area.gross.centre_mm)
    if offset > 0.0:
        return DoorStep(wall.name, door.name, path, last, half, first, door.end, door.start)
    return DoorStep(wall.name, door.name, path, first, half, last, door.start, door.end)
