"""Sums of soakaways and drainage fields."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.ground._sized_pit import Demand, held, holds, smallest, storms_of
from pavewright.water.ground._storage_answers import BALANCE, SIDES, STORMS, answers_of


def soakaway_pit(
    length_mm: float,
    width_mm: float,
    depth_mm: float,
    void_percent: float,
    area_m2: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    half_empty_h: float,
    soaks_meanwhile: str = "yes",
) -> dict[str, Value]:
    """Return the water balance of a rectangular pit for storms of several durations.

    Water leaves through the sides to half the effective depth; the base is not counted. The duration that needs most
    storage governs. It is enough where it holds that storm and is half empty in time; where no longer and no shorter
    storm stands beside the worst in the row, it is enough for these storms only.

    Source: bre_digest_365; bucks_suds for the time to half empty
    """
    _refuse_no_pit(length_mm, width_mm, depth_mm, void_percent, half_empty_h)
    demand = Demand(
        area_m2,
        infiltration_m_per_s,
        storms_of(durations_min, rain_mm),
        half_empty_h,
        soaks_meanwhile=soaks_meanwhile == "yes",
    )
    return answers_of(held((length_mm, width_mm, depth_mm), void_percent, demand))


def soakaway_size(
    width_mm: float,
    depth_mm: float,
    void_percent: float,
    area_m2: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    half_empty_h: float,
    longest_mm: float,
    soaks_meanwhile: str = "yes",
) -> dict[str, Value]:
    """Return the shortest pit of a width and depth that holds its storms and is half empty in time.

    Source: bre_digest_365; bucks_suds for the time to half empty
    """
    _refuse_no_pit(longest_mm, width_mm, depth_mm, void_percent, half_empty_h)
    demand = Demand(
        area_m2,
        infiltration_m_per_s,
        storms_of(durations_min, rain_mm),
        half_empty_h,
        soaks_meanwhile=soaks_meanwhile == "yes",
    )
    length = smallest(lambda side: holds((side, width_mm, depth_mm), void_percent, demand), longest_mm)
    if length is None:
        worst = held((longest_mm, width_mm, depth_mm), void_percent, demand)
        message = (
            f"No pit {width_mm:g} mm wide and {depth_mm:g} mm deep up to {longest_mm:g} mm long does it: the longest "
            f"holds {worst.available_m3:.2f} m³ of {worst.balance.required_m3:.2f} m³ and takes "
            f"{worst.balance.half_empty_min / units.MINUTES_PER_HOUR:.0f} h to half empty. Make it wider or lead less "
            "water to it."
        )
        raise SumRefusedError(message)
    return {"length_mm": length, **answers_of(held((length, width_mm, depth_mm), void_percent, demand))}


def _refuse_no_pit(
    length_mm: float, width_mm: float, depth_mm: float, void_percent: float, half_empty_h: float
) -> None:
    if min(length_mm, width_mm, depth_mm, half_empty_h) <= 0.0 or not 0.0 < void_percent / 100.0 <= 1.0:
        message = "Sizes are more than zero, voids are more than zero and at most 100 %: measure the pit again."
        raise SumRefusedError(message)


def ring_soakaway(area_m2: float, diameter_mm: float, rain_mm: float) -> dict[str, Value]:
    """Return the depth of a ring that holds a depth of rain off an area, nothing soaking away meanwhile.

    Source: bs_8301_note
    """
    if min(area_m2, diameter_mm, rain_mm) <= 0.0:
        message = "Area, diameter and rain are more than zero."
        raise SumRefusedError(message)
    volume = area_m2 * units.mm_to_m(rain_mm)
    return {
        "volume_m3": volume,
        "depth_mm": units.m_to_mm(4.0 * volume / (math.pi * units.mm_to_m(diameter_mm) ** 2)),
    }


def drainage_field(people: float, s_per_mm: float, trench_width_mm: float) -> dict[str, Value]:
    """Return the floor of a drainage field for foul water: not for rain.

    Source: approved_document_h2
    """
    if people < 1.0 or min(s_per_mm, trench_width_mm) <= 0.0:
        message = "One person or more; percolation value and trench are more than zero."
        raise SumRefusedError(message)
    area = people * s_per_mm * 0.25
    return {"area_m2": area, "trench_mm": units.m_to_mm(area / units.mm_to_m(trench_width_mm))}


def storm_storage_rule(area_m2: float, rain_mm: float, runoff_coefficient: float) -> dict[str, Value]:
    """Return the storage that a depth of rain off an area needs when nothing soaks away.

    Source: definition
    """
    if min(area_m2, rain_mm) < 0.0 or not 0.0 <= runoff_coefficient <= 1.0:
        message = "Area and rain are not less than zero; between none and all of the rain runs off."
        raise SumRefusedError(message)
    return {"storage_m3": runoff_coefficient * area_m2 * units.mm_to_m(rain_mm)}


SOAKAWAY_SUMS: tuple[Sum, ...] = (
    Sum(
        "soakaway-pit",
        "Find whether a rectangular soakaway holds its storms and empties in time",
        (
            Quantity("length_mm", "mm", "length"),
            Quantity("width_mm", "mm", "width"),
            Quantity("depth_mm", "mm", "depth below the inlet"),
            *STORMS,
        ),
        (SIDES, *BALANCE),
        "S = A·R − a·f·D; half empty after S / 2af",
        "bre_digest_365; bucks_suds",
        soakaway_pit,
    ),
    Sum(
        "soakaway-size",
        "Find the length of a rectangular soakaway that holds its storms and empties in time",
        (
            Quantity("width_mm", "mm", "width", figure="water.soakaway_width_mm"),
            Quantity("depth_mm", "mm", "depth below the inlet", figure="water.soakaway_depth_mm"),
            *STORMS,
            Quantity("longest_mm", "mm", "longest that fits", figure="water.soakaway_longest_mm"),
        ),
        (Quantity("length_mm", "mm", "length, in steps of 50 mm"), SIDES, *BALANCE),
        "shortest L with A·R − a·f·D ≤ L·W·d·n for all D, and S / 2af in time",
        "bre_digest_365; bucks_suds",
        soakaway_size,
    ),
    Sum(
        "ring-soakaway",
        "Find the depth of a ring that holds a depth of rain",
        (
            Quantity("area_m2", "m2", "area drained"),
            Quantity("diameter_mm", "mm", "inside diameter of the ring"),
            Quantity("rain_mm", "mm", "depth of rain held", default=12.0, figure="water.ring_rain_mm"),
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
        "approved_document_h2",
        drainage_field,
    ),
    Sum(
        "storm-storage",
        "Find the storage that a depth of rain needs when nothing soaks away",
        (
            Quantity("area_m2", "m2", "area drained"),
            Quantity("rain_mm", "mm", "depth of rain", default=10.0),
            Quantity("runoff_coefficient", "", "part of the rain that runs off", default=1.0),
        ),
        (Quantity("storage_m3", "m3", "storage"),),
        "S = C · A · R",
        "definition",
        storm_storage_rule,
    ),
)
