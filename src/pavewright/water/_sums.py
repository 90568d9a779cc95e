"""All sums of the water in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.water._sums_channels import CHANNEL_SUMS
from pavewright.water._sums_infiltration import INFILTRATION_SUMS
from pavewright.water._sums_inlets import INLET_SUMS
from pavewright.water._sums_part_full import PART_FULL_SUMS
from pavewright.water._sums_pipes import PIPE_SUMS
from pavewright.water._sums_rain import RAIN_SUMS
from pavewright.water._sums_rain_garden import RAIN_GARDEN_SUMS
from pavewright.water._sums_soakaways import SOAKAWAY_SUMS
from pavewright.water._sums_stone_storage import STONE_STORAGE_SUMS
from pavewright.water._sums_storms import STORM_SUMS
from pavewright.water._sums_water import RUNOFF_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (
    *RUNOFF_SUMS,
    *INFILTRATION_SUMS,
    *RAIN_SUMS,
    *STORM_SUMS,
    *PIPE_SUMS,
    *PART_FULL_SUMS,
    *CHANNEL_SUMS,
    *INLET_SUMS,
    *SOAKAWAY_SUMS,
    *STONE_STORAGE_SUMS,
    *RAIN_GARDEN_SUMS,
)
