"""Units laid over an area and clipped to it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.geometry import shared

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying.patterns import Placing

MAX_CELLS = 400_000
"""More units than any home has: the size of the unit or of the area must be wrong."""
MAX_UNITS = 60_000
"""Most units of one area: 1200 m² of blocks of 200 × 100. 47 000 of them took 4 s of one core of a small server, and a
stop with options lays an area up to nine times."""


@dataclass(frozen=True)
class Clipped:
    """What is left of one unit inside the area; several parts where a hole splits it.

    Attributes:
        border: Whether the unit belongs to a border.
        course: Number of the course from the start, 0 for the course at the start, negative before it.
        order: What sorts units within their course. [mm]
        size: Which of the sizes of the area the unit has.
        x_mm: Corner from which its length runs forward and its width to the left. [mm]
        y_mm: The same corner. [mm]
        turn_deg: Direction of its length, anticlockwise from the courses. [deg]
        along_mm: Length of the unit. [mm]
        across_mm: Width of the unit. [mm]
        part: The part inside, in the frame.
        untouched: Whether the whole unit lies inside.
    """

    border: bool
    course: int
    order: float
    size: int
    x_mm: float
    y_mm: float
    turn_deg: float
    along_mm: float
    across_mm: float
    part: Polygon
    untouched: bool

    @cached_property
    def on_unit(self) -> Polygon:
        """The part as it lies on its own unit, the unit's corner in the origin and its length along x."""
        turn = math.radians(self.turn_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        if self.turn_deg % 90.0 == 0.0:
            cos, sin = float(round(cos)), float(round(sin))
        away = np.array((self.x_mm, self.y_mm))
        matrix = np.array(((cos, -sin), (sin, cos)))

        def turned(points: np.ndarray) -> np.ndarray:
            found: np.ndarray = (points - away) @ matrix
            return found

        return shapely.transform(self.part, turned)


def clip(region: Polygon, placing: Placing, *, whole_too: bool = True, border: bool = False) -> Iterator[Clipped]:
    """Give what is left of every unit inside an area.

    Units are sorted first into outside, inside and on the edge by prepared predicates; only those on the edge are
    clipped, so that the work grows with the number of units and with the length of the outline.
    """
    touching, inside = sorted_units(region, placing)
    if not whole_too:
        touching = touching[~inside[touching]]
    outlines = placing.of(touching).outlines()
    edge = ~inside[touching]
    parts = dict(zip(touching[edge].tolist(), shared(outlines[edge], region), strict=True))
    for index, outline in zip(touching.tolist(), outlines, strict=True):
        if inside[index]:
            yield clipped(placing, index, outline, border=border, untouched=True)
            continue
        for part in shapely.get_parts(parts[index]):
            if isinstance(part, Polygon) and part.area > 0.0:
                yield clipped(placing, index, part, border=border, untouched=False)


def sorted_units(region: Polygon, placing: Placing) -> tuple[np.ndarray, np.ndarray]:
    """Return which units touch an area, as their places, and of all of them whether they lie wholly inside.

    A unit whose middle lies farther from the outline than its corners do from its middle needs no closer look.
    """
    shapely.prepare(region)
    x, y = placing.middles()
    far = _SURELY * float(np.hypot(placing.along_mm, placing.across_mm).max(initial=0.0)) / 2.0
    inside = _holds(region.buffer(-far), x, y)
    open_yet = np.flatnonzero(_holds(region.buffer(far), x, y) & ~inside)
    outlines = placing.of(open_yet).outlines()
    touches = shapely.intersects(region, outlines)
    touching = np.union1d(np.flatnonzero(inside), open_yet[touches])
    inside[open_yet[touches & shapely.contains_properly(region, outlines)]] = True
    return touching, inside


_SURELY = 1.05
"""How much farther than its corners a unit is looked for: a rounded outline is drawn in chords. [-]"""


def _holds(shape: shapely.Geometry, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    shapely.prepare(shape)
    return np.asarray(shapely.contains_xy(shape, x, y))


def clipped(placing: Placing, index: int, part: Polygon, *, border: bool, untouched: bool) -> Clipped:
    """Return a part of one unit of a placing."""
    return Clipped(
        border=border,
        course=int(placing.course[index]),
        order=float(placing.order[index]),
        size=int(placing.size[index]),
        x_mm=float(placing.x_mm[index]),
        y_mm=float(placing.y_mm[index]),
        turn_deg=float(placing.turn_deg[index]),
        along_mm=float(placing.along_mm[index]),
        across_mm=float(placing.across_mm[index]),
        part=part,
        untouched=untouched,
    )
