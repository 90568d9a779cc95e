"""Falls as people type them: 1:60, 1 in 60, 1/80, 2 %, 12 mm/m, or a bare number in the unit of the field."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.typed._typed import LONGEST_TEXT, NONE, NUMBER, Typed
from pavewright.units import MM_PER_M

if TYPE_CHECKING:
    from collections.abc import Iterator


class FallUnit(StrEnum):
    """In what a field takes a fall."""

    ONE_IN = "one_in"
    PERCENT = "percent"
    MM_PER_M = "mm_per_m"


_USUAL_FALL: dict[FallUnit, tuple[float, float]] = {
    FallUnit.ONE_IN: (5.0, 2000.0),
    FallUnit.PERCENT: (0.05, 20.0),
    FallUnit.MM_PER_M: (0.5, 200.0),
}


_RATIO = re.compile(rf"({NUMBER}) ?(?::|/|in|on) ?({NUMBER})")
_PERCENT = re.compile(rf"({NUMBER}) ?(?:%|percent|per cent)")
_PER_METRE = re.compile(rf"({NUMBER}) ?mm ?(?:/|per|in a|a) ?(?:m|metre)")


def fall_typed(text: str, unit: FallUnit) -> Typed:
    """Return what a typed fall means, in the unit of its field.

    Args:
        text: As typed: 1:60, 1 in 60, 1/80, 2 %, 12 mm/m, 60.
        unit: In what the field takes it.

    >>> fall_typed("1:60", FallUnit.PERCENT).value
    1.6666666666666667
    >>> fall_typed("60", FallUnit.PERCENT).choices
    (('60 %', 60.0), ('1 in 60', 1.6666666666666667))
    """
    clean = re.sub(r"\s+", " ", text.strip().lower()).replace(",", ".")
    if len(clean) > LONGEST_TEXT:
        return NONE
    fall = _rise_over_run(clean)
    if fall is not None:
        return Typed(_in_unit(fall, unit))
    bare = re.fullmatch(NUMBER, clean)
    if not bare:
        return NONE
    value, (low, high) = float(clean), _USUAL_FALL[unit]
    if value == 0.0 or low <= value <= high:
        return Typed(value, without_unit=True)
    return Typed(None, tuple(_readings(clean, value, unit)), without_unit=True)


def _rise_over_run(clean: str) -> float | None:
    """Return the fall of a text that says in what it is written."""
    ratio = _RATIO.fullmatch(clean)
    if ratio and float(ratio[1]) > 0.0 and float(ratio[2]) > 0.0:
        return float(ratio[1]) / float(ratio[2])
    percent = _PERCENT.fullmatch(clean)
    if percent:
        return float(percent[1]) / 100.0
    per_metre = _PER_METRE.fullmatch(clean)
    return float(per_metre[1]) / MM_PER_M if per_metre else None


def _in_unit(fall: float, unit: FallUnit) -> float | None:
    """Return a fall in a unit; nothing where a level one has none."""
    if unit is FallUnit.ONE_IN:
        return 1.0 / fall if fall else None
    return fall * (100.0 if unit is FallUnit.PERCENT else MM_PER_M)


def _readings(figures: str, value: float, unit: FallUnit) -> Iterator[tuple[str, float]]:
    """Give what a bare number may mean: its field's own unit, then the other one."""
    words = {FallUnit.ONE_IN: f"1 in {figures}", FallUnit.PERCENT: f"{figures} %", FallUnit.MM_PER_M: f"{figures} mm/m"}
    yield words[unit], value
    other = FallUnit.PERCENT if unit is FallUnit.ONE_IN else FallUnit.ONE_IN
    found = _in_unit(value / 100.0 if other is FallUnit.PERCENT else 1.0 / value, unit)
    low, high = _USUAL_FALL[unit]
    if found is not None and low <= found <= high:
        yield words[other], found
