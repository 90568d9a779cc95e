"""Sums of storage in stone: trenches, rings in a dig, permeable paving and rain gardens."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water._types_parts import PitVerdict
from pavewright.water.ground._sized_pit import Demand, held, held_by, storms_of, verdict_on
from pavewright.water.ground._storage_answers import (
    BALANCE,
    DURATIONS,
    GOVERNING,
    HALF_EMPTY,
    IN_TIME,
    RAIN,
    SIDES,
    STORMS,
    VOID,
    answers_of,
)
from pavewright.water.ground._water_balance import SECONDS_PER_MINUTE, balance


def soakaway_trench(
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
    """Return the length of a trench that just holds its storms.

    Each metre adds storage and side alike, so the balance of each storm gives the length at once; the longest counts.
    The ends soak too, the base does not.

    Source: bre_digest_365, I − O = S solved for the length

    >>> found = soakaway_trench(600.0, 1000.0, 30.0, 50.0, 1e-5, (60.0,), (25.0,), 24.0)
    >>> round(found["length_mm"]), round(found["required_m3"], 3) == round(found["available_m3"], 3)
    (5687, True)
    """
    _refuse_sizes(void_percent, width_mm, depth_mm, infiltration_m_per_s)
    width, depth, void = units.mm_to_m(width_mm), units.mm_to_m(depth_mm), void_percent / 100.0
    # checks the rows, and calculates the ends alone
    soaks = soaks_meanwhile == "yes"
    ends = balance(area_m2, width * depth, infiltration_m_per_s, durations_min, rain_mm, soaks_meanwhile=soaks)
    rate = infiltration_m_per_s * float(soaks)
    lengths = tuple(
        max(left, 0.0) / (void * width * depth + rate * depth * minutes * SECONDS_PER_MINUTE)
        for left, minutes in zip(ends.storage_m3, durations_min, strict=True)
    )
    length = max(lengths)
    demand = Demand(
        area_m2,
        infiltration_m_per_s,
        storms_of(durations_min, rain_mm),
        half_empty_h,
        soaks_meanwhile=soaks_meanwhile == "yes",
    )
    found = held((units.m_to_mm(length), width_mm, depth_mm), void_percent, demand)
    return {
        "length_mm": units.m_to_mm(length),
        "lengths_mm": tuple(units.m_to_mm(each) for each in lengths),
        **answers_of(found),
    }


def ring_in_dig(
    diameter_mm: float,
    depth_mm: float,
    dig_mm: float,
    dig_times: float,
    void_percent: float,
    area_m2: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    half_empty_h: float,
    soaks_meanwhile: str = "yes",
) -> dict[str, Value]:
    """Return the water balance of a perforated ring in a square dig filled with stone round it.

    Water soaks away through the sides of the dig to half the depth. The ring is open inside, its wall is not taken off.

    Source: bre_digest_365, I − O = S; bs_8301_note for the dig, twice as wide as the ring; common practice for the
    storage, ring and voids of the stone together

    >>> found = ring_in_dig(1050.0, 1500.0, 0.0, 2.0, 30.0, 60.0, 2e-5, (60.0,), (25.0,), 24.0)
    >>> found["dig_side_mm"], round(found["available_m3"], 2)
    (2100.0, 2.89)
    """
    dig = dig_mm or dig_times * diameter_mm
    _refuse_sizes(void_percent, diameter_mm, depth_mm, infiltration_m_per_s)
    if dig < diameter_mm:
        message = "The dig is at least as wide as the ring."
        raise SumRefusedError(message)
    side, depth = units.mm_to_m(dig), units.mm_to_m(depth_mm)
    ring = math.pi * units.mm_to_m(diameter_mm) ** 2 / 4.0 * depth
    available = ring + void_percent / 100.0 * (side * side * depth - ring)
    demand = Demand(
        area_m2,
        infiltration_m_per_s,
        storms_of(durations_min, rain_mm),
        half_empty_h,
        soaks_meanwhile=soaks_meanwhile == "yes",
    )
    return {
        "dig_side_mm": dig,
        "ring_m3": ring,
        **answers_of(held_by(2.0 * side * depth, available, demand)),
    }


def permeable_storage(
    ratio: float,
    void_percent: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    half_empty_h: float,
) -> dict[str, Value]:
    """Return the depth of open stone under permeable paving that holds its storms, water soaking into the formation.

    Whether a longer or shorter storm would need more is part of the verdict: two durations prove nothing.

    Source: icpi_permeable, depth = (rain · (1 + R) − f·t) / void, worst of all durations

    >>> found = permeable_storage(1.0, 30.0, 1e-5, (10.0, 15.0), (12.79, 15.66), 24.0)
    >>> round(found["depth_mm"]), found["governing_min"], found["verdict"]
    (74, 15.0, 'enough for these storms only')
    """
    _refuse_sizes(void_percent, infiltration_m_per_s)
    if ratio < 0.0:
        message = "The ratio of other paving that drains on to it is not less than zero."
        raise SumRefusedError(message)
    # one square metre of permeable paving
    found = balance(1.0 + ratio, 1.0, infiltration_m_per_s, durations_min, rain_mm)
    void = void_percent / 100.0
    return {
        "depths_mm": tuple(max(units.m_to_mm(each / void), 0.0) for each in found.storage_m3),
        "depth_mm": units.m_to_mm(found.required_m3 / void),
        "governing_min": found.governing_min,
        "half_empty_min": found.half_empty_min,
        "verdict": verdict_on(found, durations_min, found.required_m3, half_empty_h).value,
    }


def storage_under_slope(thickness_mm: float, length_mm: float, one_in: float, void_percent: float) -> dict[str, Value]:
    """Return the water that a sub-base on a fall holds: a wedge at its low end, level on top.

    Source: definition, wedge under a level surface

    >>> found = storage_under_slope(300.0, 6000.0, 40.0, 30.0)
    >>> found["litres_per_m"], found["share_percent"]
    (405.0, 75.0)
    """
    _refuse_sizes(void_percent, thickness_mm, length_mm, one_in)
    rise = length_mm / one_in
    if rise <= thickness_mm:
        section = thickness_mm * length_mm - rise * length_mm / 2.0
    else:
        section = thickness_mm * thickness_mm * one_in / 2.0
    litres = units.mm2_to_m2(section) * void_percent / 100.0 * units.LITRES_PER_M3
    return {
        "litres_per_m": litres,
        "share_percent": 100.0 * section / (thickness_mm * length_mm),
        "counted_mm": section / length_mm,
    }


def _refuse_sizes(void_percent: float, *sizes: float) -> None:
    if min(sizes) <= 0.0 or not 0.0 < void_percent / 100.0 <= 1.0:
        message = "Sizes and infiltration are more than zero; voids are more than zero and at most 100 %."
        raise SumRefusedError(message)


STONE_STORAGE_SUMS: tuple[Sum, ...] = (
    Sum(
        "soakaway-trench",
        "Find the length of a soakaway trench",
        (
            Quantity("width_mm", "mm", "width"),
            Quantity("depth_mm", "mm", "depth below the inlet"),
            *STORMS,
        ),
        (
            Quantity("length_mm", "mm", "length wanted"),
            Quantity("lengths_mm", "mm", "length wanted by each storm", kind="numbers"),
            SIDES,
            *BALANCE,
        ),
        "l = (A·R − f·D·w·d) / (v·w·d + f·D·d)",
        "bre_digest_365",
        soakaway_trench,
    ),
    Sum(
        "ring-in-dig",
        "Find whether a ring in a dig filled with stone holds its storms",
        (
            Quantity("diameter_mm", "mm", "inside diameter of the ring"),
            Quantity("depth_mm", "mm", "depth below the inlet"),
            Quantity("dig_mm", "mm", "side of the square dig; 0 where it goes by the diameter", default=0.0),
            Quantity("dig_times", "", "side of the dig over the diameter", default=2.0, figure="water.ring_dig_times"),
            *STORMS,
        ),
        (
            Quantity("dig_side_mm", "mm", "side of the dig"),
            SIDES,
            Quantity("ring_m3", "m3", "storage inside the ring"),
            *BALANCE,
        ),
        "S = A·R − a·f·D; storage = ring + void · (dig − ring)",
        "bre_digest_365; bs_8301_note; common practice",
        ring_in_dig,
    ),
    Sum(
        "permeable-storage",
        "Find the depth of stone under permeable paving that holds its storms",
        (
            Quantity("ratio", "", "other paving that drains on to it, over its own area", default=0.0),
            VOID,
            Quantity("infiltration_m_per_s", "m/s", "infiltration rate of the formation, slowest of its tests"),
            DURATIONS,
            RAIN,
            IN_TIME,
        ),
        (
            Quantity("depths_mm", "mm", "stone wanted by each storm", kind="numbers"),
            Quantity("depth_mm", "mm", "stone wanted by the worst"),
            GOVERNING,
            HALF_EMPTY,
            Quantity(
                "verdict", "", ", ".join(each for each in PitVerdict if each is not PitVerdict.TOO_SMALL), kind="word"
            ),
        ),
        "depth = (rain · (1 + R) − f·t) / void",
        "icpi_permeable",
        permeable_storage,
    ),
    Sum(
        "storage-under-slope",
        "Find the water that a sub-base on a fall holds",
        (
            Quantity("thickness_mm", "mm", "thickness of the open stone"),
            Quantity("length_mm", "mm", "length along the fall, between walls or barriers"),
            Quantity("one_in", "", "n of 1 in n of the formation"),
            VOID,
        ),
        (
            Quantity("litres_per_m", "l", "water for each metre across the fall"),
            Quantity("share_percent", "%", "part of the stone that counts"),
            Quantity("counted_mm", "mm", "thickness that counts over the whole length"),
        ),
        "t·L − s·L² / 2, past the end of the wedge t² / 2s",
        "definition",
        storage_under_slope,
    ),
)
