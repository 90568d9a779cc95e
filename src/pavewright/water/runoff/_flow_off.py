"""What flows off an area in rain."""

from __future__ import annotations

from pavewright import units


def flow_l_s(area_m2: float, rain_mm_per_h: float, runoff: float) -> float:
    """Return the peak flow off an area. [l/s].

    Args:
        area_m2: Area in plan. [m²]
        rain_mm_per_h: Intensity. [mm/h]
        runoff: Part that runs off. [-]

    Valid for: areas so small that the whole of them adds to the peak, a minute or two of fall.
    Source: definition, rational method

    >>> round(flow_l_s(22.68, 75.0, 1.0), 4)
    0.4725
    """
    return area_m2 * rain_mm_per_h * runoff / units.SECONDS_PER_HOUR
