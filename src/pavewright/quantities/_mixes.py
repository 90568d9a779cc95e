"""Mortar and concrete: what goes into a volume of it."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright import units


@dataclass(frozen=True, slots=True)
class Mix:
    """What a volume of mortar or concrete takes.

    Attributes:
        dry_m3: Loose volume of everything dry. [m³]
        cement_m3: [m³]
        cement_kg: [kg]
        sand_m3: Sand, or all-in ballast. [m³]
        stone_m3: Stone; nothing where ballast or mortar is meant. [m³]
    """

    dry_m3: float
    cement_m3: float
    cement_kg: float
    sand_m3: float
    stone_m3: float


def by_dry_volume(
    volume_m3: float, sand_parts: float, stone_parts: float, dry_factor: float, cement_kg_per_m3: float
) -> Mix:
    """Return what a volume takes by the dry-volume rule: so much dry material, split by parts.

    Args:
        volume_m3: Finished volume. [m³]
        sand_parts: Parts of sand to one of cement. [-]
        stone_parts: Parts of stone to one of cement. [-]
        dry_factor: Dry volume over finished volume. [-]
        cement_kg_per_m3: Bulk density of cement. [kg/m³]

    Valid for: mixes by volume.
    Source: valuers_page, worked example; dry_volume_rule

    >>> round(by_dry_volume(1.0, 6.0, 0.0, 1.33, 1440.0).cement_kg, 1)
    273.6
    """
    dry = volume_m3 * dry_factor
    cement = dry / (1.0 + sand_parts + stone_parts)
    return Mix(dry, cement, cement * cement_kg_per_m3, cement * sand_parts, cement * stone_parts)


def with_ballast(volume_m3: float, ballast_parts: float, ballast_factor: float, cement_kg_per_m3: float) -> Mix:
    """Return what a volume of concrete from all-in ballast takes; the cement fills voids of the ballast.

    Args:
        volume_m3: Volume of concrete. [m³]
        ballast_parts: Parts of ballast to one of cement. [-]
        ballast_factor: Volume of ballast over that of the concrete. [-]
        cement_kg_per_m3: Loose density of cement. [kg/m³]

    Valid for: about four to eight parts of ballast.
    Source: common_practice

    >>> with_ballast(1.0, 6.0, 1.2, 1440.0).cement_kg
    288.0
    """
    ballast = volume_m3 * ballast_factor
    cement = ballast / ballast_parts
    return Mix(ballast + cement, cement, cement * cement_kg_per_m3, ballast, 0.0)


@dataclass(frozen=True, slots=True)
class DampSand:
    """Damp sand that stands for dry sand.

    Attributes:
        m3: Its loose volume. [m³]
        kg: Its mass, water included. [kg]
        kg_per_m3: Its loose density. [kg/m³]
    """

    m3: float
    kg: float
    kg_per_m3: float


def damp(dry_m3: float, dry_kg_per_m3: float, bulking_percent: float, moisture_percent: float) -> DampSand:
    """Return what sand that is wanted dry comes to when it is batched or bought damp.

    Args:
        dry_m3: Sand that is wanted, loose and dry. [m³]
        dry_kg_per_m3: Loose density when dry. [kg/m³]
        bulking_percent: Gain in volume when damp. [%]
        moisture_percent: Water by mass of dry sand. [%]

    Source: definition, damp = dry · (1 + bulking); mass = dry · density · (1 + moisture)

    >>> round(damp(1.0, 1600.0, 20.0, 5.0).kg_per_m3, 1)
    1400.0
    """
    more, wet = 1.0 + bulking_percent / units.ALL_PERCENT, 1.0 + moisture_percent / units.ALL_PERCENT
    return DampSand(dry_m3 * more, dry_m3 * dry_kg_per_m3 * wet, dry_kg_per_m3 * wet / more)


def by_solid_volume(
    volume_m3: float,
    sand_parts: float,
    cement_kg_per_m3: float,
    sand_voids: float,
    water_per_cement: float,
    air: float,
) -> Mix:
    """Return what a volume of mortar takes when every grain is counted solid: cement, sand, water and air fill it.

    Args:
        volume_m3: Finished volume. [m³]
        sand_parts: Parts of sand to one of cement. [-]
        cement_kg_per_m3: Bulk density of cement. [kg/m³]
        sand_voids: Voids of the sand, a part of it. [-]
        water_per_cement: Water by mass of cement. [-]
        air: Air in the mortar, a part of it. [-]

    Valid for: mixes by volume.
    Source: handbook_mixes, voids and air as printed there

    >>> round(by_solid_volume(1.0, 6.0, 1428.0, 0.4, 0.7, 0.01).cement_kg, 0)
    280.0
    """
    solid = cement_kg_per_m3 / (CEMENT_GRAVITY * units.LITRES_PER_M3)
    water = water_per_cement * cement_kg_per_m3 / units.LITRES_PER_M3
    cement = volume_m3 * (1.0 - air) / (solid + sand_parts * (1.0 - sand_voids) + water)
    return Mix(cement * (1.0 + sand_parts), cement, cement * cement_kg_per_m3, cement * sand_parts, 0.0)


CEMENT_GRAVITY = 3.15
"""Cement weighs this many times its solid volume of water. [-]"""
