"""All sums of measuring by photo and by a turned level in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.photo_survey._sums_photo import PHOTO_SUMS
from pavewright.photo_survey._sums_slope import SLOPE_SUMS

if TYPE_CHECKING:
    from pavewright.sums import Sum

SUMS: tuple[Sum, ...] = (*PHOTO_SUMS, *SLOPE_SUMS)
