"""Sums of taking-off."""

from __future__ import annotations

from pavewright import units
from pavewright.quantities._amounts import layer_m3, strip_m3, whole, with_allowance
from pavewright.quantities._mixes import CEMENT_GRAVITY, by_dry_volume, with_ballast
from pavewright.quantities._sums_carbon import SUMS as CARBON
from pavewright.quantities._sums_edges import EDGES
from pavewright.quantities._sums_mixes import SUMS as MIXES
from pavewright.quantities._sums_spares import SPARES
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def mortar_mix(
    volume_m3: float,
    sand_parts: float,
    dry_factor: float,
    cement_kg_per_m3: float,
    sand_kg_per_m3: float,
    bag_kg: float,
) -> dict[str, Value]:
    """Return cement and sand for a volume of mortar.

    Source: valuers_page
    """
    if volume_m3 < 0.0 or min(sand_parts, dry_factor, cement_kg_per_m3, sand_kg_per_m3, bag_kg) <= 0.0:
        message = "Volume is not less than zero; parts, densities and bag are more than zero."
        raise SumRefusedError(message)
    mix = by_dry_volume(volume_m3, sand_parts, 0.0, dry_factor, cement_kg_per_m3)
    return {
        "dry_m3": mix.dry_m3,
        "cement_m3": mix.cement_m3,
        "cement_kg": mix.cement_kg,
        "bags_exact": mix.cement_kg / bag_kg,
        "bags": float(whole(mix.cement_kg, bag_kg)),
        "sand_m3": mix.sand_m3,
        "sand_kg": mix.sand_m3 * sand_kg_per_m3,
    }


def concrete_mix(
    volume_m3: float,
    sand_parts: float,
    stone_parts: float,
    dry_factor: float,
    cement_kg_per_m3: float,
    bag_kg: float,
) -> dict[str, Value]:
    """Return cement, sand and stone for a volume of concrete.

    Source: dry_volume_rule
    """
    if volume_m3 < 0.0 or min(sand_parts, stone_parts, dry_factor, cement_kg_per_m3, bag_kg) <= 0.0:
        message = "Volume is not less than zero; parts, density and bag are more than zero."
        raise SumRefusedError(message)
    mix = by_dry_volume(volume_m3, sand_parts, stone_parts, dry_factor, cement_kg_per_m3)
    return {
        "dry_m3": mix.dry_m3,
        "cement_kg": mix.cement_kg,
        "bags": float(whole(mix.cement_kg, bag_kg)),
        "sand_m3": mix.sand_m3,
        "stone_m3": mix.stone_m3,
    }


def ballast_concrete(
    volume_m3: float,
    ballast_parts: float,
    ballast_factor: float,
    cement_kg_per_m3: float,
    ballast_kg_per_m3: float,
    bag_kg: float,
) -> dict[str, Value]:
    """Return cement and all-in ballast for a volume of concrete.

    Source: common_practice
    """
    if volume_m3 < 0.0 or min(ballast_parts, ballast_factor, cement_kg_per_m3, ballast_kg_per_m3, bag_kg) <= 0.0:
        message = "Volume is not less than zero; parts, densities and bag are more than zero."
        raise SumRefusedError(message)
    mix = with_ballast(volume_m3, ballast_parts, ballast_factor, cement_kg_per_m3)
    return {
        "cement_kg": mix.cement_kg,
        "bags": float(whole(mix.cement_kg, bag_kg)),
        "ballast_m3": mix.sand_m3,
        "ballast_kg": mix.sand_m3 * ballast_kg_per_m3,
    }


def absolute_volume(
    cement_kg: float,
    water_l: float,
    sand_m3: float,
    stone_m3: float,
    sand_voids_percent: float,
    stone_voids_percent: float,
    air_percent: float,
) -> dict[str, Value]:
    """Return the volume that a mix fills when every grain is counted solid.

    Source: handbook_mixes, voids and air as printed there
    """
    if min(cement_kg, water_l, sand_m3, stone_m3, sand_voids_percent, stone_voids_percent, air_percent) < 0.0:
        message = "Nothing in a mix is less than zero."
        raise SumRefusedError(message)
    air = air_percent / 100.0
    if air >= 1.0:
        message = "Air is a part of the concrete, less than 100 %."
        raise SumRefusedError(message)
    solid = (
        cement_kg / (CEMENT_GRAVITY * units.LITRES_PER_M3)
        + water_l / units.LITRES_PER_M3
        + sand_m3 * (1.0 - sand_voids_percent / 100.0)
        + stone_m3 * (1.0 - stone_voids_percent / 100.0)
    )
    return {"volume_m3": solid / (1.0 - air)}


def layer_mass(
    area_m2: float, thickness_mm: float, density_t_per_m3: float, allowance_percent: float
) -> dict[str, Value]:
    """Return volume and mass of a layer.

    Source: definition
    """
    if min(area_m2, thickness_mm, density_t_per_m3, allowance_percent) < 0.0:
        message = "Area, thickness, density and allowance are not less than zero."
        raise SumRefusedError(message)
    volume = layer_m3(area_m2, thickness_mm)
    mass = volume * density_t_per_m3
    return {
        "volume_m3": volume,
        "tonnes": mass,
        "ordered_tonnes": with_allowance(mass, allowance_percent),
        "m2_per_tonne": area_m2 / mass if mass else 0.0,
    }


def strip_concrete(length_mm: float, width_mm: float, depth_mm: float) -> dict[str, Value]:
    """Return the concrete under a kerb or edging.

    Source: definition
    """
    if min(length_mm, width_mm, depth_mm) < 0.0:
        message = "Length, width and depth are not less than zero."
        raise SumRefusedError(message)
    return {"volume_m3": strip_m3(units.mm_to_m(length_mm), width_mm, depth_mm)}


def packs_for_units(units_needed: float, spare_percent: float, per_pack: float) -> dict[str, Value]:
    """Return whole packs for a number of units.

    Source: definition
    """
    if units_needed < 0.0 or spare_percent < 0.0 or per_pack < 1.0:
        message = "Units and spares are not less than zero, and a pack holds one or more."
        raise SumRefusedError(message)
    gross = whole(with_allowance(units_needed, spare_percent))
    packs = whole(gross, per_pack)
    return {"with_spares": float(gross), "packs": float(packs), "left_over": packs * per_pack - units_needed}


_CEMENT = Quantity(
    "cement_kg_per_m3", "kg/m³", "bulk density of cement", default=1440.0, figure="quantities.cement_kg_per_m3"
)
_BAG = Quantity("bag_kg", "kg", "what a bag of cement holds", default=25.0, figure="quantities.cement_bag_kg")
_BAGS = Quantity("bags", "", "whole bags")

SUMS: tuple[Sum, ...] = (
    Sum(
        "mortar-mix",
        "Find cement and sand for a volume of mortar",
        (
            Quantity("volume_m3", "m3", "mortar when placed"),
            Quantity(
                "sand_parts", "", "parts of sand to one of cement", default=6.0, figure="quantities.bed_sand_parts"
            ),
            Quantity(
                "dry_factor", "", "dry volume over placed volume", default=1.33, figure="quantities.mortar_dry_factor"
            ),
            _CEMENT,
            Quantity(
                "sand_kg_per_m3",
                "kg/m³",
                "bulk density of the sand",
                default=1600.0,
                figure="quantities.sharp_sand_kg_per_m3",
            ),
            _BAG,
        ),
        (
            Quantity("dry_m3", "m3", "dry material"),
            Quantity("cement_m3", "m3", "cement by volume"),
            Quantity("cement_kg", "kg", "cement"),
            Quantity("bags_exact", "", "bags before rounding up"),
            _BAGS,
            Quantity("sand_m3", "m3", "sand by volume"),
            Quantity("sand_kg", "kg", "sand"),
        ),
        "dry = volume · factor; cement = dry / (1 + parts) · density",
        "valuers_page; common practice for the mix where none is given",
        mortar_mix,
    ),
    Sum(
        "concrete-mix",
        "Find cement, sand and stone for a volume of concrete",
        (
            Quantity("volume_m3", "m3", "concrete when placed"),
            Quantity("sand_parts", "", "parts of sand to one of cement", default=2.0),
            Quantity("stone_parts", "", "parts of stone to one of cement", default=4.0),
            Quantity("dry_factor", "", "dry volume over placed volume", default=1.54),
            _CEMENT,
            _BAG,
        ),
        (
            Quantity("dry_m3", "m3", "dry material"),
            Quantity("cement_kg", "kg", "cement"),
            _BAGS,
            Quantity("sand_m3", "m3", "sand by volume"),
            Quantity("stone_m3", "m3", "stone by volume"),
        ),
        "dry = volume · factor; cement = dry / (1 + parts) · density",
        "dry_volume_rule",
        concrete_mix,
    ),
    Sum(
        "ballast-concrete",
        "Find cement and all-in ballast for a volume of concrete",
        (
            Quantity("volume_m3", "m3", "concrete when placed"),
            Quantity(
                "ballast_parts",
                "",
                "parts of ballast to one of cement",
                default=6.0,
                figure="quantities.base_ballast_parts",
            ),
            Quantity(
                "ballast_factor",
                "",
                "loose ballast over placed volume",
                default=1.2,
                figure="quantities.ballast_factor",
            ),
            _CEMENT,
            Quantity(
                "ballast_kg_per_m3",
                "kg/m³",
                "bulk density of ballast",
                default=1740.0,
                figure="quantities.ballast_kg_per_m3",
            ),
            _BAG,
        ),
        (
            Quantity("cement_kg", "kg", "cement"),
            _BAGS,
            Quantity("ballast_m3", "m3", "ballast by volume"),
            Quantity("ballast_kg", "kg", "ballast"),
        ),
        "ballast = volume · factor; cement = ballast / parts · density",
        "common practice",
        ballast_concrete,
    ),
    Sum(
        "absolute-volume",
        "Find the volume that a mix fills, every grain counted solid",
        (
            Quantity("cement_kg", "kg", "cement"),
            Quantity("water_l", "l", "water"),
            Quantity("sand_m3", "m3", "sand, loose"),
            Quantity("stone_m3", "m3", "stone, loose", default=0.0),
            Quantity("sand_voids_percent", "%", "voids in the sand", default=40.0),
            Quantity("stone_voids_percent", "%", "voids in the stone", default=45.0),
            Quantity("air_percent", "%", "air in the mix", default=1.0),
        ),
        (Quantity("volume_m3", "m3", "volume filled"),),
        "V = (cement / 3150 + water + sand · (1 − voids) + stone · (1 − voids)) / (1 − air)",
        "handbook_mixes",
        absolute_volume,
    ),
    Sum(
        "layer-mass",
        "Find volume and mass of a layer of stone or sand",
        (
            Quantity("area_m2", "m2", "area"),
            Quantity("thickness_mm", "mm", "thickness"),
            Quantity("density_t_per_m3", "t/m³", "density as placed", default=2.1),
            Quantity("allowance_percent", "%", "compaction and waste", default=0.0),
        ),
        (
            Quantity("volume_m3", "m3", "volume"),
            Quantity("tonnes", "t", "mass"),
            Quantity("ordered_tonnes", "t", "with the allowance"),
            Quantity("m2_per_tonne", "m2", "what a tonne covers"),
        ),
        "mass = area · thickness · density",
        "definition; quarry_guide for the density where none is given",
        layer_mass,
    ),
    Sum(
        "strip-concrete",
        "Find the concrete under a kerb or edging",
        (
            Quantity("length_mm", "mm", "length"),
            Quantity("width_mm", "mm", "width"),
            Quantity("depth_mm", "mm", "depth"),
        ),
        (Quantity("volume_m3", "m3", "concrete before the haunch"),),
        "V = length · width · depth",
        "definition",
        strip_concrete,
    ),
    Sum(
        "packs-for-units",
        "Find whole packs for a number of units",
        (
            Quantity("units_needed", "", "units that the laying plan needs"),
            Quantity("spare_percent", "%", "spares", default=3.0, figure="quantities.spare_percent"),
            Quantity("per_pack", "", "units in a pack"),
        ),
        (
            Quantity("with_spares", "", "units with spares"),
            Quantity("packs", "", "whole packs"),
            Quantity("left_over", "", "units left when all is laid and none broken"),
        ),
        "packs = units · (1 + spares) / per pack, rounded up",
        "definition",
        packs_for_units,
    ),
    SPARES,
    EDGES,
    *MIXES,
    *CARBON,
)
