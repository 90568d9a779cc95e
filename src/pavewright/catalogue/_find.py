"""One sum by its name: only the module that holds it is loaded."""

from __future__ import annotations

from importlib import import_module

from pavewright import catalogue
from pavewright.catalogue._index import PLACES
from pavewright.sums import Sum, SumRefusedError


def find(name: str) -> Sum:
    """Return the sum with this name.

    Raises:
        SumRefusedError: there is none; names those that exist.
    """
    found = None if name not in PLACES else held_by(PLACES[name]).get(name)
    if found is not None:
        return found
    # not in the index, or moved since it was made: all rooms are asked
    for entry in catalogue.SUMS:
        if entry.name == name:
            return entry
    message = f"There is no sum {name!r}; there are {', '.join(entry.name for entry in catalogue.SUMS)}."
    raise SumRefusedError(message)


def held_by(module: str) -> dict[str, Sum]:
    """Return the sums that a module holds, by name, alone or in rows."""
    values = vars(import_module(module)).values()
    rows = (value if isinstance(value, tuple) else (value,) for value in values)
    return {entry.name: entry for row in rows for entry in row if isinstance(entry, Sum)}
