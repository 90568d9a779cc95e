"""Sums of the method."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.method._sums_method import SUMS as METHOD_SUMS
from pavewright.method._sums_vibration import SUMS as VIBRATION_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*METHOD_SUMS, *VIBRATION_SUMS)
"""All sums of this room."""
