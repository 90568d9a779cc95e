"""Units as a pattern places them, before the outline cuts them."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True)
class Placing:
    """Units with their places; every array has the shape (n,).

    Attributes:
        x_mm: Corner from which length runs forward and width runs to the left. [mm]
        y_mm: The same corner. [mm]
        turn_deg: Direction of the length, anticlockwise from the x axis. [deg]
        along_mm: Length of each unit. [mm]
        across_mm: Width of each unit. [mm]
        course: Number of the course from the start, 0 at the start, negative before it.
        order: What sorts units within their course. [mm]
        size: Which of the sizes of the bond each unit has.
    """

    x_mm: np.ndarray
    y_mm: np.ndarray
    turn_deg: np.ndarray
    along_mm: np.ndarray
    across_mm: np.ndarray
    course: np.ndarray
    order: np.ndarray
    size: np.ndarray

    def __len__(self) -> int:
        """Return the number of units."""
        return len(self.x_mm)

    def of(self, places: np.ndarray) -> Placing:
        """Return some of the units, by their places, shape (m,)."""
        return Placing(**{each.name: getattr(self, each.name)[places] for each in fields(Placing)})

    def middles(self) -> tuple[np.ndarray, np.ndarray]:
        """Return the middle of every unit, each of shape (n,). [mm]."""
        cos, sin = cos_sin(self.turn_deg)
        along, across = self.along_mm / 2.0, self.across_mm / 2.0
        return self.x_mm + cos * along - sin * across, self.y_mm + sin * along + cos * across

    def boxes(self) -> np.ndarray:
        """Return the box round each unit: min x, min y, max x, max y, of shape (n, 4). [mm]."""
        cos, sin = cos_sin(self.turn_deg)
        x, y = self.x_mm + cos * self.along_mm, self.y_mm + sin * self.along_mm
        left, up = -sin * self.across_mm, cos * self.across_mm
        across = np.stack((self.x_mm, x, x + left, self.x_mm + left))
        along = np.stack((self.y_mm, y, y + up, self.y_mm + up))
        return np.stack((across.min(axis=0), along.min(axis=0), across.max(axis=0), along.max(axis=0)), axis=1)

    def outlines(self) -> np.ndarray:
        """Return the units as shapely polygons, of shape (n,)."""
        if not np.any(self.turn_deg):
            return np.asarray(shapely.box(self.x_mm, self.y_mm, self.x_mm + self.along_mm, self.y_mm + self.across_mm))
        cos, sin = cos_sin(self.turn_deg)
        forth = np.stack((cos * self.along_mm, sin * self.along_mm), axis=-1)
        left = np.stack((-sin * self.across_mm, cos * self.across_mm), axis=-1)
        corner = np.stack((self.x_mm, self.y_mm), axis=-1)
        rings = np.stack((corner, corner + forth, corner + forth + left, corner + left), axis=1)
        return np.asarray(shapely.polygons(rings))


def joined_placings(placings: Sequence[Placing]) -> Placing:
    """Return all units of several placings in one."""
    columns: dict[str, Any] = {
        each.name: np.concatenate([getattr(placing, each.name) for placing in placings]) for each in fields(Placing)
    }
    return Placing(**columns)


def cos_sin(turn_deg: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return cosines and sines, exact at right angles; each of shape (n,)."""
    turn = np.radians(turn_deg)
    cos, sin = np.cos(turn), np.sin(turn)
    quarter = np.mod(turn_deg, 90.0) == 0.0
    return np.where(quarter, np.round(cos), cos), np.where(quarter, np.round(sin), sin)
