"""The rate at which the ground takes water, from the test of a trial pit or as entered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.sums import Working
from pavewright.water._types import PitRecord
from pavewright.water.ground._sums_infiltration import trial_pit_fills

if TYPE_CHECKING:
    from pavewright.job import Soakaway


def rate_of(pit: Soakaway) -> tuple[float, PitRecord | None]:
    """Return the rate at which the ground takes water, and the record of the test if there is one. [m/s]."""
    test = pit.pit_test
    if test is None:
        return pit.infiltration_m_per_s or 0.0, None
    answers = trial_pit_fills(test.length_mm, test.width_mm, test.depth_mm, test.times_min)
    rates = answers["rates_m_per_s"]
    each = tuple(float(rate) for rate in rates) if isinstance(rates, tuple) else ()
    size = f"{test.length_mm:g} × {test.width_mm:g} mm, {test.depth_mm:g} mm of water"
    working = Working(
        f"f = {_number(answers['volume_m3']):.4f} m³ / ({_number(answers['wetted_m2']):.3f} m² × "
        f"{max(test.times_min):g} min)",
        min(each),
        "m/s",
        (),
        "water of the middle half over sides to half depth and base; slowest fill",
    )
    return min(each), PitRecord(size, test.date, test.times_min, each, working)


def _number(value: object) -> float:
    return float(value) if isinstance(value, int | float) else 0.0
