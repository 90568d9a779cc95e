"""Sums of soakaways and drainage fields."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water._water_balance import balance


def soakaway_pit(
    length_mm: float,
    width_mm: float,
    depth_mm: float,
    void_percent: float,
    area_m2: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
) -> dict[str, Value]:
    """Return the water balance of a rectangular pit for storms of several durations.

    Water leaves through the sides to half the effective depth; the base is not counted. The duration that wants most
    storage governs.

    Source: bre_digest_365
    """
    if min(length_mm, width_mm, depth_mm) <= 0.0 or not 0.0 < void_percent / 100.0 <= 1.0:
        message = "Sizes are more than nothing, voids are more than nothing and at most 100 %: measure the pit again."
        raise SumRefusedError(message)
    sides = units.mm2_to_m2((length_mm + width_mm) * depth_mm)
    found = balance(area_m2, sides, infiltration_m_per_s, durations_min, rain_mm)
    available = units.mm3_to_m3(length_mm * width_mm * depth_mm) * void_percent / 100.0
    return {
        "sides_m2": sides,
        "inflow_m3": found.inflow_m3,
        "outflow_m3": found.outflow_m3,
        "storage_m3": found.storage_m3,
        "required_m3": found.required_m3,
        "governing_min": found.governing_min,
        "available_m3": available,
        "half_empty_min": found.half_empty_min,
        "verdict": "enough" if found.required_m3 <= available else "too small",
    }


def ring_soakaway(area_m2: float, diameter_mm: float, rain_mm: float) -> dict[str, Value]:
    """Return the depth of a ring that holds a depth of rain off an area, nothing soaking away meanwhile.

    Source: bs_8301_note
    """
    if min(area_m2, diameter_mm, rain_mm) <= 0.0:
        message = "Area, diameter and rain are more than nothing."
        raise SumRefusedError(message)
    volume = area_m2 * units.mm_to_m(rain_mm)
    return {
        "volume_m3": volume,
        "depth_mm": units.m_to_mm(4.0 * volume / (math.pi * units.mm_to_m(diameter_mm) ** 2)),
    }


def drainage_field(people: float, s_per_mm: float, trench_width_mm: float) -> dict[str, Value]:
    """Return the floor of a drainage field for foul water: not for rain.

    Source: percolation_note
    """
    if people < 1.0 or min(s_per_mm, trench_width_mm) <= 0.0:
        message = "One person or more; percolation value and trench are more than nothing."
        raise SumRefusedError(message)
    area = people * s_per_mm * 0.25
    return {"area_m2": area, "trench_mm": units.m_to_mm(area / units.mm_to_m(trench_width_mm))}


def storm_storage_rule(area_m2: float, rain_mm: float) -> dict[str, Value]:
    """Return the storage that a depth of rain off an area wants when nothing soaks away.

    Source: definition
    """
    if min(area_m2, rain_mm) < 0.0:
        message = "Area and rain are not less than nothing."
        raise SumRefusedError(message)
    return {"storage_m3": area_m2 * units.mm_to_m(rain_mm)}


SOAKAWAY_SUMS: tuple[Sum, ...] = (
    Sum(
        "soakaway-pit",
        "Find whether a rectangular soakaway holds its storms",
        (
            Quantity("length_mm", "mm", "length"),
            Quantity("width_mm", "mm", "width"),
            Quantity("depth_mm", "mm", "depth below the inlet"),
            Quantity("void_percent", "%", "voids in the fill", default=30.0),
            Quantity("area_m2", "m2", "area drained"),
            Quantity("infiltration_m_per_s", "m/s", "infiltration rate, slowest of three tests"),
            Quantity("durations_min", "min", "durations of the storms", kind="numbers"),
            Quantity("rain_mm", "mm", "depth of rain of each", kind="numbers"),
        ),
        (
            Quantity("sides_m2", "m2", "sides to half the depth"),
            Quantity("inflow_m3", "m3", "water that comes", kind="numbers"),
            Quantity("outflow_m3", "m3", "water that soaks away", kind="numbers"),
            Quantity("storage_m3", "m3", "storage wanted by each storm", kind="numbers"),
            Quantity("required_m3", "m3", "storage wanted by the worst"),
            Quantity("governing_min", "min", "duration of the worst"),
            Quantity("available_m3", "m3", "storage of the pit"),
            Quantity("half_empty_min", "min", "time to half empty"),
            Quantity("verdict", "", "enough or too small", kind="word"),
        ),
        "S = A·R − a·f·D; half empty after S / 2af",
        "bre_digest_365",
        soakaway_pit,
    ),
    Sum(
        "ring-soakaway",
        "Find the depth of a ring that holds a depth of rain",
        (
            Quantity("area_m2", "m2", "area drained"),
            Quantity("diameter_mm", "mm", "inside diameter of the ring"),
            Quantity("rain_mm", "mm", "depth of rain held", default=12.0),
        ),
        (Quantity("volume_m3", "m3", "water held"), Quantity("depth_mm", "mm", "depth of the ring below the inlet")),
        "h = 4·A·R / (π·D²)",
        "bs_8301_note",
        ring_soakaway,
    ),
    Sum(
        "drainage-field",
        "Find the floor of a drainage field for foul water",
        (
            Quantity("people", "", "people"),
            Quantity("s_per_mm", "s/mm", "percolation value, mean of the tests"),
            Quantity("trench_width_mm", "mm", "width of the trenches", default=600.0),
        ),
        (Quantity("area_m2", "m2", "floor of the trenches"), Quantity("trench_mm", "mm", "length of trench")),
        "A = p · Vp · 0.25",
        "percolation_note",
        drainage_field,
    ),
    Sum(
        "storm-storage",
        "Find the storage that a depth of rain wants when nothing soaks away",
        (Quantity("area_m2", "m2", "area drained"), Quantity("rain_mm", "mm", "depth of rain", default=10.0)),
        (Quantity("storage_m3", "m3", "storage"),),
        "S = A · R",
        "definition",
        storm_storage_rule,
    ),
)
