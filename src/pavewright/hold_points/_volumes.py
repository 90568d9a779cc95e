"""How much lies too low and too high: from a few readings by their mean, from three or more by triangles."""

from __future__ import annotations

import math
import statistics
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import TRUSTED
from pavewright.geometry import Plane, prism_volumes, triangulate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XYZ, Shape

_ENOUGH = 3


@dataclass(frozen=True, slots=True)
class OffVolumes:
    """What a surface lacks and has too much of.

    Attributes:
        low_m3: What fills its low places. [m³]
        high_m3: What is taken off its high places. [m³]
        mean_mm: Mean of the readings, positive where it lies high. [mm]
        doubt_m3: Two standard errors of the mean over the whole surface; None from a single reading. [m³]
        triangles_m2: Part of the surface between readings; zero where the mean is taken everywhere. [m²]
    """

    low_m3: float
    high_m3: float
    mean_mm: float
    doubt_m3: float | None
    triangles_m2: float


def mean_volumes(area_m2: float, offs_mm: Sequence[float], sd_mm: float) -> OffVolumes:
    """Return what a surface lacks and has too much of, each reading speaking for an equal part of it.

    Args:
        area_m2: The surface. [m²]
        offs_mm: Found less planned at each place, positive where it lies high. [mm]
        sd_mm: Standard deviation of one reading. [mm]

    Valid for: readings spread evenly over the surface; what lies between them is not known.
    Source: definition, area times mean; the doubt is two standard errors, common_practice
    """
    count = len(offs_mm)
    low = sum(max(-each, 0.0) for each in offs_mm) / count
    high = sum(max(each, 0.0) for each in offs_mm) / count
    spread = statistics.stdev(offs_mm) if count > 1 else None
    doubt = None
    if spread is not None:
        doubt = area_m2 * units.mm_to_m(TRUSTED * max(spread, sd_mm) / math.sqrt(count))
    mean = statistics.fmean(offs_mm)
    return OffVolumes(area_m2 * units.mm_to_m(low), area_m2 * units.mm_to_m(high), mean, doubt, 0.0)


def surface_volumes(shape: Shape, readings: Sequence[XYZ], sd_mm: float) -> OffVolumes:
    """Return the same over triangles between the readings; past the outermost ones the mean is taken.

    Args:
        shape: The surface in plan.
        readings: Place and found less planned of each reading. [mm]
        sd_mm: Standard deviation of one reading. [mm]
    """
    area_m2 = shape.area_m2
    rough = mean_volumes(area_m2, [off for _, _, off in readings], sd_mm)
    places = _apart(readings)
    if len(places) < _ENOUGH:
        return rough
    try:
        found = prism_volumes(triangulate(places), _FLAT, shape)
    except ValueError:  # all on one line
        return rough
    rest = max(area_m2 - found.area_m2, 0.0) / area_m2
    return OffVolumes(
        found.fill_m3 + rest * rough.low_m3,
        found.cut_m3 + rest * rough.high_m3,
        rough.mean_mm,
        rough.doubt_m3,
        found.area_m2,
    )


_FLAT = Plane(0.0, (0.0, 0.0), 0.0, 0.0)


def _apart(readings: Sequence[XYZ]) -> list[XYZ]:
    """Return readings at places that differ, those on one place as their mean."""
    by_place: dict[tuple[float, float], list[float]] = {}
    for x, y, off in readings:
        by_place.setdefault((x, y), []).append(off)
    return [(x, y, statistics.fmean(offs)) for (x, y), offs in by_place.items()]
