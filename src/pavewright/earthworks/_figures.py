"""The figures of the earthworks, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.earthworks._types import Compactor
from pavewright.job import Soil

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook, Table

_LIFTS_MM = {"passes_100": 100.0, "passes_150": 150.0, "passes_200": 200.0}
"""Thickness of a compacted layer by the column of the table that holds its passes. [mm]"""


@dataclass(frozen=True, slots=True)
class SoilFigures:
    """How soils swell, weigh and shrink.

    Attributes:
        bulking: Gain in volume from the ground to the barrow, lower and upper end. [%]
        in_ground: Mass in the ground, lower and upper end. [t/m³]
        shrink: Loss in volume from the ground to the compacted fill. [%]
        barrow: Loose soil in a barrow.
        broken: Gain in volume of concrete that is broken out.
        concrete: Mass of concrete in the ground.
    """

    bulking: Mapping[Soil, tuple[Figure, Figure]]
    in_ground: Mapping[Soil, tuple[Figure, Figure]]
    shrink: Mapping[Soil, Figure]
    barrow: Figure
    broken: Figure
    concrete: Figure


@dataclass(frozen=True, slots=True)
class FillFigures:
    """How fill is compacted.

    Attributes:
        layer: Thickest layer of fill.
        plate_light_kg_per_m2: Mass over the sole from which a plate is in the table. [kg/m²]
        plate_heavy_kg_per_m2: Mass over the sole above which it is a heavy one. [kg/m²]
        granular: Passes over a layer of stone by plate, each with the thickness of the layer, the thinnest first. [mm]
        cohesive: The same of clay or silt. [mm]
    """

    layer: Figure
    plate_light_kg_per_m2: float
    plate_heavy_kg_per_m2: float
    granular: Mapping[Compactor, tuple[tuple[float, Figure], ...]]
    cohesive: Mapping[Compactor, tuple[tuple[float, Figure], ...]]

    @property
    def thinnest_mm(self) -> float:
        """The thinnest layer of the tables. [mm]."""
        return min(_LIFTS_MM.values())


@dataclass(frozen=True, slots=True)
class CareFigures:
    """Where to dig with care.

    Attributes:
        hand_dig: This near to a known service the dig is by hand.
        met_below_mm: A service less than this below formation is met by the dig. [mm]
        root_times_stem: Radius of the roots of a tree as a multiple of its stem.
        near_wall: Deepest dig beside a wall whose footing nobody has seen.
        deep_dig: A deeper dig has its sides looked at.
        run_on_share: Part of the dig that may lie past the outermost spot levels.
    """

    hand_dig: Figure
    met_below_mm: float
    root_times_stem: Figure
    near_wall: Figure
    deep_dig: Figure
    run_on_share: Figure


@dataclass(frozen=True, slots=True)
class EarthworkFigures:
    """All figures of this room.

    Attributes:
        soils: Of soils.
        fill: Of fill.
        care: Of care.
        topsoil: Topsoil that may be expected.
        found_trench: Width dug free round a drain that was found.
    """

    soils: SoilFigures
    fill: FillFigures
    care: CareFigures
    topsoil: Figure
    found_trench: Figure


def figures(rules: Rulebook) -> EarthworkFigures:
    """Return the figures of this room from an edition."""
    return EarthworkFigures(
        soil_figures(rules),
        _fill(rules),
        _care(rules),
        rules.figure("earthworks.topsoil_expected_mm"),
        rules.figure("earthworks.found_trench_mm"),
    )


def soil_figures(rules: Rulebook) -> SoilFigures:
    """Return how soils swell, weigh and shrink by an edition."""
    bulking, mass, shrink = (rules.table(f"earthworks.{key}") for key in ("bulking", "in_ground_t_per_m3", "shrink"))
    return SoilFigures(
        {soil: (bulking.figure(soil, "low_percent"), bulking.figure(soil, "high_percent")) for soil in Soil},
        {soil: (mass.figure(soil, "low"), mass.figure(soil, "high")) for soil in Soil},
        {soil: shrink.figure(soil, "percent") for soil in Soil},
        rules.figure("earthworks.barrow_m3"),
        rules.figure("earthworks.broken_bulking_percent"),
        rules.figure("earthworks.concrete_t_per_m3"),
    )


def _fill(rules: Rulebook) -> FillFigures:
    return FillFigures(
        rules.figure("earthworks.fill_layer_mm"),
        rules.value("earthworks.plate_light_kg_per_m2"),
        rules.value("earthworks.plate_heavy_kg_per_m2"),
        _passes(rules.table("earthworks.passes_granular")),
        _passes(rules.table("earthworks.passes_cohesive")),
    )


def _passes(table: Table) -> dict[Compactor, tuple[tuple[float, Figure], ...]]:
    return {
        Compactor(row.key): tuple(
            (lift, table.figure(row.key, column)) for column, lift in _LIFTS_MM.items() if column in dict(row.values)
        )
        for row in table.rows
    }


def _care(rules: Rulebook) -> CareFigures:
    return CareFigures(
        rules.figure("earthworks.hand_dig_mm"),
        rules.value("earthworks.service_met_below_mm"),
        rules.figure("earthworks.root_times_stem"),
        rules.figure("earthworks.near_wall_mm"),
        rules.figure("earthworks.deep_dig_mm"),
        rules.figure("earthworks.run_on_share"),
    )
