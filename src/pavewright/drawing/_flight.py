"""A flight of steps as its section is drawn: risers, goings and levels along one line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.buildup import LayerKey
from pavewright.geometry import distance, point_along

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.geometry import XY
    from pavewright.levels import FinishedArea, Steps
    from pavewright.pipeline import Plan
    from pavewright.quantities import FlightParts


NOT_LAID = frozenset({LayerKey.UNIT, LayerKey.BED})
"""Layers that end at the face of the lowest riser."""
BEHIND = 0.5
"""Part of the foundation that lies behind the face of the lowest riser. [-]"""


@dataclass(frozen=True, slots=True)
class Flight:
    """One flight as it is cut half way along its nosings; x runs down the flight from the top nosing.

    Attributes:
        steps: Its levels.
        parts: What it is built of.
        upper: The finished area above.
        lower: The finished area below.
        up: The build-up above.
        down: The build-up below.
        nosings_mm: Levels of the nosings from the top, the foot of the flight last. [mm]
        out_mm: From the top nosing to the face of the lowest riser. [mm]
    """

    steps: Steps
    parts: FlightParts
    upper: FinishedArea
    lower: FinishedArea
    up: AreaBuildUp
    down: AreaBuildUp
    nosings_mm: tuple[float, ...]
    out_mm: float

    def at(self, x_mm: float) -> XY:
        """Return the place in plan."""
        start, end = self.steps.start, self.steps.end
        return point_along(start, end, distance(start, end) / 2.0, -x_mm)

    def above(self, x_mm: float, deep_mm: float = 0.0) -> XY:
        """Return a place so deep under the finished level above."""
        return x_mm, self.upper.surface.level_at(self.at(x_mm)) - deep_mm

    def below(self, x_mm: float, deep_mm: float = 0.0) -> XY:
        """Return a place so deep under the finished level below."""
        return x_mm, self.lower.surface.level_at(self.at(x_mm)) - deep_mm

    @property
    def foundation_mm(self) -> tuple[float, float]:
        """Levels of its top and underside: on the formation, or lower where units are laid over it. [mm]."""
        front = self.below(self.out_mm + self.parts.foundation_wide_mm * (1.0 - BEHIND))[1]
        thick = self.parts.foundation_thick_mm
        top = min(self._formation_mm + thick, min(front, self.nosings_mm[-1]) - self.bare_mm)
        return top, top - thick

    @property
    def _formation_mm(self) -> float:
        return self.nosings_mm[-1] - self.down.total_mm

    @property
    def sunk_mm(self) -> float:
        """How far the foundation goes under the formation. [mm]."""
        return self._formation_mm - self.foundation_mm[1]

    @property
    def bare_mm(self) -> float:
        """Thickness of the layers below that end at the face of the lowest riser. [mm]."""
        return sum(layer.thickness_mm for layer in self.down.layers if layer.key in NOT_LAID)


def flight_of(plan: Plan, steps: Steps, parts: FlightParts) -> Flight:
    upper, lower = plan.levels.area(steps.upper_area), plan.levels.area(steps.lower_area)
    middle = point_along(steps.start, steps.end, distance(steps.start, steps.end) / 2.0)
    top = upper.surface.level_at(middle)
    return Flight(
        steps=steps,
        parts=parts,
        upper=upper,
        lower=lower,
        up=plan.build_ups.area(steps.upper_area),
        down=plan.build_ups.area(steps.lower_area),
        nosings_mm=tuple(top - number * steps.riser_mm for number in range(steps.risers + 1)),
        out_mm=(steps.risers - 1) * steps.going_mm,
    )
