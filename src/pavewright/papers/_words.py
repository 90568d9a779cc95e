"""How numbers, money, dates and sources are written on paper: the place where they are rounded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units, writing
from pavewright.rules import Status

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.rules import Figure
    from pavewright.sums import Working


def without_dig(plan: Plan) -> str:
    """Return that days and dates hold no digging, where nobody levelled the ground; empty where they do."""
    return "" if plan.earthworks.areas else ", digging left out: it was not measured"


def whole(value: float) -> str:
    """Return a number without decimals.

    Args:
        value: The number, in the unit of the words beside it. [any unit]

    >>> whole(1234.6).replace(chr(0x202F), " ")
    '1 235'
    """
    return writing.number_text(value)


def one(value: float) -> str:
    """Return a number with one decimal.

    Args:
        value: The number, in the unit of the words beside it. [any unit]
    """
    return writing.number_text(value, 1)


def two(value: float) -> str:
    """Return a number with two decimals.

    Args:
        value: The number, in the unit of the words beside it. [any unit]
    """
    return writing.number_text(value, 2)


def three(value: float) -> str:
    """Return a number with three decimals.

    Args:
        value: The number, in the unit of the words beside it. [any unit]
    """
    return units.grouped(value, 3)


def amount(value: float) -> str:
    """Return a number with as many decimals as help: none for whole ones.

    Args:
        value: The number, in the unit of the words beside it. [any unit]

    >>> amount(3.0), amount(3.14159), amount(314.159), amount(0.000069)
    ('3', '3.14', '314', '6.90e-05')
    """
    return writing.amount_text(value)


def counted(value: float, unit: str) -> str:
    """Return how much of a unit there is; of one the unit that counts it stands alone.

    Args:
        value: How much. [in ``unit``]
        unit: The unit, as it is written for several.

    >>> counted(1.0, "days"), counted(2.5, "days")
    ('1 day', '2.50 days')
    """
    return writing.counted_text(value, unit)


def level(value_mm: float) -> str:
    """Return a level in metres."""
    return units.metres_text(value_mm)


def money(amount_minor: int, currency: str) -> str:
    """Return money."""
    return units.minor_to_text(amount_minor, currency)


def day(date: dt.date) -> str:
    """Return a date.

    >>> import datetime as dt
    >>> day(dt.date(2027, 5, 10))
    'Mon 10 May 2027'
    """
    return writing.day_text(date)


def hour(moment: dt.datetime) -> str:
    """Return a date with its time of day."""
    return writing.hour_text(moment)


def source(figure: Figure, figures: PaperFigures) -> str:
    """Return where a figure is from and how far to trust it."""
    title = figures.sources[figure.source].title if figure.source in figures.sources else figure.source
    where = f"{title}, {figure.place}" if figure.place else title
    if figure.is_practice_alone:
        where = figure.place
    if figure.status is Status.PRACTICE:
        return f"{figure.status.words} ({where})" if figure.place else figure.status.words
    return where if figure.status is Status.READ else f"{where} – {figure.status.words}"


def sum_behind(working: Working, figures: PaperFigures) -> str:
    """Return a working in one line: the sum, what comes out, and the sources that went in."""
    behind = "; ".join(f"{figure.label}: {source(figure, figures)}" for figure in _once(working.figures))
    tail = f". {working.note}" if working.note else ""
    reported = f" [{behind}]" if behind else ""
    if working.unit == _COINS:
        result = f" → {money(round(working.result), writing.now().currency)}"
    else:
        result = "" if working.unit == _NO_UNIT else f" → {amount(working.result)} {working.unit}"
    return f"{working.expression}{result}{tail}{reported}"


def _once(figures: Iterable[Figure]) -> list[Figure]:
    return list({figure.key: figure for figure in figures}.values())


def with_unit(figure: Figure) -> str:
    """Return a figure with its unit; a pure number without one."""
    return f"{figure.value:g}" if figure.unit == _NO_UNIT else f"{figure.value:g} {figure.unit}"


_NO_UNIT = "-"
"""Unit of a pure number."""
_COINS = "minor units"
"""Unit of money in its smallest coin."""
