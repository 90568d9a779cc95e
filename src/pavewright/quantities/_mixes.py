"""Mortar and concrete: what goes into a volume of it."""

from __future__ import annotations

from dataclasses import dataclass


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
