"""Sums of water."""

from __future__ import annotations

from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.runoff._flow_off import flow_l_s


def paved_area_runoff(areas_m2: tuple[float, ...], rain_mm_per_h: float, runoff: tuple[float, ...]) -> dict[str, Value]:
    """Return the peak flow off areas with their runoff factors.

    Source: definition, rational method
    """
    factors = runoff * len(areas_m2) if len(runoff) == 1 else runoff
    if len(factors) != len(areas_m2) or not areas_m2:
        message = "Give one runoff factor, or as many as there are areas."
        raise SumRefusedError(message)
    if min(areas_m2) < 0.0 or rain_mm_per_h < 0.0 or not all(0.0 <= each <= 1.0 for each in factors):
        message = "Areas and rain are not less than zero; a runoff factor lies between zero and one."
        raise SumRefusedError(message)
    return {
        "flow_l_s": sum(flow_l_s(area, rain_mm_per_h, each) for area, each in zip(areas_m2, factors, strict=True)),
        "l_s_per_m2": flow_l_s(1.0, rain_mm_per_h, 1.0),
    }


RUNOFF_SUMS: tuple[Sum, ...] = (
    Sum(
        "paved-area-runoff",
        "Find the peak flow off paved areas",
        (
            Quantity("areas_m2", "m2", "areas in plan", kind="numbers"),
            Quantity("rain_mm_per_h", "mm/h", "intensity of the rain", default=50.4, figure="water.rain_mm_per_h"),
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
)
