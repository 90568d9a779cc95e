"""Figures on a drawing: without a unit where they are metric, with theirs where they are not."""

from __future__ import annotations

from pavewright import units
from pavewright.writing._beside import beside
from pavewright.writing._lengths import feet, feet_decimal
from pavewright.writing._manner import now


def level_mark(level_mm: float) -> str:
    """Return a level on a drawing: metres, or feet and hundredths with their unit.

    >>> level_mark(9868.0)
    '9.868'
    """
    return f"{feet_decimal(level_mm)} ft" if now().imperial else units.metres_text(level_mm)


def size_mark(size_mm: float) -> str:
    """Return a size on a drawing: whole millimetres, or feet and inches with their unit.

    >>> size_mark(168.2)
    '168'
    """
    return feet(size_mm) if now().imperial else f"{size_mm:.0f}"


def thick(thickness_mm: float) -> str:
    """Return the thickness of a layer on a drawing.

    >>> thick(40.0)
    '40'
    """
    return feet(thickness_mm) if now().imperial else f"{thickness_mm:g}"


def beside_now(text: str) -> str:
    """Return a text on a drawing, imperial measures beside where they are usual."""
    return beside(text) if now().imperial else text
