"""Sums of the programme."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.programme._sums_programme import SUMS as NETWORK_SUMS
from pavewright.programme._sums_weather import SUMS as WEATHER_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*NETWORK_SUMS, *WEATHER_SUMS)
"""All sums of this room."""
