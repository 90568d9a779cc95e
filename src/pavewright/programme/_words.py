"""The sentences of the findings on the programme, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option


def cold_season(min_temperature_c: float) -> tuple[str, tuple[Option, ...]]:
    """Say that mortar and concrete fall in the cold months. [°C]."""
    words = (
        f"Mortar and concrete fall in the cold months. Nothing is mixed below {min_temperature_c:g} °C, and fresh work "
        f"is covered against frost for a day."
    )
    return words, worded(("Watch the forecast and add days.", "Move the start."))
