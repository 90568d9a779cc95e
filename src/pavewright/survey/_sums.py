"""All sums of the survey in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey.edges import SETTING_OUT_SUMS
from pavewright.survey.ground import SURFACE_SUMS
from pavewright.survey.levelling import LEVEL_SUMS, TWO_PEG_SUMS
from pavewright.survey.networks import NETWORK_SUMS, SLIP_SUMS
from pavewright.survey.tapes import PLAN_SUMS

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
