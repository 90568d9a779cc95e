"""Which layers an area gets, how thick, and what decided it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup._types import Layer
from pavewright.job import Bedding, EdgeRestraint, Use

if TYPE_CHECKING:
    from pavewright.job import Area, Ground, PavingUnit
    from pavewright.rules import Figure, Rulebook

_BASES = {Use.FOOT: "foot", Use.CAR: "car", Use.LIGHT_VAN: "light_van"}


def bearing_ratio(ground: Ground, rules: Rulebook) -> Figure | float:
    """Return the bearing ratio as measured, or by the soil as a figure with its source. [%]."""
    if ground.cbr_percent is not None:
        return ground.cbr_percent
    return rules.table("buildup.soil_cbr").figure(ground.soil.value, "cbr_percent")


def layers(area: Area, unit: PavingUnit, cbr: float, rules: Rulebook) -> tuple[Layer, ...]:
    """Return the layers of an area from the top down."""
    soft = cbr < rules.value("buildup.soft_below_cbr_percent")
    top = Layer(
        "unit",
        f"{unit.name}, {unit.material}",
        unit.thickness_mm,
        unit.name,
        0.0,
        (),
        "thickness of the unit as entered",
    )
    below = {
        Bedding.MORTAR_ON_CONCRETE: _on_concrete,
        Bedding.MORTAR_ON_SUB_BASE: _on_mortar_and_stone,
        Bedding.SAND_ON_SUB_BASE: _on_sand_and_stone,
    }[area.laying.bedding](area, rules, soft=soft)
    return (top, *below, *_geotextile(below, rules, soft=soft))


def _on_concrete(area: Area, rules: Rulebook, *, soft: bool) -> tuple[Layer, ...]:
    del soft
    use = _BASES[area.use]
    table = rules.table("buildup.concrete_base_mm")
    thickness, under = table.figure(use, "thickness_mm"), table.figure(use, "sub_base_mm")
    bed = rules.figure("buildup.mortar_bed_mm")
    past = rules.figure("buildup.base_extends_mm")
    found = [
        Layer("bed", "mortar bed, 6 sharp sand to 1 cement", bed.value, "mortar_1_6", 0.0, (bed,), bed.label),
        Layer(
            "base",
            "concrete base, 6 ballast to 1 cement, damp",
            thickness.value,
            "concrete_ballast_1_6",
            past.value,
            (thickness, past),
            f"concrete base for {_said(area.use)}",
        ),
    ]
    if under.value > 0.0:
        found.append(_sub_base(under, f"under a concrete base for {_said(area.use)}", rules))
    return tuple(found)


def _on_mortar_and_stone(area: Area, rules: Rulebook, *, soft: bool) -> tuple[Layer, ...]:
    bed = rules.figure("buildup.mortar_bed_on_sub_base_mm")
    words = "mortar bed, 6 sharp sand to 1 cement"
    return Layer("bed", words, bed.value, "mortar_1_6", 0.0, (bed,), bed.label), _stone(area, rules, soft=soft)


def _on_sand_and_stone(area: Area, rules: Rulebook, *, soft: bool) -> tuple[Layer, ...]:
    bed = rules.figure("buildup.sand_bed_mm")
    words = "laying course of sharp sand"
    return Layer("bed", words, bed.value, "sharp_sand", 0.0, (bed,), bed.label), _stone(area, rules, soft=soft)


def _stone(area: Area, rules: Rulebook, *, soft: bool) -> Layer:
    column = "soft_mm" if soft else "firm_mm"
    thickness = rules.table("buildup.sub_base_mm").figure(_BASES[area.use], column)
    return _sub_base(thickness, f"for {_said(area.use)} on {'soft' if soft else 'firm'} ground", rules)


def _sub_base(thickness: Figure, why: str, rules: Rulebook) -> Layer:
    past = rules.figure("buildup.sub_base_extends_mm")
    extends = max(past.value, thickness.value)
    return Layer(
        "sub_base", "sub-base of graded stone, compacted", thickness.value, "sub_base", extends, (thickness, past), why
    )


def _geotextile(below: tuple[Layer, ...], rules: Rulebook, *, soft: bool) -> tuple[Layer, ...]:
    """Return a fabric under unbound stone on soft ground; it has no thickness to speak of."""
    stone = next((layer for layer in below if layer.key == "sub_base"), None)
    if stone is None or not soft:
        return ()
    figure = rules.figure("buildup.soft_below_cbr_percent")
    words = "separates stone from soft ground"
    return (Layer("geotextile", "geotextile", 0.0, "geotextile", stone.extends_mm, (figure,), words),)


def _said(use: Use) -> str:
    return {Use.FOOT: "foot traffic", Use.CAR: "cars", Use.LIGHT_VAN: "light vans"}[use]


HELD = frozenset({EdgeRestraint.WALL, EdgeRestraint.EXISTING})
"""Sides past which nothing is dug: something stands there."""
