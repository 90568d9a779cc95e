"""Starts told by days: a choice is 1 from the day on which a stretch begins, so that rows hold few entries."""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

Row = tuple[dict[int, float], float, float]
"""What each choice counts, and the least and the most of their sum."""


class StepsUp:
    """Choices of one start each, as choices whether a stretch has begun by then.

    A start is what has begun by its day less what had begun by the day before. The two are the same programme; a wait
    is a row of two entries in the one and of all earlier starts in the other.

    Source: definition, change of variables
    """

    def __init__(self, groups: Iterable[Sequence[int]]) -> None:
        """Take the choices of each stretch in order of their days."""
        self._before: dict[int, int | None] = {}
        self.last: set[int] = set()
        for columns in groups:
            for place, column in enumerate(columns):
                self._before[column] = columns[place - 1] if place else None
            self.last.add(columns[-1])

    def turned(self, row: Mapping[int, float]) -> tuple[dict[int, float], float]:
        """Return a sum of starts as a sum of what has begun, and what is always counted in it.

        Args:
            row: What each start counts, by its choice. [-]

        Source: definition, change of variables
        """
        found: dict[int, float] = {}
        always = 0.0
        for column, value in row.items():
            if column in self.last:
                always += value  # by the last day it has begun
            else:
                found[column] = found.get(column, 0.0) + value
            before = self._before.get(column)
            if before is not None:
                found[before] = found.get(before, 0.0) - value
        return {column: value for column, value in found.items() if value}, always

    def turned_rows(self, rows: Iterable[Row]) -> list[Row]:
        """Return rows over what has begun, with those by which it stays begun."""
        found = []
        for row, lower, upper in rows:
            entries, always = self.turned(row)
            if entries or not lower <= always <= upper:
                found.append((entries, lower - always, upper - always))
        for column, before in self._before.items():
            if before is not None and column not in self.last:
                found.append(({before: 1.0, column: -1.0}, -highspy.kHighsInf, 0.0))
        return found
