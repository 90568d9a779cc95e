"""The figures of taking-off, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook, Table


@dataclass(frozen=True, slots=True)
class QuantityFigures:
    """Densities, parts and allowances; a field is the figure of its name in the rulebook, with its unit there.

    Attributes:
        density: Bulk density of what is bought by mass; stone for a sub-base when compacted. [kg/m³]
        soakaway_stone_kg_per_m3: Bulk density of clean stone for a soakaway. [kg/m³]
        deep_dig_mm: A hole deeper than this has its sides looked at.
        mortar_cement: Cement in mortars by printed tables.
    """

    mortar_dry_factor: Figure
    ballast_factor: Figure
    bed_sand_parts: Figure
    base_ballast_parts: Figure
    pointing_sand_parts: Figure
    cement_kg_per_m3: Figure
    mortar_water_l_per_m3: Figure
    water_per_cement: Figure
    plasticiser_l_per_kg: Figure
    bond_coat_kg_per_m2: Figure
    spare_percent: Figure
    aggregate_percent: Figure
    mortar_percent: Figure
    concrete_percent: Figure
    fabric_percent: Figure
    edging_percent: Figure
    walling_percent: Figure
    channel_concrete_m3_per_m: Figure
    max_short_percent: Figure
    gully_concrete_m3_each: Figure
    bends_per_run: Figure
    pipe_gravel_kg_per_m3: Figure
    step_foundation_wide_mm: Figure
    step_foundation_thick_mm: Figure
    step_mortar_m3_per_m: Figure
    cement_bag_kg: Figure
    bag_max_kg: Figure
    mixer_l: Figure
    mixed_barrow_l: Figure
    bucket_l: Figure
    shovel_l: Figure
    density: Mapping[MaterialKind, Figure]
    soakaway_stone_kg_per_m3: float
    deep_dig_mm: Figure
    mortar_cement: Table

    def bulk_kg_per_m3(self, material: MaterialKind) -> float:
        """Return the bulk density of a material that is bought by volume and needed by mass. [kg/m³]."""
        if material is MaterialKind.SOAKAWAY_STONE:
            return self.soakaway_stone_kg_per_m3
        return self.density[material].value


def quantity_figures(rules: Rulebook) -> QuantityFigures:
    """Return the figures of taking-off."""
    return read_figures(
        QuantityFigures,
        rules,
        "quantities",
        density={kind: rules.figure(f"quantities.{name}_kg_per_m3") for kind, name in _DENSITIES.items()},
        soakaway_stone_kg_per_m3=rules.value("water.soakaway_stone_t_per_m3") * units.KG_PER_TONNE,
        deep_dig_mm=rules.figure("earthworks.deep_dig_mm"),
        mortar_cement=rules.table("quantities.mortar_cement"),
    )


_DENSITIES = {
    MaterialKind.SHARP_SAND: "sharp_sand",
    MaterialKind.SOFT_SAND: "soft_sand",
    MaterialKind.JOINT_SAND: "joint_sand",
    MaterialKind.BALLAST: "ballast",
    MaterialKind.DRAIN_STONE: "drain_stone",
    MaterialKind.SUB_BASE: "sub_base_compacted",
    MaterialKind.CAPPING: "capping_compacted",
    MaterialKind.OPEN_STONE: "open_stone_compacted",
    MaterialKind.GRIT: "grit",
}
