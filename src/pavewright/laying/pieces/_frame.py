"""The frame of the courses: x along them, y from the near course to the far one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.geometry import bearing_of, unit_vector
from pavewright.job import StartCorner

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from shapely.geometry import Polygon

    from pavewright.geometry import XY
    from pavewright.survey import PlanArea, Survey


@dataclass(frozen=True, slots=True)
class Frame:
    """Directions of the courses and a starting point.

    Attributes:
        bearing_deg: Direction of the courses, clockwise from the y axis of the site. [deg]
        pivot: Point about which the frame is turned; it keeps its coordinates. [mm]
        start: A corner of a unit, in the frame. [mm]
        from_right: Whether laying starts at the right end.
        from_far: Whether laying starts at the far course.
    """

    bearing_deg: float
    pivot: XY
    start: XY
    from_right: bool
    from_far: bool

    @property
    def _turn_deg(self) -> float:
        """How far the site is turned, anticlockwise, so that courses run along x. [deg]."""
        return self.bearing_deg - 90.0

    def into(self, shape: shapely.Geometry) -> shapely.Geometry:
        """Return a site geometry in the frame."""
        return _turned(shape, self._turn_deg, self.pivot)

    def out_of(self, shape: shapely.Geometry) -> shapely.Geometry:
        """Return a geometry of the frame on the site."""
        return _turned(shape, -self._turn_deg, self.pivot)

    def out_of_polygons(self, polygons: Sequence[Polygon]) -> list[Polygon]:
        """Return polygons of the frame on the site, turned together."""
        if self._turn_deg == 0.0:
            return list(polygons)
        turned = shapely.transform(np.array(polygons, dtype=object), _turning(-self._turn_deg, self.pivot))
        return list(turned)

    def point_out_of(self, point: XY) -> XY:
        """Return a point of the frame on the site."""
        return _turned_point(point, -self._turn_deg, self.pivot)


def frame_of(area: PlanArea, survey: Survey) -> Frame:
    """Return the frame of an area: its direction, and the point from which units are laid."""
    laying = area.area.laying
    if laying.along is None:
        bearing = laying.bearing_deg
    else:
        first, second = (survey.point(name).xy for name in laying.along)
        bearing = bearing_of(unit_vector(first, second))
    if laying.turn_deg:
        bearing = (bearing + laying.turn_deg) % 360.0
    pivot = area.ring.corners[0].xy
    from_right = laying.start_corner in {StartCorner.NEAR_RIGHT, StartCorner.FAR_RIGHT}
    from_far = laying.start_corner in {StartCorner.FAR_LEFT, StartCorner.FAR_RIGHT}
    turn = bearing - 90.0
    if laying.origin is not None:
        start = _turned_point(survey.point(laying.origin).xy, turn, pivot)
    else:
        start = _starting_corner(area, turn, pivot, from_right=from_right, from_far=from_far)
    shift_x = -laying.shift_along_mm if from_right else laying.shift_along_mm
    shift_y = -laying.shift_across_mm if from_far else laying.shift_across_mm
    gap = laying.wall_joint_mm if laying.origin is None else 0.0
    start = (
        start[0] + shift_x + (-gap if from_right else gap),
        start[1] + shift_y + (-gap if from_far else gap),
    )
    return Frame(bearing, pivot, start, from_right, from_far)


def _starting_corner(area: PlanArea, turn_deg: float, pivot: XY, *, from_right: bool, from_far: bool) -> XY:
    """Return the corner of the outline nearest to the corner of its bounding box from which laying starts."""
    corners = [_turned_point(corner.xy, turn_deg, pivot) for corner in area.ring.corners]
    pick_x, pick_y = (max if from_right else min), (max if from_far else min)
    wanted = pick_x(x for x, _ in corners), pick_y(y for _, y in corners)
    return min(corners, key=lambda corner: math.hypot(corner[0] - wanted[0], corner[1] - wanted[1]))


def _turned(shape: shapely.Geometry, turn_deg: float, pivot: XY) -> shapely.Geometry:
    return shape if turn_deg == 0.0 else shapely.transform(shape, _turning(turn_deg, pivot))


def _turning(turn_deg: float, pivot: XY) -> Callable[[np.ndarray], np.ndarray]:
    """Return what turns points about another, shape (n, 2)."""
    cos, sin = _cos_sin(turn_deg)

    matrix = np.array(((cos, sin), (-sin, cos)))
    about = np.array(pivot)

    def turn(points: np.ndarray) -> np.ndarray:
        turned: np.ndarray = (points - about) @ matrix + about
        return turned

    return turn


def _turned_point(point: XY, turn_deg: float, pivot: XY) -> XY:
    if turn_deg == 0.0:
        return point
    cos, sin = _cos_sin(turn_deg)
    x, y = point[0] - pivot[0], point[1] - pivot[1]
    return pivot[0] + x * cos - y * sin, pivot[1] + x * sin + y * cos


def _cos_sin(turn_deg: float) -> XY:
    """Return cosine and sine, exact at right angles."""
    quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}.get(turn_deg % 360.0)
    return quarter or (math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg)))
