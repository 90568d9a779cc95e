"""Rain: how deep and how hard, for a return period and a duration."""

from pavewright.water.rain._storms import storms
from pavewright.water.rain._sums_rain import RAIN_SUMS
from pavewright.water.rain._sums_storms import STORM_SUMS

__all__ = [
    "RAIN_SUMS",
    "STORM_SUMS",
    "storms",
]
