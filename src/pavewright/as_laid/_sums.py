"""All sums of this room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import _sums_as_laid
from pavewright.as_laid.standing import _sums_standing

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*_sums_as_laid.SUMS, *_sums_standing.SUMS)
"""Sums of this room and of the rooms in it."""
