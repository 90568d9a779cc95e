"""Which layers an area gets, how thick, and what decided it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

from pavewright.buildup._base_rules import BaseCase, BasePart, RuledLayer, ruled_layers
from pavewright.buildup._types import Layer, LayerKey, LayerMaterial
from pavewright.job import BaseRule, Bedding, EdgeRestraint, Use

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
    case = case_of(area, unit, cbr)
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
    parts = base_parts(area.base_rule, case, known)
    open_stone = any(each.rule is BaseRule.PERMEABLE for each in parts)
    bed = _grit(known) if open_stone else _bed(area.laying.bedding, known)
    below = (bed, *_base(parts, area.use, known, soft=soft))
    return (top, *below, *_geotextile(below, known, soft=soft, open_stone=open_stone))


def case_of(area: Area, unit: PavingUnit, cbr: float) -> BaseCase:
    """Return what a rule for the base of an area goes by.

    Args:
        area: The area.
        unit: What it is paved with.
        cbr: Bearing ratio of the ground. [%]
    """
    stored = 0.0 if area.permeable is None else area.permeable.stone_mm or 0.0
    return BaseCase(area.use, area.laying.bedding, unit.kind, cbr, area.base_design, stored)


def base_parts(rule: BaseRule, case: BaseCase, known: LayerFigures) -> tuple[RuledLayer, ...]:
    """Return what lies under the bed from the top down: as a rule has it, and where it says nothing the rulebook's own.

    Args:
        rule: The rule that is chosen.
        case: What it goes by.
        known: Figures of layers.
    """
    given = ruled_layers(rule, case, known.published) or ()
    by_part = {each.part: each for each in (*own_parts(case, known), *given)}
    return tuple(by_part[part] for part in BasePart if part in by_part and by_part[part].thickness_mm > 0.0)


def own_parts(case: BaseCase, known: LayerFigures) -> tuple[RuledLayer, ...]:
    """Return what lies under the bed by the rulebook's own rule, from the top down."""
    if case.bedding is not Bedding.MORTAR_ON_CONCRETE:
        soft = case.cbr_percent < known.soft_below.value
        stone = (known.stone_soft if soft else known.stone_firm)[case.use]
        return (RuledLayer(BasePart.SUB_BASE, stone.value, (stone,), BaseRule.OWN),)
    base, under = known.concrete[case.use], known.under_concrete[case.use]
    found = (
        RuledLayer(BasePart.CONCRETE, base.value, (base,), BaseRule.OWN),
        RuledLayer(BasePart.SUB_BASE, under.value, (under,), BaseRule.OWN),
    )
    return tuple(each for each in found if each.thickness_mm > 0.0)


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


def _bed(bedding: Bedding, known: LayerFigures) -> Layer:
    match bedding:
        case Bedding.MORTAR_ON_CONCRETE:
            name, material, figure = _MORTAR, LayerMaterial.MORTAR, known.mortar_bed
        case Bedding.MORTAR_ON_SUB_BASE:
            name, material, figure = _MORTAR, LayerMaterial.MORTAR, known.mortar_bed_on_stone
        case Bedding.SAND_ON_SUB_BASE:
            name, material, figure = "laying course of sharp sand", LayerMaterial.SAND, known.sand_bed
        case _ as never:
            assert_never(never)
    return Layer(LayerKey.BED, name, figure.value, material, 0.0, (figure,), figure.label)


def _grit(known: LayerFigures) -> Layer:
    figure, name = known.permeable_bed, "laying course of clean grit, 2 to 6.3 mm"
    return Layer(LayerKey.BED, name, figure.value, LayerMaterial.GRIT, 0.0, (figure,), figure.label)


def _base(parts: tuple[RuledLayer, ...], use: Use, known: LayerFigures, *, soft: bool) -> tuple[Layer, ...]:
    """Return the layers under a bed. Capping runs as far past the edge as the sub-base on it."""
    on_concrete = any(each.part is BasePart.CONCRETE for each in parts)
    widest = {each.part: max(known.stone_past.value, each.thickness_mm) for each in parts}
    found = []
    for each in parts:
        key, name, material = _OPEN if each.rule is BaseRule.PERMEABLE else _BUILT_OF[each.part]
        past = known.concrete_past if each.part is BasePart.CONCRETE else known.stone_past
        extends = past.value if each.part is BasePart.CONCRETE else widest.get(BasePart.SUB_BASE, past.value)
        why = _why(each, use, on_concrete=on_concrete, soft=soft)
        found.append(Layer(key, name, each.thickness_mm, material, extends, (*each.decided_by, past), why))
    return tuple(found)


_BUILT_OF = {
    BasePart.CONCRETE: (LayerKey.BASE, "concrete base, 6 ballast to 1 cement, damp", LayerMaterial.CONCRETE),
    BasePart.SUB_BASE: (LayerKey.SUB_BASE, "sub-base of graded stone, compacted", LayerMaterial.STONE),
    BasePart.CAPPING: (LayerKey.CAPPING, "capping of coarse stone, compacted", LayerMaterial.CAPPING),
}

_OPEN = (LayerKey.SUB_BASE, "open stone, 4 to 20 mm without fines, compacted", LayerMaterial.OPEN_STONE)


def _why(each: RuledLayer, use: Use, *, on_concrete: bool, soft: bool) -> str:
    if each.rule is BaseRule.DESIGNED:
        return "as designed for this ground"
    if each.rule is BaseRule.PERMEABLE:
        return "the thicker of what bears and, where that is entered, what stores the rain"
    if each.rule is not BaseRule.OWN:
        return f"by a rule that is chosen for this area: {each.decided_by[0].label}"
    if each.part is BasePart.CONCRETE:
        return f"concrete base for {_said(use)}"
    if on_concrete:
        return f"under a concrete base for {_said(use)}"
    return f"for {_said(use)} on {'soft' if soft else 'firm'} ground"


def _geotextile(below: tuple[Layer, ...], known: LayerFigures, *, soft: bool, open_stone: bool) -> tuple[Layer, ...]:
    """Return a fabric under unbound stone on soft ground, and under open stone; it has no thickness to speak of."""
    stone = next((layer for layer in below if layer.key is LayerKey.SUB_BASE), None)
    if stone is None or not (soft or open_stone):
        return ()
    words = "keeps the ground out of the open stone" if open_stone else "separates stone from soft ground"
    kind, material = LayerKey.GEOTEXTILE, LayerMaterial.GEOTEXTILE
    return (
        Layer(kind, "geotextile", 0.0, material, stone.extends_mm, () if open_stone else (known.soft_below,), words),
    )


def _said(use: Use) -> str:
    return {Use.FOOT: "foot traffic", Use.CAR: "cars", Use.LIGHT_VAN: "light vans"}[use]


HELD = frozenset({EdgeRestraint.WALL, EdgeRestraint.EXISTING})
"""Sides past which nothing is dug: something stands there."""


def is_designed(area: Area) -> bool:
    """Return whether the base of an area is built as somebody designed it for this ground."""
    return area.base_rule is BaseRule.DESIGNED and area.base_design is not None and area.base_design.is_whole
