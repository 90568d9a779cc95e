"""Rain: how deep and how hard, for a return period and a duration."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water.rain._storm_factors import StormTables, storm_tables
    from pavewright.water.rain._storms import storms
    from pavewright.water.rain._sums_rain import RAIN_SUMS
    from pavewright.water.rain._sums_storms import STORM_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "RAIN_SUMS",
    "STORM_SUMS",
    "StormTables",
    "storm_tables",
    "storms",
]
