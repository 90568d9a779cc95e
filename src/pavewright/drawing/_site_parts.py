"""Parts that several plans share: outlines, walls, doors, covers, drains, boundaries."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import CHAIN, DASHED, MEDIUM, THICK, THIN, Path, Region
from pavewright.geometry import along_and_offset, point_along

if TYPE_CHECKING:
    from pavewright.drawing._sheet import Sheet
    from pavewright.geometry import XY, Shape
    from pavewright.survey import PlanWall, SitePlan, Survey

_WALL_MM = 260.0
"""Drawn thickness of a wall. [mm]"""
_CIRCLE_PARTS = 36


def site_points(survey: Survey) -> list[XY]:
    """Return the points that a plan of the paved areas has to show."""
    points = [point for area in survey.site.areas for point in area.gross.outer]
    for wall in survey.site.walls:
        points += [wall.start, wall.end]
    return points


def rings(shape: Shape) -> tuple[tuple[XY, ...], ...]:
    """Return the rings of a shape."""
    return (shape.outer, *shape.holes)


def circle(centre: XY, radius_mm: float) -> tuple[XY, ...]:
    """Return a circle as points."""
    step = 2.0 * math.pi / _CIRCLE_PARTS
    return tuple(
        (centre[0] + radius_mm * math.cos(k * step), centre[1] + radius_mm * math.sin(k * step))
        for k in range(_CIRCLE_PARTS)
    )


def draw_site(sheet: Sheet, site: SitePlan) -> None:
    """Draw what stands on the site: walls with doors, boundaries, drains, covers and posts."""
    middle = _middle(site)
    for wall in site.walls:
        _wall(sheet, wall, middle)
    for boundary in site.boundaries:
        sheet.add(Path((boundary.start, boundary.end), CHAIN))
    for tie in site.tie_ins:
        sheet.add(Path((tie.start, tie.end), DASHED))
    for channel in site.channels:
        half = channel.width_mm / 2.0
        ends = [point_along(channel.start, channel.end, 0.0, off) for off in (half, -half)]
        run = math.dist(channel.start, channel.end)
        far = [point_along(channel.start, channel.end, run, off) for off in (-half, half)]
        sheet.add(Region(((*ends, *far),), "grey", THIN))
    for placed in site.covers:
        corners = placed.outline
        sheet.add(Region((corners,), "white", MEDIUM), Path((corners[0], corners[2]), THIN))
    for gully in site.gullies:
        half = gully.gully.size_mm / 2.0
        x, y = gully.at
        square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
        sheet.add(Region((square,), "grey", MEDIUM))
    for post in site.obstacles:
        sheet.add(Region((post.outline,), "wall", MEDIUM))


def _middle(site: SitePlan) -> XY:
    points = [point for area in site.areas for point in area.gross.outer]
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _wall(sheet: Sheet, wall: PlanWall, middle: XY) -> None:
    """Draw a wall as a hatched strip on the side away from the paving, doors left open."""
    length = math.dist(wall.start, wall.end)
    sign = -1.0 if along_and_offset(wall.start, wall.end, middle)[1] >= 0.0 else 1.0
    opened = sorted(
        (along_and_offset(wall.start, wall.end, door.start)[0], along_and_offset(wall.start, wall.end, door.end)[0])
        for door in wall.openings
    )
    begin = 0.0
    for low, high in [*opened, (length, length)]:
        if low > begin:
            sheet.add(Region((_strip(wall, begin, low, sign),), "wall", THIN))
        if high > low:
            sheet.add(Region((_strip(wall, low, high, sign),), "white", THIN))
        begin = high
    sheet.add(Path((wall.start, wall.end), THICK))


def _strip(wall: PlanWall, low: float, high: float, sign: float) -> tuple[XY, ...]:
    deep = sign * _WALL_MM
    return (
        point_along(wall.start, wall.end, low),
        point_along(wall.start, wall.end, high),
        point_along(wall.start, wall.end, high, deep),
        point_along(wall.start, wall.end, low, deep),
    )
