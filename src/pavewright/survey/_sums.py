"""All sums of the survey in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey._sums_levels import LEVEL_SUMS
from pavewright.survey._sums_network import NETWORK_SUMS
from pavewright.survey._sums_plan import PLAN_SUMS
from pavewright.survey._sums_setting_out import SETTING_OUT_SUMS
from pavewright.survey._sums_slips import SLIP_SUMS
from pavewright.survey._sums_surface import SURFACE_SUMS
from pavewright.survey._sums_two_peg import TWO_PEG_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (
    *LEVEL_SUMS,
    *TWO_PEG_SUMS,
    *PLAN_SUMS,
    *SURFACE_SUMS,
    *SETTING_OUT_SUMS,
    *NETWORK_SUMS,
    *SLIP_SUMS,
)
