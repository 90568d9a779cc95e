"""All sums of the water in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.water._sums_pipes import PIPE_SUMS
from pavewright.water._sums_rain import RAIN_SUMS
from pavewright.water._sums_soakaways import SOAKAWAY_SUMS
from pavewright.water._sums_water import RUNOFF_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*RUNOFF_SUMS, *RAIN_SUMS, *PIPE_SUMS, *SOAKAWAY_SUMS)
