"""Where the finished paving is read: one grid for the phone, the checklist on paper and the drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_EDGE_MM = 250.0
"""How far inside the box of an area the grid begins, so that the staff stands on the paving. [mm]"""


@dataclass(frozen=True, slots=True)
class ReadingPlace:
    """A place of the grid on which the finished paving is read.

    Attributes:
        label: Its name on every sheet and screen ("L1").
        area: Name of its area.
        at: Where it is. [mm]
        planned_mm: Finished level planned there. [mm]
    """

    label: str
    area: str
    at: XY
    planned_mm: float


def reading_places(survey: Survey, levels: Levels, rules: Rulebook) -> tuple[ReadingPlace, ...]:
    """Return where to read the finished paving: rows to and fro, so that nobody walks twice."""
    apart_mm = units.m_to_mm(math.sqrt(rules.value("as_laid.area_per_reading_m2")))
    found: list[tuple[str, XY, float]] = []
    for finished in levels.areas:
        area = survey.site.area(finished.area)
        x1, y1, x2, y2 = area.shape.bounds_mm
        for number, y in enumerate(_along(y1, y2, apart_mm)):
            row = [(x, y) for x in _along(x1, x2, apart_mm) if area.shape.contains((x, y))]
            walked = row if number % 2 == 0 else row[::-1]
            found += [(finished.area, at, finished.surface.level_at(at)) for at in walked]
    return tuple(
        ReadingPlace(f"L{number}", name, at, planned) for number, (name, at, planned) in enumerate(found, start=1)
    )


def _along(start_mm: float, end_mm: float, apart_mm: float) -> list[float]:
    """Return places from edge to edge, no farther apart than asked, to the millimetre."""
    first, last = start_mm + _EDGE_MM, end_mm - _EDGE_MM
    if last <= first:
        return [(start_mm + end_mm) / 2.0]
    count = max(1, math.ceil((last - first) / apart_mm))
    return [round(first + (last - first) * step / count, 0) for step in range(count + 1)]
