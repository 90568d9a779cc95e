"""Room to work and sloped sides beside the free edges of a dig."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.geometry import without

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface, Shape, TriangulatedSurface

STATION_MM = 250.0
"""Depths are taken no further apart than this along an edge. [mm]"""
_PAST_MM = 1.0
"""An edge of the dig this far past the paving is free. [mm]"""


def side_volume(
    ground: TriangulatedSurface,
    formation: FoldedSurface,
    dug: Shape,
    paved: Shape,
    room_mm: float,
    slope: float,
    topsoil_mm: float = 0.0,
) -> tuple[float, float]:
    """Return what is dug beside free edges, and their length. [m³, m].

    At each station the section is the room times the depth and half the slope times the depth squared; between stations
    by the mean of both sections.

    Args:
        ground: The ground as it lies.
        formation: How deep is dug.
        dug: What is dug.
        paved: The paving; where the dig keeps to it something stands in the way.
        room_mm: Width of the room. [mm]
        slope: Run over depth of the sides. [run over depth]
        topsoil_mm: Depth of topsoil, which goes at least. [mm]

    Valid for: edges that are long beside the depth.
    Source: definition, end areas; a level section of height h is h · (room + slope · h / 2)
    """
    free = without(dug.polygon.exterior, paved.polygon.buffer(_PAST_MM))
    volume_mm3 = length_mm = 0.0
    merged = shapely.line_merge(free) if isinstance(free, shapely.MultiLineString) else free
    for line in shapely.get_parts(merged):
        if not isinstance(line, shapely.LineString) or line.length == 0.0:
            continue
        places = shapely.get_coordinates(shapely.segmentize(line, STATION_MM))
        depths = ground.levels_beyond(*places.T) - formation.levels_at(*places.T)
        deep = np.maximum(depths, topsoil_mm)
        sections = room_mm * deep + slope * deep * deep / 2.0
        steps = np.hypot(*np.diff(places, axis=0).T)
        volume_mm3 += float(((sections[1:] + sections[:-1]) / 2.0 * steps).sum())
        length_mm += line.length
    return units.mm3_to_m3(volume_mm3), units.mm_to_m(length_mm)
