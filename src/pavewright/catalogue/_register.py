"""All sums by name."""

from __future__ import annotations

from pavewright import survey
from pavewright.sums import Sum, SumRefusedError

SUMS: tuple[Sum, ...] = tuple(sorted(survey.SUMS, key=lambda entry: entry.name))
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
