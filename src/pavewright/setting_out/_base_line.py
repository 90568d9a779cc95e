"""The base line of an area: the side from which everything else is measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import along_and_offset, point_along

if TYPE_CHECKING:
    from pavewright.geometry import XY, Side
    from pavewright.levels import FinishedArea
    from pavewright.survey import PlanArea


@dataclass(frozen=True, slots=True)
class BaseLine:
    """A side of the outline, from its start to its end, the area to its left."""

    side: Side

    @property
    def name(self) -> str:
        """The two corners."""
        return self.side.name

    def measures(self, point: XY) -> XY:
        """Return how far along the line a point lies, and how far to its left. [mm]."""
        return along_and_offset(self.side.start.xy, self.side.end.xy, point)

    def place(self, along_mm: float, offset_mm: float) -> XY:
        """Return the point at a distance along the line and off it."""
        return point_along(self.side.start.xy, self.side.end.xy, along_mm, offset_mm)

    def words(self, point: XY) -> str:
        """Return where a point is, measured from the line."""
        along, offset = self.measures(point)
        start = self.side.start.name
        way = "along from" if along >= 0.0 else "back from"
        first = f"{units.metres_text(abs(along))} {way} {start}"
        if abs(offset) < 1.0:
            return f"{first}, on the line"
        return f"{first}, {units.metres_text(abs(offset))} square {'left' if offset > 0 else 'right'}"


def base_line(area: PlanArea, finished: FinishedArea) -> BaseLine:
    """Return the side to measure from: the longest straight side along a wall, else the longest straight side."""
    straight = [side for side in area.sides if side.start.rise_mm == 0.0] or list(area.sides)
    on_wall = [
        side for side in straight if any(_along_wall(side, wall.start, wall.end) for wall in finished.clearances)
    ]
    return BaseLine(max(on_wall or straight, key=lambda side: side.chord_mm))


_ON_WALL_MM = 150.0
"""A side whose both ends lie this near to the line of a wall runs along it. [mm]"""


def _along_wall(side: Side, start: XY, end: XY) -> bool:
    return all(abs(along_and_offset(start, end, corner.xy)[1]) <= _ON_WALL_MM for corner in (side.start, side.end))
