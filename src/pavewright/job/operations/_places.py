"""Places of a document while it is changed: found by steps, with its lists ready to be searched."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.job.operations._rows import Rows

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job.operations._rows import Row
    from pavewright.job.operations._values import Step


@dataclass(frozen=True, slots=True)
class Found:
    """A value at a place, with the rows of lists that lead there.

    Attributes:
        value: The value.
        trail: The lists on the way and their rows, the outermost first.
    """

    value: Any
    trail: tuple[tuple[Rows, Row], ...]


class Places:
    """A document whose lists are searched while it is changed."""

    def __init__(self, document: dict[str, Any]) -> None:
        """Take a document that may be changed."""
        self.document = document
        self._rows: dict[int, Rows] = {}

    def owner(self, at: Sequence[Step], *, make: bool = False) -> Found | None:
        """Return the object at a place, made where nothing but fields leads there; None where there is none."""
        found = self._found(at, make=make)
        return found if found is not None and isinstance(found.value, dict) else None

    def rows(self, at: Sequence[Step]) -> Rows | None:
        """Return the list at a place; None where there is none."""
        found = self._found(at, make=False)
        return None if found is None else self.rows_of(str(at[-1]), found.value)

    def rows_of(self, name: str, value: Any) -> Rows | None:  # noqa: ANN401 - any JSON value
        """Return a list by the name of its field, ready to be searched; None for any other value."""
        if not isinstance(value, list):
            return None
        if id(value) not in self._rows:
            self._rows[id(value)] = Rows(name, value)
        return self._rows[id(value)]

    def _found(self, at: Sequence[Step], *, make: bool) -> Found | None:
        here: Any = self.document
        trail: list[tuple[Rows, Row]] = []
        for number, step in enumerate(at):
            if isinstance(step, str):
                if not isinstance(here, dict):
                    return None
                if here.get(step) is None:
                    if not make or not all(isinstance(each, str) for each in at[number:]):
                        return None
                    here[step] = {}
                here = here[step]
            else:
                rows = self.rows_of(str(at[number - 1]), here)
                row = None if rows is None else rows.find(step)
                if rows is None or row is None:
                    return None
                trail.append((rows, row))
                here = row.item
        return Found(here, tuple(trail))

    def known_anew(self, trail: Sequence[tuple[Rows, Row]]) -> None:
        """Find rows by what they hold after something within them was changed."""
        for rows, row in reversed(trail):
            rows.known_anew(row)

    def settled(self, value: Any) -> Any:  # noqa: ANN401 - any JSON value
        """Return a value with everything that was done to its lists in it."""
        if isinstance(value, dict):
            for each in value.values():
                self.settled(each)
        elif isinstance(value, list):
            rows = self._rows.get(id(value))
            if rows is not None:
                rows.settle()
            for each in value:
                self.settled(each)
        return value

    def settle(self) -> None:
        """Bring everything that was done to lists into the document."""
        for rows in self._rows.values():
            rows.settle()
