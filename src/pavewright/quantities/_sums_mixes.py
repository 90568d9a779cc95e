"""Sums of mixes and of what is bought loose: solid volumes, damp sand, compaction, methods beside each other."""

from __future__ import annotations

from pavewright.quantities._mixes import by_dry_volume, by_solid_volume, damp
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_ALL = 100.0


def mix_by_bags(bags: float, bag_m3: float, sand_parts: float, stone_parts: float) -> dict[str, Value]:
    """Return the sand and stone that go with bags of cement, all by volume.

    Source: handbook_mixes
    """
    if min(bags, sand_parts, stone_parts) < 0.0 or bag_m3 <= 0.0:
        message = "Bags and parts are not less than zero, and a bag holds something."
        raise SumRefusedError(message)
    cement = bags * bag_m3
    return {"cement_m3": cement, "sand_m3": cement * sand_parts, "stone_m3": cement * stone_parts}


def mortar_by_methods(
    sand_parts: float,
    dry_factor: float,
    cement_kg_per_m3: float,
    sand_voids_percent: float,
    water_per_cement: float,
    air_percent: float,
) -> dict[str, Value]:
    """Return the cement of a cubic metre of mortar by the dry-volume rule and by solid volumes.

    Source: valuers_page; handbook_mixes, voids and air as printed there
    """
    if min(sand_parts, dry_factor, cement_kg_per_m3) <= 0.0 or min(sand_voids_percent, water_per_cement) < 0.0:
        message = "Parts, factor and density are more than zero, voids and water not less."
        raise SumRefusedError(message)
    if not 0.0 <= air_percent < _ALL or sand_voids_percent >= _ALL:
        message = "Air and voids are parts of a whole, less than 100 %."
        raise SumRefusedError(message)
    dry = by_dry_volume(1.0, sand_parts, 0.0, dry_factor, cement_kg_per_m3)
    solid = by_solid_volume(
        1.0, sand_parts, cement_kg_per_m3, sand_voids_percent / _ALL, water_per_cement, air_percent / _ALL
    )
    mean = (dry.cement_kg + solid.cement_kg) / 2.0
    return {
        "dry_cement_kg": dry.cement_kg,
        "dry_sand_m3": dry.sand_m3,
        "solid_cement_kg": solid.cement_kg,
        "solid_sand_m3": solid.sand_m3,
        "spread_percent": _ALL * abs(dry.cement_kg - solid.cement_kg) / 2.0 / mean,
    }


def damp_sand(dry_m3: float, bulking_percent: float, dry_kg_per_m3: float, moisture_percent: float) -> dict[str, Value]:
    """Return what sand that is wanted dry comes to when it is batched or bought damp.

    Source: definition, damp = dry · (1 + bulking)
    """
    if min(dry_m3, bulking_percent, moisture_percent) < 0.0 or dry_kg_per_m3 <= 0.0:
        message = "Volume, bulking and moisture are not less than zero, and the density is more."
        raise SumRefusedError(message)
    found = damp(dry_m3, dry_kg_per_m3, bulking_percent, moisture_percent)
    return {"damp_m3": found.m3, "damp_kg": found.kg, "damp_kg_per_m3": found.kg_per_m3 if dry_m3 else 0.0}


def loose_for_compacted(
    compacted_m3: float, loose_t_per_m3: float, compacted_t_per_m3: float, lost_percent: float
) -> dict[str, Value]:
    """Return the loose volume and the mass that a compacted layer takes.

    Source: quarry_guide
    """
    if min(compacted_m3, lost_percent) < 0.0 or min(loose_t_per_m3, compacted_t_per_m3) <= 0.0:
        message = "Volume and loss are not less than zero, densities are more."
        raise SumRefusedError(message)
    mass = compacted_m3 * compacted_t_per_m3 * (1.0 + lost_percent / _ALL)
    return {
        "factor": compacted_t_per_m3 / loose_t_per_m3,
        "loose_m3": mass / loose_t_per_m3,
        "tonnes": mass,
    }


_CEMENT = Quantity(
    "cement_kg_per_m3", "kg/m³", "bulk density of cement", default=1440.0, figure="quantities.cement_kg_per_m3"
)
SUMS: tuple[Sum, ...] = (
    Sum(
        "mix-by-bags",
        "Find sand and stone for bags of cement, by volume",
        (
            Quantity("bags", "", "bags of cement"),
            Quantity("bag_m3", "m3", "loose volume of a bag", default=0.035),
            Quantity("sand_parts", "", "parts of sand to one of cement"),
            Quantity("stone_parts", "", "parts of stone to one of cement", default=0.0),
        ),
        (
            Quantity("cement_m3", "m3", "cement"),
            Quantity("sand_m3", "m3", "sand"),
            Quantity("stone_m3", "m3", "stone"),
        ),
        "cement = bags · bag; sand = cement · parts; stone = cement · parts",
        "handbook_mixes",
        mix_by_bags,
    ),
    Sum(
        "mortar-by-methods",
        "Hold the dry-volume rule against solid volumes for a cubic metre of mortar",
        (
            Quantity(
                "sand_parts", "", "parts of sand to one of cement", default=6.0, figure="quantities.bed_sand_parts"
            ),
            Quantity(
                "dry_factor", "", "dry volume over placed volume", default=1.33, figure="quantities.mortar_dry_factor"
            ),
            _CEMENT,
            Quantity("sand_voids_percent", "%", "voids of the sand", default=40.0),
            Quantity("water_per_cement", "", "water by mass of cement", default=0.7),
            Quantity("air_percent", "%", "air in the mortar", default=1.0),
        ),
        (
            Quantity("dry_cement_kg", "kg", "cement by the dry-volume rule"),
            Quantity("dry_sand_m3", "m3", "sand by the dry-volume rule"),
            Quantity("solid_cement_kg", "kg", "cement by solid volumes"),
            Quantity("solid_sand_m3", "m3", "sand by solid volumes"),
            Quantity("spread_percent", "%", "how far either lies from their mean"),
        ),
        "dry: factor / (1 + parts); solid: (1 − air) / (density / 3150 + parts · (1 − voids) + w · density / 1000)",
        "valuers_page; handbook_mixes",
        mortar_by_methods,
    ),
    Sum(
        "damp-sand",
        "Find how much damp sand stands for dry sand",
        (
            Quantity("dry_m3", "m3", "sand wanted, dry"),
            Quantity("bulking_percent", "%", "gain in volume when damp: 10 to 20 coarse, 20 to 30 fine", default=20.0),
            Quantity("dry_kg_per_m3", "kg/m³", "bulk density when dry", default=1600.0),
            Quantity("moisture_percent", "%", "water by mass of dry sand", default=5.0),
        ),
        (
            Quantity("damp_m3", "m3", "volume when damp"),
            Quantity("damp_kg", "kg", "mass when damp"),
            Quantity("damp_kg_per_m3", "kg/m³", "bulk density when damp"),
        ),
        "damp = dry · (1 + bulking); mass = dry · density · (1 + moisture)",
        "definition; common_practice for the bulking where none is given",
        damp_sand,
    ),
    Sum(
        "loose-for-compacted",
        "Find what is bought loose for a compacted layer",
        (
            Quantity("compacted_m3", "m3", "layer when compacted"),
            Quantity("loose_t_per_m3", "t/m³", "loose density", default=1.55),
            Quantity("compacted_t_per_m3", "t/m³", "compacted density", default=2.1),
            Quantity("lost_percent", "%", "lost beside it", default=0.0),
        ),
        (
            Quantity("factor", "", "loose volume over compacted volume"),
            Quantity("loose_m3", "m3", "loose volume"),
            Quantity("tonnes", "t", "mass"),
        ),
        "mass = compacted · density · (1 + lost); loose = mass / loose density",
        "quarry_guide",
        loose_for_compacted,
    ),
)
