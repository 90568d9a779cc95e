"""Which layers an area gets, how thick, and what decided it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

from pavewright.buildup._types import Layer, LayerKey, LayerMaterial
from pavewright.job import Bedding, EdgeRestraint, Use

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.buildup._figures import LayerFigures
    from pavewright.job import Area, Ground, PavingUnit
    from pavewright.rules import Figure

_MORTAR = "mortar bed, 6 sharp sand to 1 cement"


def bearing_ratio(ground: Ground, known: LayerFigures) -> Figure | float:
    """Return the bearing ratio as measured, or by the soil as a figure with its source. [%]."""
    return known.cbr[ground.soil] if ground.cbr_percent is None else ground.cbr_percent


def layers(area: Area, unit: PavingUnit, cbr: float, known: LayerFigures) -> tuple[Layer, ...]:
    """Return the layers of an area from the top down.

    Args:
        area: The area.
        unit: What it is paved with.
        cbr: California bearing ratio of the ground. [%]
        known: Figures of layers.
    """
    soft = cbr < known.soft_below.value
    top = Layer(
        LayerKey.UNIT,
        f"{unit.name}, {unit.material}",
        unit.thickness_mm,
        LayerMaterial.UNIT,
        0.0,
        (),
        "thickness of the unit as entered",
    )
    match area.laying.bedding:
        case Bedding.MORTAR_ON_CONCRETE:
            below = _on_concrete(area.use, known)
        case Bedding.MORTAR_ON_SUB_BASE:
            below = (_bed(_MORTAR, LayerMaterial.MORTAR, known.mortar_bed_on_stone), _stone(area.use, known, soft=soft))
        case Bedding.SAND_ON_SUB_BASE:
            sand = _bed("laying course of sharp sand", LayerMaterial.SAND, known.sand_bed)
            below = (sand, _stone(area.use, known, soft=soft))
        case _ as never:
            assert_never(never)
    return (top, *below, *_geotextile(below, known, soft=soft))


def build_up_mm(thicknesses_mm: Iterable[float]) -> float:
    """Return all layers together. [mm].

    Source: definition, sum of layers
    """
    return math.fsum(thicknesses_mm)


def dig_below_dpc_mm(clearance_mm: float, layers_mm: float) -> float:
    """Return how far formation lies below the damp-proof course. [mm].

    Args:
        clearance_mm: Finished paving below the course. [mm]
        layers_mm: All layers. [mm]

    Source: definition, clearance and all layers
    """
    return clearance_mm + layers_mm


def has_stone(own: tuple[Layer, ...]) -> bool:
    """Return whether unbound stone is among the layers: its thickness goes by the ground."""
    return any(layer.key is LayerKey.SUB_BASE for layer in own)


def _bed(name: str, material: LayerMaterial, figure: Figure) -> Layer:
    return Layer(LayerKey.BED, name, figure.value, material, 0.0, (figure,), figure.label)


def _on_concrete(use: Use, known: LayerFigures) -> tuple[Layer, ...]:
    thickness, under, past = known.concrete[use], known.under_concrete[use], known.concrete_past
    base = Layer(
        LayerKey.BASE,
        "concrete base, 6 ballast to 1 cement, damp",
        thickness.value,
        LayerMaterial.CONCRETE,
        past.value,
        (thickness, past),
        f"concrete base for {_said(use)}",
    )
    bed = _bed(_MORTAR, LayerMaterial.MORTAR, known.mortar_bed)
    if under.value <= 0.0:
        return bed, base
    return bed, base, _sub_base(under, f"under a concrete base for {_said(use)}", known)


def _stone(use: Use, known: LayerFigures, *, soft: bool) -> Layer:
    thickness = (known.stone_soft if soft else known.stone_firm)[use]
    return _sub_base(thickness, f"for {_said(use)} on {'soft' if soft else 'firm'} ground", known)


def _sub_base(thickness: Figure, why: str, known: LayerFigures) -> Layer:
    past = known.stone_past
    return Layer(
        LayerKey.SUB_BASE,
        "sub-base of graded stone, compacted",
        thickness.value,
        LayerMaterial.STONE,
        max(past.value, thickness.value),
        (thickness, past),
        why,
    )


def _geotextile(below: tuple[Layer, ...], known: LayerFigures, *, soft: bool) -> tuple[Layer, ...]:
    """Return a fabric under unbound stone on soft ground; it has no thickness to speak of."""
    stone = next((layer for layer in below if layer.key is LayerKey.SUB_BASE), None)
    if stone is None or not soft:
        return ()
    words = "separates stone from soft ground"
    kind, material = LayerKey.GEOTEXTILE, LayerMaterial.GEOTEXTILE
    return (Layer(kind, "geotextile", 0.0, material, stone.extends_mm, (known.soft_below,), words),)


def _said(use: Use) -> str:
    return {Use.FOOT: "foot traffic", Use.CAR: "cars", Use.LIGHT_VAN: "light vans"}[use]


HELD = frozenset({EdgeRestraint.WALL, EdgeRestraint.EXISTING})
"""Sides past which nothing is dug: something stands there."""
