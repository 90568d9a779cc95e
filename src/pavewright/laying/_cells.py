"""Units laid over an area and clipped to it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.geometry import shared

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.geometry import XY

MOST_CELLS = 400_000
"""More units than any home has: the size of the unit or of the area must be wrong."""


@dataclass(frozen=True, slots=True)
class Grid:
    """How units repeat, in the frame of the courses.

    Attributes:
        along_mm: Length of a unit along the courses. [mm]
        across_mm: Its size square to them. [mm]
        joint_mm: Joint. [mm]
        stagger: Shift of each course against the one before, as a part of unit and joint.
        start: A corner of a unit. [mm]
        from_right: Whether that is a right corner.
        from_far: Whether it is a far corner.
    """

    along_mm: float
    across_mm: float
    joint_mm: float
    stagger: float
    start: XY
    from_right: bool = False
    from_far: bool = False

    @property
    def pitch_x_mm(self) -> float:
        """Unit and joint along. [mm]."""
        return self.along_mm + self.joint_mm

    @property
    def pitch_y_mm(self) -> float:
        """Unit and joint across. [mm]."""
        return self.across_mm + self.joint_mm

    def moved(self, along_mm: float, across_mm: float) -> Grid:
        """Return the same grid shifted."""
        start = self.start[0] + along_mm, self.start[1] + across_mm
        return Grid(self.along_mm, self.across_mm, self.joint_mm, self.stagger, start, self.from_right, self.from_far)


@dataclass(frozen=True, slots=True)
class Clipped:
    """What is left of one unit inside the area; several parts where a hole splits it.

    Attributes:
        course: Number of the course from the start, 0 for the course at the start, negative before it.
        x_mm: Left edge of the unit. [mm]
        y_mm: Near edge of the unit. [mm]
        part: The part inside, in the frame.
        untouched: Whether the whole unit lies inside.
    """

    course: int
    x_mm: float
    y_mm: float
    part: Polygon
    untouched: bool


def cell_count(region: Polygon, grid: Grid) -> float:
    """Return about how many units it takes to cover the bounding box of an area."""
    x1, y1, x2, y2 = region.bounds
    return ((x2 - x1) / grid.pitch_x_mm + 2.0) * ((y2 - y1) / grid.pitch_y_mm + 2.0)


def corners_of_cells(region: Polygon, grid: Grid) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the left edge, near edge and course of every unit that may touch an area; each of shape (n,)."""
    x1, y1, x2, y2 = region.bounds
    y_start = grid.start[1] - (grid.across_mm if grid.from_far else 0.0)
    x_start = grid.start[0] - (grid.along_mm if grid.from_right else 0.0)
    rows = np.arange(math.floor((y1 - y_start) / grid.pitch_y_mm) - 1, math.ceil((y2 - y_start) / grid.pitch_y_mm) + 1)
    columns = np.arange(
        math.floor((x1 - x_start) / grid.pitch_x_mm) - 2, math.ceil((x2 - x_start) / grid.pitch_x_mm) + 2
    )
    sign = -1.0 if grid.from_right else 1.0
    turned = -rows if grid.from_far else rows
    shift = sign * ((turned * grid.stagger) % 1.0) * grid.pitch_x_mm
    x = x_start + columns[None, :] * grid.pitch_x_mm + shift[:, None]
    y = np.broadcast_to((y_start + rows * grid.pitch_y_mm)[:, None], x.shape)
    course = np.broadcast_to(turned[:, None], x.shape)
    return x.ravel(), y.ravel(), course.ravel()


def clip(region: Polygon, grid: Grid, *, whole_too: bool = True) -> Iterator[Clipped]:
    """Give what is left of every unit inside an area.

    Units are sorted first into outside, inside and on the edge by prepared predicates; only those on the edge are
    clipped, so that the work grows with the number of units and with the length of the outline.
    """
    x, y, course = corners_of_cells(region, grid)
    boxes = shapely.box(x, y, x + grid.along_mm, y + grid.across_mm)
    shapely.prepare(region)
    touching = np.flatnonzero(shapely.intersects(region, boxes))
    inside = np.zeros(len(x), dtype=bool)
    inside[touching] = shapely.contains_properly(region, boxes[touching])
    edge = touching[~inside[touching]]
    parts = dict(zip(edge.tolist(), shared(boxes[edge], region), strict=True))
    for index in touching.tolist():
        place = int(course[index]), float(x[index]), float(y[index])
        if inside[index]:
            if whole_too:
                yield Clipped(*place, boxes[index], untouched=True)
            continue
        for part in shapely.get_parts(parts[index]):
            if isinstance(part, Polygon) and part.area > 0.0:
                yield Clipped(*place, part, untouched=False)
