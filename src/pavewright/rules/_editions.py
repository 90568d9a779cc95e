"""Two editions compared with each other: which figures that somebody read differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from pavewright.rules._figures import Figure, Table
    from pavewright.rules._rulebook import Rulebook

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class FigureChange:
    """A figure that differs between two editions.

    Attributes:
        before: As the earlier edition has it; None where it has none.
        after: As the later edition has it; None where it has none.
    """

    before: Figure | None
    after: Figure | None


@dataclass(frozen=True, slots=True)
class ReadLog:
    """Keys of the figures and tables that were asked for, those that an edition lacks among them."""

    figures: set[str] = field(default_factory=set)
    tables: set[str] = field(default_factory=set)


class _Watched(Mapping[str, T], Generic[T]):
    """A mapping that writes down what is asked of it."""

    def __init__(self, held: Mapping[str, T], asked: set[str]) -> None:
        self._held, self._asked = held, asked

    def __getitem__(self, key: str) -> T:
        self._asked.add(key)
        return self._held[key]

    def __iter__(self) -> Iterator[str]:
        self._asked.update(self._held)
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)


def watched(rules: Rulebook) -> tuple[Rulebook, ReadLog]:
    """Return a rulebook that writes down what is read of it, and what it writes to."""
    log = ReadLog()
    return replace(rules, figures=_Watched(rules.figures, log.figures), tables=_Watched(rules.tables, log.tables)), log


def changes(earlier: Rulebook, later: Rulebook, log: ReadLog) -> tuple[FigureChange, ...]:
    """Return the figures, and the cells of tables, that were read and differ, in the order of their keys."""
    before = {key: earlier.figures[key] for key in log.figures if key in earlier.figures}
    after = {key: later.figures[key] for key in log.figures if key in later.figures}
    for key in log.tables:
        before |= _cells(earlier.tables.get(key))
        after |= _cells(later.tables.get(key))
    return tuple(
        FigureChange(before.get(key), after.get(key))
        for key in sorted(before.keys() | after.keys())
        if _value(before.get(key)) != _value(after.get(key))
    )


def _cells(table: Table | None) -> dict[str, Figure]:
    if table is None:
        return {}
    cells = [table.figure(row.key, column) for row in table.rows for column, _ in row.values]
    return {cell.key: cell for cell in cells}


def _value(figure: Figure | None) -> tuple[float, float | None, float | None] | None:
    return None if figure is None else (figure.value, figure.low, figure.high)
