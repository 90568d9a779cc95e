"""Every sum of this room, in the order in which it lists them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.laying._sums_laying import SUMS as LAYING_SUMS
from pavewright.laying.mixed import SUMS as MIXED_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*LAYING_SUMS, *MIXED_SUMS)
