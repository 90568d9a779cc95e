"""A plane: the finished surface of one paved area."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry._vectors import XY, XYZ, bearing_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane given by its level at one point and its slopes.

    Attributes:
        level_mm: Level at the origin. [mm]
        origin_mm: The point in plan at which the level holds. [mm]
        slope_x: Rise per run towards east. [-]
        slope_y: Rise per run towards north. [-]
    """

    level_mm: float
    origin_mm: XY
    slope_x: float
    slope_y: float

    def level_at(self, point: XY) -> float:
        """Return the level at a plan point. [mm].

        >>> Plane(1000.0, (0.0, 0.0), -0.02, 0.0).level_at((3000.0, 500.0))
        940.0
        """
        return (
            self.level_mm
            + self.slope_x * (point[0] - self.origin_mm[0])
            + self.slope_y * (point[1] - self.origin_mm[1])
        )

    def levels_at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the levels at rows of plan points, of any shape. [mm].

        Args:
            x: Places towards east, of any shape. [mm]
            y: Places towards north, of the same shape. [mm]
        """
        levels: NDArray[np.float64] = (
            self.level_mm + self.slope_x * (x - self.origin_mm[0]) + self.slope_y * (y - self.origin_mm[1])
        )
        return levels

    @property
    def fall(self) -> float:
        """Steepest fall, as rise over run."""
        return math.hypot(self.slope_x, self.slope_y)

    @property
    def downhill(self) -> XY:
        """Direction of the steepest fall with length one; (0, 0) for a level plane."""
        if self.fall == 0.0:
            return 0.0, 0.0
        return -self.slope_x / self.fall, -self.slope_y / self.fall

    @property
    def bearing_deg(self) -> float:
        """Direction of the steepest fall, degrees clockwise from the y axis."""
        return bearing_of(self.downhill)

    def fall_along(self, direction: XY) -> float:
        """Return the fall along a direction of length one; negative where it rises."""
        return -(self.slope_x * direction[0] + self.slope_y * direction[1])

    def lowered(self, depth_mm: float) -> Plane:
        """Return the plane a thickness lower."""
        return Plane(self.level_mm - depth_mm, self.origin_mm, self.slope_x, self.slope_y)


def plane_through(points: tuple[XYZ, XYZ, XYZ]) -> Plane:
    """Return the plane through three points.

    Raises:
        ValueError: the three points lie on one line in plan.
    """
    (x0, y0, z0), (x1, y1, z1), (x2, y2, z2) = points
    ax, ay, az = x1 - x0, y1 - y0, z1 - z0
    bx, by, bz = x2 - x0, y2 - y0, z2 - z0
    spread = ax * by - ay * bx
    if spread == 0.0:
        message = "three points on one line carry no plane"
        raise ValueError(message)
    return Plane(z0, (x0, y0), (az * by - bz * ay) / spread, (ax * bz - bx * az) / spread)


def fit_plane(points: Sequence[XYZ]) -> Plane:
    """Return the plane that fits three or more points best, vertical offsets squared.

    Means are taken off first, so that a hundred metres of datum does not eat the millimetres.

    Valid for: points not all on one line in plan.
    Source: definition, normal equations of least squares

    Raises:
        ValueError: fewer than three points, or all on one line.
    """
    array = np.asarray(points, dtype=np.float64)
    if array.shape[0] < 3:  # noqa: PLR2004
        message = "a plane needs at least three readings"
        raise ValueError(message)
    mean = array.mean(axis=0)
    centred = array - mean
    normal = centred[:, :2].T @ centred[:, :2]
    scale = float(np.trace(normal))
    if scale == 0.0 or float(np.linalg.det(normal)) < 1e-10 * scale * scale:
        message = "the readings lie on one line and carry no plane"
        raise ValueError(message)
    slope = np.linalg.solve(normal, centred[:, :2].T @ centred[:, 2])
    return Plane(float(mean[2]), (float(mean[0]), float(mean[1])), float(slope[0]), float(slope[1]))
