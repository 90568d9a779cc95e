"""Fill and courses of stone: how thick a layer may be, how many layers, and how often the plate goes over each."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerKey
from pavewright.earthworks._types import Compactor, FillLayers, LayerCompaction
from pavewright.job import PlantKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.earthworks._figures import FillFigures
    from pavewright.job import Rates
    from pavewright.rules import Figure


def compactor(rates: Rates, known: FillFigures) -> tuple[Compactor, float | None]:
    """Return the class of the plate on hire and its mass over its sole [kg/m²]; unknown where nobody entered it."""
    plates = [
        hire.kg_each / units.mm2_to_m2(hire.sole_length_mm * hire.sole_width_mm)
        for hire in rates.plant
        if hire.key is PlantKind.PLATE and hire.kg_each and hire.sole_length_mm and hire.sole_width_mm
    ]
    if not plates:
        return Compactor.UNKNOWN, None
    heaviest = max(plates)
    if heaviest > known.plate_heavy_kg_per_m2:
        return Compactor.PLATE_HEAVY, heaviest
    if heaviest >= known.plate_light_kg_per_m2:
        return Compactor.PLATE_LIGHT, heaviest
    return Compactor.BELOW_TABLE, heaviest


def fill_layers(depth_mm: float, plate: Compactor, known: FillFigures, *, cohesive: bool) -> FillLayers | None:
    """Return the layers of a fill: the thickest that the plate may compact and the code of work allows.

    Where the plate is not known, or is outside the table, layers are the thinnest of it and no passes are known.

    Args:
        depth_mm: Greatest depth of the fill. [mm]
        plate: Class of the plate.
        known: How fill is compacted.
        cohesive: Whether clay or silt fills, instead of stone.
    """
    if depth_mm <= 0.0:
        return None
    allowed = _allowed(plate, known, cohesive=cohesive)
    if not allowed:
        return FillLayers(depth_mm, known.thinnest_mm, _count(depth_mm, known.thinnest_mm), None, plate, known.layer)
    lift, figure = allowed[-1]
    return FillLayers(depth_mm, lift, _count(depth_mm, lift), int(figure.value), plate, figure)


def even_layers(thickness_mm: float, plate: Compactor, known: FillFigures) -> FillLayers:
    """Return the layers of a course of stone, all of one thickness: as few as the plate and the code of work allow.

    Passes are those of the thinnest layer in the table that is no thinner; none are known where the plate is not
    known, or is outside the table.

    Args:
        thickness_mm: Thickness of the course when compacted. [mm]
        plate: Class of the plate.
        known: How fill is compacted.
    """
    allowed = _allowed(plate, known, cohesive=False)
    count = _count(thickness_mm, allowed[-1][0] if allowed else known.thinnest_mm)
    each = thickness_mm / count
    if not allowed:
        return FillLayers(thickness_mm, each, count, None, plate, known.layer)
    figure = next(figure for lift, figure in allowed if each <= lift + _SAME_MM)
    return FillLayers(thickness_mm, each, count, int(figure.value), plate, figure)


def compaction(build_ups: BuildUps, rates: Rates, known: FillFigures) -> tuple[LayerCompaction, ...]:
    """Return how every course of stone is compacted, by the plate that is there."""
    plate, _ = compactor(rates, known)
    return tuple(
        LayerCompaction(up.area, layer.key, even_layers(layer.thickness_mm, plate, known))
        for up in build_ups.areas
        for layer in up.layers
        if layer.key in _STONE and layer.thickness_mm > 0.0
    )


def _allowed(plate: Compactor, known: FillFigures, *, cohesive: bool) -> list[tuple[float, Figure]]:
    """Return the layers that a plate may compact and the code of work allows, with their passes, the thinnest first."""
    passes = (known.cohesive if cohesive else known.granular).get(plate, ())
    return [(lift, figure) for lift, figure in passes if lift <= known.layer.value]


def _count(depth_mm: float, layer_mm: float) -> int:
    return math.ceil(depth_mm / layer_mm - 1e-9)


_SAME_MM = 1e-6
"""A layer this little thicker than one of the table is that one. [mm]"""
_STONE = frozenset({LayerKey.SUB_BASE, LayerKey.CAPPING})


def fill_working(layers: FillLayers) -> Working:
    """Return the sum behind the layers of a fill."""
    words = f"layers of fill = {layers.depth_mm:.0f} / {layers.layer_mm:g}, rounded up"
    return Working(words, float(layers.layers), "layers", (layers.decided_by,), layers_in_words(layers))


def layers_in_words(layers: FillLayers) -> str:
    """Say how a fill is compacted."""
    count = f"{layers.layers} layer{'s' if layers.layers != 1 else ''} of up to {layers.layer_mm:.0f} mm"
    if layers.plate is Compactor.UNKNOWN:
        return f"{count}; which plate? Its weight is not known, so neither is how often it goes over each"
    if layers.passes is None:
        return f"{count}; the plate is outside the table of passes: choose a heavier one"
    return f"{count}, {layers.passes} passes of the plate over each"
