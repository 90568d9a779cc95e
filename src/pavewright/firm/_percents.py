"""Mark-up and margin: one part of the cost, the other of the price; two percentages one on the other are no sum."""

from __future__ import annotations

from pavewright import units


def margin_of_markup(markup_percent: float) -> float:
    """Return the margin, a part of the price, that a mark-up on the cost leaves. [%].

    Args:
        markup_percent: Mark-up, a part of the cost. [%]

    Valid for: a mark-up not less than zero.
    Source: definition, margin = mark-up / (1 + mark-up)

    >>> margin_of_markup(25.0)
    20.0
    """
    return markup_percent / (units.ALL_PERCENT + markup_percent) * units.ALL_PERCENT


def markup_of_margin(margin_percent: float) -> float:
    """Return the mark-up, a part of the cost, that a margin needs. [%].

    Args:
        margin_percent: Margin, a part of the price. [%]

    Valid for: a margin under 100 %.
    Source: definition, mark-up = margin / (1 − margin)

    >>> markup_of_margin(20.0)
    25.0
    """
    return margin_percent / (units.ALL_PERCENT - margin_percent) * units.ALL_PERCENT


def stacked(first_percent: float, second_percent: float) -> float:
    """Return what two percentages come to where the second goes on the cost with the first on it. [%].

    Args:
        first_percent: What goes on the cost first. [%]
        second_percent: What goes on the cost with the first on it. [%]

    Source: definition, (1 + first)(1 + second) − 1

    >>> round(stacked(12.0, 10.0), 6)
    23.2
    """
    return (
        (1.0 + first_percent / units.ALL_PERCENT) * (1.0 + second_percent / units.ALL_PERCENT) - 1.0
    ) * units.ALL_PERCENT
