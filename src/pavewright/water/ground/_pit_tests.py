"""The rate at which the ground takes water, from the test of a trial pit or as entered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.sums import Working
from pavewright.water._types import PitRecord
from pavewright.water.ground._infiltration import pit_fills
from pavewright.water.ground._water_balance import SECONDS_PER_MINUTE

if TYPE_CHECKING:
    from pavewright.job import Soakaway


def rate_of(pit: Soakaway) -> tuple[float, PitRecord | None]:
    """Return the rate at which the ground takes water, and the record of the test if there is one. [m/s]."""
    test = pit.pit_test
    if test is None:
        return pit.infiltration_m_per_s or 0.0, None
    times_s = tuple(each * SECONDS_PER_MINUTE for each in test.times_min)
    found = pit_fills(test.length_mm, test.width_mm, test.depth_mm, times_s)
    size = f"{test.length_mm:g} × {test.width_mm:g} mm, {test.depth_mm:g} mm of water"
    working = Working(
        f"f = {found.volume_m3:.4f} m³ / ({found.wetted_m2:.3f} m² × {max(test.times_min):g} min)",
        found.slowest_m_per_s,
        "m/s",
        (),
        "water of the middle half over sides to half depth and base; slowest fill",
    )
    return found.slowest_m_per_s, PitRecord(size, test.date, test.times_min, found.rates_m_per_s, working)
