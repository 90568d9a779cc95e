"""The sum of spares."""

from __future__ import annotations

from pavewright.quantities._spares import MAX_SPARES, spares_for
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_MAX_UNITS = 50_000.0
"""More units than any job here has."""
_MAX_BREAKAGE_PERCENT = 50.0
_MIN_SHORT_PERCENT = 1e-4
"""A smaller chance than this drowns in rounding. [%]"""


def spares(units_needed: float, breakage_percent: float, max_short_percent: float) -> dict[str, Value]:
    """Return the fewest spares with which the chance of running short is no more than one will take.

    Source: binomial_table
    """
    if units_needed != int(units_needed) or not 1.0 <= units_needed <= _MAX_UNITS:
        message = f"Give a whole number of units, from 1 to {_MAX_UNITS:.0f}."
        raise SumRefusedError(message)
    if not 0.0 <= breakage_percent <= _MAX_BREAKAGE_PERCENT:
        message = f"The chance that a unit breaks lies between zero and {_MAX_BREAKAGE_PERCENT:g} per cent."
        raise SumRefusedError(message)
    if not _MIN_SHORT_PERCENT <= max_short_percent < 100.0:  # noqa: PLR2004 - per cent
        message = f"The chance of running short that you take is at least {_MIN_SHORT_PERCENT:g} per cent, under 100."
        raise SumRefusedError(message)
    found = spares_for(int(units_needed), breakage_percent, max_short_percent)
    assert found.spares < MAX_SPARES  # noqa: S101 - 50 000 units of which half break take fewer
    return {
        "spares": float(found.spares),
        "to_order": units_needed + found.spares,
        "spare_percent": 100.0 * found.spares / units_needed,
        "short_percent": found.short_percent,
        "short_one_less_percent": found.short_one_less_percent,
    }


SPARES = Sum(
    "spares",
    "Find how many spares keep a job from running short when units break",
    (
        Quantity("units_needed", "", "units that the laying plan needs, sawn ones too"),
        Quantity("breakage_percent", "%", "chance that one unit breaks, from the lorry to the bed"),
        Quantity(
            "max_short_percent",
            "%",
            "chance of running short that you take",
            default=5.0,
            figure="quantities.max_short_percent",
        ),
    ),
    (
        Quantity("spares", "", "spares"),
        Quantity("to_order", "", "units with the spares"),
        Quantity("spare_percent", "%", "spares on the units needed"),
        Quantity("short_percent", "%", "chance of running short with them"),
        Quantity("short_one_less_percent", "%", "chance of running short with one spare less"),
    ),
    "fewest s for which P(more than s of n + s break) ≤ chance taken; binomial, summed exactly",
    "binomial_table, cumulative binomial distribution",
    spares,
)
