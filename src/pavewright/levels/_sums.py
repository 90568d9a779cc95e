"""Every sum of this room, in the order in which it lists them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.levels._sums_laying_levels import SUMS as LAYING_SUMS
from pavewright.levels._sums_levels import SUMS as LEVEL_SUMS
from pavewright.levels.cars import SUMS as CAR_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*LEVEL_SUMS, *LAYING_SUMS, *CAR_SUMS)
