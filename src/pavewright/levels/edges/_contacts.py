"""Where an area meets walls, tie-ins and other areas."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely
from shapely.geometry import LineString

from pavewright.geometry import along_and_offset, distance, point_along, unit_vector

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.survey import PlanArea

_Box = tuple[float, float, float, float]
_MIN_STRETCH_MM = 20.0
"""A stretch shorter than two joints is a corner touching, not a meeting. [mm]"""


@dataclass(frozen=True, slots=True)
class Contact:
    """A stretch along which an area meets a line.

    Attributes:
        start: Start of the stretch, on the line. [mm]
        end: End of the stretch, on the line. [mm]
        from_mm: Where it starts along the line. [mm]
        to_mm: Where it ends along the line. [mm]
    """

    start: XY
    end: XY
    from_mm: float
    to_mm: float

    @property
    def length_mm(self) -> float:
        """Length of the stretch. [mm]."""
        return self.to_mm - self.from_mm

    @property
    def middle(self) -> XY:
        """Its middle."""
        return (self.start[0] + self.end[0]) / 2.0, (self.start[1] + self.end[1]) / 2.0

    def overlaps(self, from_mm: float, to_mm: float) -> bool:
        """Return whether the stretch shares more than a point with another one on the same line."""
        return min(self.to_mm, to_mm) > max(self.from_mm, from_mm)


def contacts(area: PlanArea, start: XY, end: XY, within_mm: float) -> tuple[Contact, ...]:
    """Return the stretches of a line along which the edge of an area runs no further off than stated.

    Sides that only run up to the line square to it do not count.
    """
    length = distance(start, end)
    strip = LineString([start, end]).buffer(within_mm, cap_style="flat")
    found: list[tuple[float, float]] = []
    for side in area.sides:
        path = LineString([*side.points(), side.end.xy])
        for part in shapely.get_parts(shapely.intersection(path, strip)):
            if not isinstance(part, LineString) or part.length == 0.0:
                continue
            places = [along_and_offset(start, end, (float(x), float(y))) for x, y in part.coords]
            alongs = [min(max(along, 0.0), length) for along, _ in places]
            reach = max(alongs) - min(alongs)
            aside = max(offset for _, offset in places) - min(offset for _, offset in places)
            if reach > max(_MIN_STRETCH_MM, aside):
                found.append((min(alongs), max(alongs)))
    return tuple(
        Contact(point_along(start, end, low), point_along(start, end, high), low, high)
        for low, high in _joined(sorted(found))
    )


def _joined(stretches: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return stretches with those that touch made one."""
    merged: list[tuple[float, float]] = []
    for low, high in stretches:
        if merged and low <= merged[-1][1] + _MIN_STRETCH_MM:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged


def shared_edges(first: PlanArea, second: PlanArea, within_mm: float) -> tuple[Contact, ...]:
    """Return the stretches along which two areas share an edge, on the sides of the first."""
    if not _near(first.gross.bounds_mm, second.gross.bounds_mm, within_mm):
        return ()
    found: list[Contact] = []
    for side in first.sides:
        if side.start.rise_mm == 0.0:
            found.extend(contacts(second, side.start.xy, side.end.xy, within_mm))
    return tuple(found)


def _near(one: _Box, other: _Box, within_mm: float) -> bool:
    """Return whether two boxes come so near to each other; of 40 areas few pairs do."""
    apart = max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])
    return apart <= within_mm


def away_from(start: XY, end: XY, centre: XY) -> XY:
    """Return the direction square to a line, on the side on which a point stands, with length one."""
    ux, uy = unit_vector(start, end)
    _, offset = along_and_offset(start, end, centre)
    return (-uy, ux) if offset >= 0.0 else (uy, -ux)
