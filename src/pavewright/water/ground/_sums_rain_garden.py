"""Sum of a rain garden: a planted hollow that takes the water of paving beside it."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.ground._sized_pit import verdict_on
from pavewright.water.ground._storage_answers import MEANWHILE
from pavewright.water.ground._water_balance import SECONDS_PER_MINUTE, balance


def rain_garden(
    area_m2: float,
    garden_m2: float,
    ponding_mm: float,
    soil_mm: float,
    void_percent: float,
    infiltration_m_per_s: float,
    durations_min: tuple[float, ...],
    rain_mm: tuple[float, ...],
    own_rain: str = "yes",
    soaks_meanwhile: str = "yes",
) -> dict[str, Value]:
    """Return whether a rain garden holds its storms, and the smallest area that would.

    Rain falls on the paving and, unless it is left out, on the garden itself. Water stands in the hollow and in the
    voids of the soil under it, and soaks away through the base alone, during the storm unless that is left out.

    Source: icpi_permeable, the same balance with ponding and soil in place of stone

    >>> found = rain_garden(20.0, 6.0, 150.0, 300.0, 20.0, 5e-6, (60.0, 360.0), (25.0, 40.0))
    >>> round(found["min_garden_m2"], 2), found["verdict"]
    (2.88, 'enough for these storms only')
    """
    if min(area_m2, garden_m2, infiltration_m_per_s) <= 0.0 or min(ponding_mm, soil_mm) < 0.0:
        message = "Areas and infiltration are more than zero; ponding and soil are not less than zero."
        raise SumRefusedError(message)
    if not 0.0 <= void_percent / 100.0 <= 1.0:
        message = "Voids of the soil lie between 0 and 100 %."
        raise SumRefusedError(message)
    holds_mm = ponding_mm + soil_mm * void_percent / 100.0
    own, soaks = float(own_rain == "yes"), float(soaks_meanwhile == "yes")
    found = balance(
        area_m2 + own * garden_m2,
        garden_m2,
        infiltration_m_per_s,
        durations_min,
        rain_mm,
        soaks_meanwhile=soaks_meanwhile == "yes",
    )
    available = garden_m2 * units.mm_to_m(holds_mm)
    least = 0.0
    for minutes, depth in zip(durations_min, rain_mm, strict=True):
        soaked_mm = soaks * units.m_to_mm(infiltration_m_per_s * minutes * SECONDS_PER_MINUTE)
        spare_mm = holds_mm + soaked_mm - own * depth
        if spare_mm <= 0.0:
            message = (
                f"The {minutes:g} min storm alone brings {depth:g} mm, more than this garden holds and soaks away of "
                f"its own rain: make it deeper."
            )
            raise SumRefusedError(message)
        least = max(least, area_m2 * depth / spare_mm)
    return {
        "holds_mm": holds_mm,
        "storage_m3": found.storage_m3,
        "required_m3": found.required_m3,
        "governing_min": found.governing_min,
        "available_m3": available,
        "min_garden_m2": least,
        "ponding_gone_h": units.mm_to_m(ponding_mm) / infiltration_m_per_s / units.SECONDS_PER_HOUR,
        "verdict": verdict_on(found, durations_min, available, None).value,
    }


RAIN_GARDEN_SUMS: tuple[Sum, ...] = (
    Sum(
        "rain-garden",
        "Find whether a rain garden holds the storms off paving beside it",
        (
            Quantity("area_m2", "m2", "paving that drains to it"),
            Quantity("garden_m2", "m2", "its floor"),
            Quantity("ponding_mm", "mm", "water that may stand on it"),
            Quantity("soil_mm", "mm", "planting soil over the ground", default=0.0),
            Quantity("void_percent", "%", "voids of the soil that fill", default=20.0),
            Quantity("infiltration_m_per_s", "m/s", "infiltration rate of the ground under it, slowest of its tests"),
            Quantity("durations_min", "min", "durations of the storms", kind="numbers"),
            Quantity("rain_mm", "mm", "depth of rain of each", kind="numbers"),
            Quantity(
                "own_rain",
                "",
                "whether rain on the garden itself counts",
                kind="word",
                default="yes",
                choices=("yes", "no"),
            ),
            MEANWHILE,
        ),
        (
            Quantity("holds_mm", "mm", "depth of water that it holds"),
            Quantity("storage_m3", "m3", "storage wanted by each storm", kind="numbers"),
            Quantity("required_m3", "m3", "storage wanted by the worst"),
            Quantity("governing_min", "min", "duration of the worst"),
            Quantity("available_m3", "m3", "storage there is"),
            Quantity("min_garden_m2", "m2", "smallest floor that holds all storms"),
            Quantity("ponding_gone_h", "h", "time in which a full hollow soaks away"),
            Quantity("verdict", "", "enough, enough for these storms only, or too small", kind="word"),
        ),
        "G = A·R / (ponding + soil · void + f·D − R), worst of all durations",
        "icpi_permeable",
        rain_garden,
    ),
)
