"""How much of something there is, in words: the number with as many decimals as help, the unit as one or as several."""

from __future__ import annotations

from pavewright.writing._written import number_text

_ONE = {"days": "day", "weeks": "week", "loads": "load", "deliveries": "delivery", "units": "unit", "packs": "pack"}
"""What one of a unit is called that is written as several."""


def amount_text(value: float) -> str:
    """Return a number with as many decimals as help: none for whole ones.

    Args:
        value: The number, in the unit of the words beside it. [any unit]

    >>> amount_text(3.0), amount_text(3.14159), amount_text(314.159), amount_text(0.000069)
    ('3', '3.14', '314', '6.90e-05')
    """
    if 0.0 < abs(value) < 5e-4:  # noqa: PLR2004 - so small that decimals would show nothing
        return f"{value:.2e}"
    if abs(value - round(value)) < 5e-4:  # noqa: PLR2004 - a whole number but for rounding
        return number_text(value)
    if abs(value) < 10.0:  # noqa: PLR2004 - small enough for decimals to matter
        return number_text(value, 2)
    return number_text(value, 1) if abs(value) < 100.0 else number_text(value)  # noqa: PLR2004


def counted_text(value: float, several: str, one: str = "") -> str:
    """Return how much of a unit there is; of one the unit that counts it stands alone.

    Args:
        value: How much. [in the unit]
        several: The unit, as it is written for several.
        one: As it is written for one; the usual word where none is given.

    >>> counted_text(1.0, "days"), counted_text(2.5, "days"), counted_text(1.0, "kg")
    ('1 day', '2.50 days', '1 kg')
    >>> counted_text(1.0, "boxes", "box"), counted_text(0.0, "boxes", "box")
    ('1 box', '0 boxes')
    """
    return f"{amount_text(value)} {(one or _ONE.get(several, several)) if value == 1.0 else several}"
