"""Figures on a drawing: without a unit where they are metric, with theirs where they are not.

Feet are made of the metric figure as it is printed, so that a drawing and a list that shows both say the same.
"""

from __future__ import annotations

from pavewright import units
from pavewright.writing._lengths import feet, feet_decimal
from pavewright.writing._manner import now


def level_mark(level_mm: float | None) -> str:
    """Return a level on a drawing: metres, or feet and hundredths with their unit; or that it was not read.

    >>> level_mark(9868.0), level_mark(None)
    ('9.868', 'not read')
    """
    if level_mm is None:
        return units.level_text(None)
    return f"{feet_decimal(round(level_mm))} ft" if now().imperial else units.metres_text(level_mm)


def length_mark(length_mm: float) -> str:
    """Return a taped length on a drawing: metres, or feet and inches with their unit.

    >>> length_mark(3048.0)
    '3.048'
    """
    return feet(round(length_mm)) if now().imperial else units.metres_text(length_mm)


def size_mark(size_mm: float) -> str:
    """Return a size on a drawing: whole millimetres, or feet and inches with their unit.

    >>> size_mark(168.2)
    '168'
    """
    return feet(round(size_mm)) if now().imperial else f"{size_mm:.0f}"


def off_mark(deviation_mm: float) -> str:
    """Return how far something is off on a drawing, with its sign.

    >>> off_mark(-9.0), off_mark(2.0)
    ('-9', '+2')
    """
    if not now().imperial:
        return units.tenths_text(deviation_mm, sign=True)
    return f"{'+' if deviation_mm > 0.0 else ''}{feet(round(deviation_mm, 1))}"


def thick(thickness_mm: float) -> str:
    """Return the thickness of a layer on a drawing.

    >>> thick(40.0)
    '40'
    """
    return feet(thickness_mm) if now().imperial else f"{thickness_mm:g}"


def level_unit() -> str:
    """Return in which unit levels stand on a drawing.

    >>> level_unit()
    'metres'
    """
    return "feet" if now().imperial else "metres"


def length_unit() -> str:
    """Return in which unit taped lengths stand on a drawing.

    >>> length_unit()
    'metres'
    """
    return "feet and inches" if now().imperial else "metres"


def size_unit() -> str:
    """Return in which unit sizes stand on a drawing.

    >>> size_unit()
    'millimetres'
    """
    return "feet and inches" if now().imperial else "millimetres"
