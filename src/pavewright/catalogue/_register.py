"""All sums by name."""

from __future__ import annotations

from pavewright import (
    as_laid,
    buildup,
    cost,
    earthworks,
    flow,
    laying,
    levels,
    programme,
    quantities,
    setting_out,
    survey,
    water,
)
from pavewright.sums import Sum, SumRefusedError

_ROOMS = (
    survey.SUMS,
    flow.SUMS,
    levels.SUMS,
    laying.SUMS,
    buildup.SUMS,
    earthworks.SUMS,
    water.SUMS,
    quantities.SUMS,
    cost.SUMS,
    programme.SUMS,
    setting_out.SUMS,
    as_laid.SUMS,
)

SUMS: tuple[Sum, ...] = tuple(sorted((entry for room in _ROOMS for entry in room), key=lambda entry: entry.name))
"""Every registered sum, by name."""


def find(name: str) -> Sum:
    """Return the sum with this name.

    Raises:
        SumRefusedError: there is none; names those that exist.
    """
    for entry in SUMS:
        if entry.name == name:
            return entry
    message = f"There is no sum {name!r}; there are {', '.join(entry.name for entry in SUMS)}."
    raise SumRefusedError(message)
