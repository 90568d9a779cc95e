"""Sums of water."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.runoff._caught import flow_l_s

_HALF = 0.5
"""From three quarters to one quarter full half of the water goes. [-]"""


def paved_area_runoff(areas_m2: tuple[float, ...], rain_mm_per_h: float, runoff: tuple[float, ...]) -> dict[str, Value]:
    """Return the peak flow off areas with their runoff factors.

    Source: definition, rational method
    """
    factors = runoff * len(areas_m2) if len(runoff) == 1 else runoff
    if len(factors) != len(areas_m2) or not areas_m2:
        message = "Give one runoff factor, or as many as there are areas."
        raise SumRefusedError(message)
    if min(areas_m2) < 0.0 or rain_mm_per_h < 0.0 or not all(0.0 <= each <= 1.0 for each in factors):
        message = "Areas and rain are not less than nothing; a runoff factor lies between nothing and one."
        raise SumRefusedError(message)
    return {
        "flow_l_s": sum(flow_l_s(area, rain_mm_per_h, each) for area, each in zip(areas_m2, factors, strict=True)),
        "l_s_per_m2": flow_l_s(1.0, rain_mm_per_h, 1.0),
    }


def percolation(seconds: float, drop_mm: float) -> dict[str, Value]:
    """Return the percolation value and what it says of the ground, sides and base of a 300 mm hole counted.

    Source: definition, water of the middle half of the hole through its wetted sides and base
    """
    if seconds <= 0.0 or drop_mm <= 0.0:
        message = "Time and drop are more than nothing: time the fall from three quarters to one quarter full again."
        raise SumRefusedError(message)
    per_mm = seconds / drop_mm
    return {
        "s_per_mm": per_mm,
        "infiltration_m_per_s": 1e-3 / (3.0 * per_mm),
        "sides_only_m_per_s": 1e-3 / (2.0 * per_mm),
    }


def trial_pit(length_mm: float, width_mm: float, depth_mm: float, seconds: float) -> dict[str, Value]:
    """Return the infiltration rate from a trial pit, water falling from three quarters to one quarter of its depth.

    Source: definition, f = V / (a·t) with sides to half depth and base
    """
    if min(length_mm, width_mm, depth_mm, seconds) <= 0.0:
        message = "Length, width, depth and time are all more than nothing: measure the pit and time it again."
        raise SumRefusedError(message)
    volume = units.mm3_to_m3(length_mm * width_mm * depth_mm * _HALF)
    wetted = units.mm2_to_m2(length_mm * width_mm + (length_mm + width_mm) * depth_mm)
    return {"volume_m3": volume, "wetted_m2": wetted, "infiltration_m_per_s": volume / (wetted * seconds)}


RUNOFF_SUMS: tuple[Sum, ...] = (
    Sum(
        "paved-area-runoff",
        "Find the peak flow off paved areas",
        (
            Quantity("areas_m2", "m2", "areas in plan", kind="numbers"),
            Quantity("rain_mm_per_h", "mm/h", "intensity of the rain", default=50.4),
            Quantity("runoff", "", "part that runs off, one or one for each area", kind="numbers", default=(1.0,)),
        ),
        (
            Quantity("flow_l_s", "l/s", "peak flow"),
            Quantity("l_s_per_m2", "l/s", "flow off one square metre if all runs off"),
        ),
        "flow = Σ area · rain · runoff / 3600",
        "definition; labc_paved_areas for the rain where none is given",
        paved_area_runoff,
    ),
    Sum(
        "percolation",
        "Find the percolation value from a timed hole",
        (
            Quantity("seconds", "s", "time of the fall"),
            Quantity("drop_mm", "mm", "fall of the water", default=150.0),
        ),
        (
            Quantity("s_per_mm", "s/mm", "percolation value"),
            Quantity("infiltration_m_per_s", "m/s", "rate through sides and base of a 300 mm hole"),
            Quantity("sides_only_m_per_s", "m/s", "rate if only the sides are counted"),
        ),
        "Vp = time / drop; f = 0.001 / (3·Vp)",
        "definition",
        percolation,
    ),
    Sum(
        "trial-pit",
        "Find the infiltration rate from a trial pit",
        (
            Quantity("length_mm", "mm", "length in plan"),
            Quantity("width_mm", "mm", "width in plan"),
            Quantity("depth_mm", "mm", "depth of water when full"),
            Quantity("seconds", "s", "time from three quarters to one quarter full"),
        ),
        (
            Quantity("volume_m3", "m3", "water that went in that time"),
            Quantity("wetted_m2", "m2", "sides to half depth, and base"),
            Quantity("infiltration_m_per_s", "m/s", "infiltration rate"),
        ),
        "f = V / (a · t)",
        "definition",
        trial_pit,
    ),
)
