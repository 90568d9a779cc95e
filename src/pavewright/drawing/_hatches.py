"""Hatches kept apart without colour, as lines that end where a shape ends."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.drawing._scene import Hatch

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY

HATCHES = {
    Hatch.CUT: ((45.0, 1.4, 0.13),),
    Hatch.SLIVER: ((45.0, 0.9, 0.13), (-45.0, 0.9, 0.13)),
    Hatch.FILLED: ((90.0, 0.6, 0.25),),
    Hatch.UNDER: ((20.0, 2.4, 0.13), (-20.0, 2.4, 0.13)),
    Hatch.WALL: ((45.0, 0.8, 0.25),),
    Hatch.CONCRETE: ((30.0, 2.2, 0.13), (75.0, 2.6, 0.13)),
    Hatch.MORTAR: ((0.0, 0.7, 0.13),),
    Hatch.STONE: ((60.0, 1.3, 0.18), (-60.0, 1.3, 0.18)),
    Hatch.SAND: ((0.0, 1.1, 0.1), (90.0, 1.1, 0.1)),
    Hatch.GROUND: ((-45.0, 1.8, 0.13),),
    Hatch.BAND: ((-45.0, 1.2, 0.13), (45.0, 4.8, 0.13)),
    Hatch.WATER_1: ((45.0, 1.8, 0.13),),
    Hatch.WATER_2: ((-45.0, 1.8, 0.13),),
    Hatch.WATER_3: ((0.0, 1.6, 0.13),),
    Hatch.WATER_4: ((90.0, 1.8, 0.13),),
    Hatch.WATER_5: ((20.0, 1.6, 0.13),),
    Hatch.WATER_6: ((70.0, 1.6, 0.13),),
}
"""Angle, spacing and line width of each set of lines. [deg, mm, mm]"""

PLAIN = {Hatch.NONE: "none", Hatch.WHITE: "#fff", Hatch.GREY: "#d9d9d9", Hatch.BLACK: "#000"}
"""Fills without a hatch."""


def hatch_lines(rings: Sequence[Sequence[XY]], name: Hatch) -> list[tuple[float, list[tuple[XY, XY]]]]:
    """Return the lines of a hatch in a shape on paper, y downward, for each set of lines with its width. [mm].

    All shapes of a sheet share one set of lines, so that a hatch runs on from a shape to the next.

    >>> hatch_lines([[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (0.0, 1.0)]], Hatch.MORTAR)
    [(0.13, [((0.0, 0.0), (4.0, 0.0)), ((0.0, 0.7), (4.0, 0.7))])]
    """
    shape = shapely.make_valid(shapely.Polygon(rings[0], rings[1:]))
    if shape.is_empty:
        return [(width, []) for _, _, width in HATCHES[name]]
    return [(width, _lines(shape, angle, spacing)) for angle, spacing, width in HATCHES[name]]


def _lines(shape: shapely.Geometry, angle_deg: float, spacing_mm: float) -> list[tuple[XY, XY]]:
    """Return lines at an angle and a spacing, anticlockwise as it is seen, where they run through a shape."""
    turn = math.radians(-angle_deg)
    along = np.array((math.cos(turn), math.sin(turn)))
    across = np.array((-along[1], along[0]))
    corners = shapely.get_coordinates(shape)
    forth, off = corners @ along, corners @ across
    low, high = forth.min() - 1.0, forth.max() + 1.0
    first, last = math.ceil(off.min() / spacing_mm - _GRAZE), math.floor(off.max() / spacing_mm + _GRAZE)
    offs = np.arange(first, last + 1)[:, None] * spacing_mm
    if not len(offs):
        return []
    ends = np.stack([low * along + offs * across, high * along + offs * across], axis=1)
    found: list[tuple[XY, XY]] = []
    for part in shapely.get_parts(shapely.intersection(shapely.linestrings(ends), shape)):
        for run in shapely.get_parts(part):
            places = shapely.get_coordinates(run)
            if len(places) > 1:
                found.append((_place(places[0]), _place(places[-1])))
    return found


_GRAZE = 1e-9


def _place(at: np.ndarray) -> XY:
    return float(at[0]), float(at[1])
