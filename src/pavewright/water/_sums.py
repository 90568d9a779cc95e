"""All sums of the water in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.water.drains import CHANNEL_SUMS, FILM_SUMS, INLET_SUMS, PART_FULL_SUMS, PIPE_SUMS
from pavewright.water.ground import INFILTRATION_SUMS, RAIN_GARDEN_SUMS, SOAKAWAY_SUMS, STONE_STORAGE_SUMS
from pavewright.water.rain import RAIN_SUMS, STORM_SUMS
from pavewright.water.runoff import RUNOFF_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (
    *RUNOFF_SUMS,
    *INFILTRATION_SUMS,
    *RAIN_SUMS,
    *STORM_SUMS,
    *FILM_SUMS,
    *PIPE_SUMS,
    *PART_FULL_SUMS,
    *CHANNEL_SUMS,
    *INLET_SUMS,
    *SOAKAWAY_SUMS,
    *STONE_STORAGE_SUMS,
    *RAIN_GARDEN_SUMS,
)
