"""Fill under formation: how thick a layer may be, how many layers, and how often the plate goes over each."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._types import Compactor, FillLayers
from pavewright.job import PlantKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.earthworks._figures import FillFigures
    from pavewright.job import Rates


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

    Where the plate is not known the thinnest layers and the passes of a lighter plate are shown, and marked so; where
    it is below the table no passes are known.

    Args:
        depth_mm: Greatest depth of the fill. [mm]
        plate: Class of the plate.
        known: How fill is compacted.
        cohesive: Whether clay or silt fills, instead of stone.
    """
    if depth_mm <= 0.0:
        return None
    row = Compactor.PLATE_HEAVY if plate is Compactor.UNKNOWN and cohesive else plate
    row = Compactor.PLATE_LIGHT if row is Compactor.UNKNOWN else row
    passes = (known.cohesive if cohesive else known.granular).get(row, ())
    allowed = [(lift, figure) for lift, figure in passes if lift <= known.layer.value]
    if not allowed:
        thin = known.thinnest_mm
        return FillLayers(depth_mm, thin, math.ceil(depth_mm / thin - 1e-9), None, plate, known.layer)
    lift, figure = allowed[0] if plate is Compactor.UNKNOWN else allowed[-1]
    return FillLayers(depth_mm, lift, math.ceil(depth_mm / lift - 1e-9), int(figure.value), plate, figure)


def fill_working(layers: FillLayers) -> Working:
    """Return the sum behind the layers of a fill."""
    words = f"layers of fill = {layers.depth_mm:.0f} / {layers.layer_mm:g}, rounded up"
    return Working(words, float(layers.layers), "layers", (layers.decided_by,), layers_in_words(layers))


def layers_in_words(layers: FillLayers) -> str:
    """Say how a fill is compacted."""
    count = f"{layers.layers} layer{'s' if layers.layers != 1 else ''} of up to {layers.layer_mm:g} mm"
    if layers.passes is None:
        return f"{count}; the plate is outside the table of passes: choose a heavier one"
    passes = f"{count}, {layers.passes} passes of the plate over each"
    if layers.plate is Compactor.UNKNOWN:
        return f"{passes}; the weight of the plate is not known: these are for the lightest plate of the table"
    return passes
