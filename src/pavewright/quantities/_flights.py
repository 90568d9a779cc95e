"""What a flight of steps is built of: units of riser and tread, a foundation under the lowest riser, a core."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerKey
from pavewright.geometry import distance
from pavewright.quantities._amounts import layer_m3, strip_m3

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels, Steps
    from pavewright.quantities._figures import QuantityFigures


@dataclass(frozen=True, slots=True)
class FlightParts:
    """What one flight of steps takes, before waste.

    Attributes:
        steps: Name of the flight.
        width_m: Width of the flight. [m]
        units_m: Length of all units of riser and tread. [m]
        foundation_wide_mm: Width of the foundation under the lowest riser, square to it. [mm]
        foundation_thick_mm: Thickness of the foundation. [mm]
        foundation_m3: Concrete of the foundation. [m³]
        core_m3: Concrete under the treads, down to the finished level below. [m³]
        room_m3: Concrete in the room of the units and the bed of the area below, which are not laid under the flight.
            [m³]
        mortar_m3: Mortar under and behind the units. [m³]
    """

    steps: str
    width_m: float
    units_m: float
    foundation_wide_mm: float
    foundation_thick_mm: float
    foundation_m3: float
    core_m3: float
    room_m3: float
    mortar_m3: float

    @property
    def concrete_m3(self) -> float:
        """All concrete of the flight. [m³]."""
        return self.foundation_m3 + self.core_m3 + self.room_m3


def flight_parts(
    levels: Levels, laying: LayingPlan, build_ups: BuildUps, figures: QuantityFigures
) -> tuple[FlightParts, ...]:
    """Return what every flight takes, in the order of the flights.

    Source: definition, width × section
    """
    wide = figures.step_foundation_wide_mm.value
    thick = figures.step_foundation_thick_mm.value
    mortar = figures.step_mortar_m3_per_m.value
    found = []
    for steps in levels.steps:
        width = units.mm_to_m(distance(steps.start, steps.end))
        units_m = steps.risers * width
        found.append(
            FlightParts(
                steps=steps.name,
                width_m=width,
                units_m=units_m,
                foundation_wide_mm=wide,
                foundation_thick_mm=thick,
                foundation_m3=strip_m3(width, wide, thick),
                core_m3=core_m3(steps, width),
                room_m3=_room_m3(steps, laying, build_ups),
                mortar_m3=units_m * mortar,
            )
        )
    return tuple(found)


def core_m3(steps: Steps, width_m: float) -> float:
    """Return the concrete under the treads of a flight, each standing on all below it. [m³].

    Source: definition, going × riser × width × (1 + 2 + … + treads)
    """
    treads = steps.risers - 1
    return width_m * units.mm2_to_m2(steps.going_mm * steps.riser_mm) * treads * (treads + 1) / 2.0


def _room_m3(steps: Steps, laying: LayingPlan, build_ups: BuildUps) -> float:
    """Return the room that the units and the bed of the area below leave under a flight. [m³]."""
    under = [each for each in laying.area(steps.lower_area).under_steps if each.steps == steps.name]
    layers = build_ups.area(steps.lower_area).layers
    deep = sum(layer.thickness_mm for layer in layers if layer.key in _NOT_LAID)
    return layer_m3(sum(each.shape.area_m2 for each in under), deep)


_NOT_LAID = frozenset({LayerKey.UNIT, LayerKey.BED})
"""Layers that are left out under a flight: its base runs through."""
