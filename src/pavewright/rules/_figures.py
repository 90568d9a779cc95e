"""A figure and a table."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

COMMON_PRACTICE = "common_practice"
"""Key of what is no source of its own, but what the trade does."""


class Status(StrEnum):
    """How a figure is known."""

    READ = "S"
    WORKED_OUT = "D"
    MEMORY = "M"
    PRACTICE = "C"
    OWN = "own"

    @property
    def words(self) -> str:
        """Say the status to a user."""
        return _WORDS[self]


_WORDS = {
    Status.READ: "read in the source",
    Status.WORKED_OUT: "worked out from what the source prints",
    Status.MEMORY: "from memory, not verified: check before relying on it",
    Status.PRACTICE: "common practice",
    Status.OWN: "of the firm's own jobs",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of the trade.

    Attributes:
        key: ``room.name``; the unit is the end of the name.
        value: The number. [in ``unit``]
        unit: Its unit as printed.
        source: Key of the source.
        place: Clause, table or page in the source.
        status: How it is known.
        label: A few words for a person.
        low: Lower end where sources disagree, same unit. [in ``unit``]
        high: Upper end where sources disagree, same unit. [in ``unit``]
    """

    key: str
    value: float
    unit: str
    source: str
    place: str
    status: Status
    label: str
    low: float | None = None
    high: float | None = None

    @property
    def is_practice_alone(self) -> bool:
        """Whether what the trade does is its source and its status: one of them says it."""
        return self.status is Status.PRACTICE and self.source == COMMON_PRACTICE

    @property
    def citation(self) -> str:
        """Say where the figure is from and how far to trust it."""
        source = self.status.words if self.is_practice_alone else self.source
        where = f"{source}, {self.place}" if self.place else source
        return where if self.is_practice_alone or self.status is Status.READ else f"{where} ({self.status.words})"


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of a table: a key, its numbers by column, and its own source where rows differ.

    Attributes:
        key: Its key.
        values: Its numbers, each by its column; the unit is the end of the column's name. [unit of the column]
        source: Key of the source.
        place: Clause, table or page in the source.
        status: How it is known.
        label: A few words for a person.
    """

    key: str
    values: tuple[tuple[str, float], ...]
    source: str
    place: str
    status: Status
    label: str = ""

    def value(self, column: str) -> float:
        """Return the number in a column.

        Raises:
            KeyError: no such column.
        """
        return dict(self.values)[column]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of figures that belong together, such as cement per cubic metre by mix.

    Attributes:
        key: ``room.name``.
        columns: Name and unit of each column.
        rows: The rows in printed order.
        label: A few words for a person.
        numbers: The number that each column stands for, such as a duration; empty where columns stand for none. [by
            the table]
    """

    key: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[TableRow, ...]
    label: str
    numbers: tuple[tuple[str, float], ...] = ()

    def row(self, key: str) -> TableRow:
        """Return the row with this key.

        Raises:
            KeyError: no such row.
        """
        for row in self.rows:
            if row.key == key:
                return row
        raise KeyError(key)

    def figure(self, row_key: str, column: str) -> Figure:
        """Return one cell as a figure that carries its source.

        Raises:
            KeyError: no such row or column.
        """
        row = self.row(row_key)
        return Figure(
            key=f"{self.key}.{row_key}.{column}",
            value=row.value(column),
            unit=dict(self.columns)[column],
            source=row.source,
            place=row.place,
            status=row.status,
            label=row.label or f"{self.label}: {row_key}",
        )
