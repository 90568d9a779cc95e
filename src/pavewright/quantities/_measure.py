"""Volumes, areas and lengths of the work, before they are turned into materials."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerKey
from pavewright.geometry import distance
from pavewright.quantities._amounts import layer_m3

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, Layer
    from pavewright.job import EdgeRestraint
    from pavewright.survey import PlanArea, PlanChannel


@dataclass(frozen=True, slots=True)
class LayerVolume:
    """A layer of one area: its plan area and its volume when compacted or set."""

    area: str
    layer: Layer
    area_m2: float
    bare_m2: float = 0.0

    @property
    def volume_m3(self) -> float:
        """Volume. [m³]."""
        return layer_m3(self.area_m2, self.layer.thickness_mm)


def layer_volumes(area: PlanArea, build_up: AreaBuildUp, under_steps_m2: float = 0.0) -> tuple[LayerVolume, ...]:
    """Return every layer under the units with its plan area; under steps the bed is left out and the base runs through.

    A layer that runs past the edge less far than the widest takes its share of the strip outside the paving.
    """
    widest = max((layer.extends_mm for layer in build_up.layers), default=0.0)
    strip = build_up.base_shape.area_m2 - area.gross.area_m2
    found = []
    for layer in build_up.layers:
        if layer.key is LayerKey.UNIT:
            continue
        share = layer.extends_mm / widest if widest else 0.0
        bare = under_steps_m2 if layer.key is LayerKey.BED else 0.0
        found.append(LayerVolume(area.name, layer, area.gross.area_m2 + strip * share - bare, bare))
    return tuple(found)


def sides_held(area: PlanArea) -> dict[EdgeRestraint, list[tuple[str, float]]]:
    """Return the sides held by each kind of restraint: the name of each and its length, arcs along the arc. [m]."""
    found: dict[EdgeRestraint, list[tuple[str, float]]] = {}
    for edge in area.area.edges:
        side = area.side_from(edge.corner)
        found.setdefault(edge.restraint, []).append((side.name, units.mm_to_m(side.length_mm)))
    return found


def edge_lengths(area: PlanArea) -> dict[EdgeRestraint, float]:
    """Return the length of side held by each kind of restraint, arcs along the arc. [m]."""
    return {restraint: sum(length for _, length in sides) for restraint, sides in sides_held(area).items()}


def channel_m(channel: PlanChannel) -> float:
    """Return the length of a channel. [m]."""
    return units.mm_to_m(distance(channel.start, channel.end))
