"""Areas from coordinates and from offsets."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_MIN_CORNERS = 3


def cross_sums_mm2(eastings_mm: Sequence[float], northings_mm: Sequence[float]) -> tuple[float, float]:
    """Return the two sums of crosswise products, northing by next easting and easting by next northing. [mm²].

    Args:
        eastings_mm: East of each corner, in order round the figure. [mm]
        northings_mm: North of each corner. [mm]

    Source: mahun_traverse, chapter G

    >>> cross_sums_mm2((0.0, 4.0, 4.0), (0.0, 0.0, 3.0))
    (0.0, 12.0)
    """
    following = range(1 - len(eastings_mm), 1)
    north_by_east = math.fsum(n * eastings_mm[k] for n, k in zip(northings_mm, following, strict=True))
    east_by_north = math.fsum(e * northings_mm[k] for e, k in zip(eastings_mm, following, strict=True))
    return north_by_east, east_by_north


def area_by_coordinates_mm2(eastings_mm: Sequence[float], northings_mm: Sequence[float]) -> float:
    """Return the area inside corners, positive anticlockwise; the first corner is taken off first. [mm²].

    Args:
        eastings_mm: East of each corner, in order round the figure. [mm]
        northings_mm: North of each corner. [mm]

    Valid for: straight sides that do not cross.
    Source: mahun_traverse, chapter G, half the difference of the crosswise sums

    >>> area_by_coordinates_mm2((0.0, 4000.0, 4000.0, 0.0), (0.0, 0.0, 3000.0, 3000.0))
    12000000.0
    """
    east = [value - eastings_mm[0] for value in eastings_mm]
    north = [value - northings_mm[0] for value in northings_mm]
    north_by_east, east_by_north = cross_sums_mm2(east, north)
    return (east_by_north - north_by_east) / 2.0


def area_by_trapeziums_mm2(offsets_mm: Sequence[float], interval_mm: float) -> float:
    """Return the area between a line and offsets at equal intervals, strips taken as trapeziums. [mm²].

    Args:
        offsets_mm: Two offsets or more. [mm]
        interval_mm: Distance between them. [mm]

    Source: definition, d·((o1 + on) / 2 + sum of the others)

    >>> area_by_trapeziums_mm2((0.0, 10.0, 20.0), 5.0)
    100.0
    """
    return interval_mm * (math.fsum(offsets_mm) - (offsets_mm[0] + offsets_mm[-1]) / 2.0)


def area_by_simpson_mm2(offsets_mm: Sequence[float], interval_mm: float) -> float:
    """Return the area between a line and offsets at equal intervals, edges taken as parabolas. [mm²].

    With an even number of offsets the last strip is a trapezium.

    Args:
        offsets_mm: Three offsets or more. [mm]
        interval_mm: Distance between them. [mm]

    Source: definition, d/3·(ends + 4·second, fourth … + 2·third, fifth …)

    >>> area_by_simpson_mm2((0.0, 1.0, 4.0), 1.0)
    2.6666666666666665
    """
    if len(offsets_mm) % 2 == 0:
        last_strip = interval_mm * (offsets_mm[-2] + offsets_mm[-1]) / 2.0
        return area_by_simpson_mm2(offsets_mm[:-1], interval_mm) + last_strip
    inner = 4.0 * math.fsum(offsets_mm[1:-1:2]) + 2.0 * math.fsum(offsets_mm[2:-1:2])
    return interval_mm / 3.0 * (offsets_mm[0] + offsets_mm[-1] + inner)
