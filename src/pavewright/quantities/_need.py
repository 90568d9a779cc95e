"""What is needed of each material, gathered from every use of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright.quantities._amounts import with_allowance
from pavewright.quantities._dimensions import counted, drawn_for, taken
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.quantities._dimensions import Dimension
    from pavewright.quantities._keys import Measure
    from pavewright.quantities._listed import Listed
    from pavewright.quantities._scope import ScopeKey
    from pavewright.rules import Figure


@dataclass(slots=True)
class Need:
    """One material: how much net and with allowance, over all its uses, as a range.

    Attributes:
        unit: Unit of all amounts.
        net: What is measured. [in ``unit``]
        gross: Net with allowance. [in ``unit``]
        low: Lower end of gross. [in ``unit``]
        high: Upper end of gross. [in ``unit``]
        workings: The sums, one for each use.
        scope: What it is for.
        serves: What the use that is added next is for.
        lines: The lines of the dimension book.
    """

    unit: Measure
    net: float = 0.0
    gross: float = 0.0
    low: float = 0.0
    high: float = 0.0
    workings: list[Working] = field(default_factory=list)
    scope: set[ScopeKey] = field(default_factory=set)
    serves: ScopeKey | None = None
    lines: list[Dimension] = field(default_factory=list)

    def count(
        self, words: str, amount: float, figures: tuple[Figure, ...] = (), lines: tuple[Dimension, ...] = ()
    ) -> None:
        """Add what is counted or made to size, of which nothing is lost.

        Args:
            words: What is counted, in words.
            amount: How much. [in ``unit``]
            figures: Figures that went in.
            lines: What is measured for it.
        """
        self._book(words, amount, lines)
        self.net += amount
        self.gross += amount
        self.low += amount
        self.high += amount
        self.workings.append(Working(f"{words} = {amount:g}", amount, self.unit, figures))

    def add(
        self,
        words: str,
        amount: float,
        allowance: Figure,
        figures: tuple[Figure, ...] = (),
        spread: tuple[float, float] = (1.0, 1.0),
        lines: tuple[Dimension, ...] = (),
    ) -> None:
        """Add one use of it.

        Args:
            words: The sum with its numbers put in.
            amount: Net amount, in the unit of the need. [in ``unit``]
            allowance: What is lost. [%]
            figures: Figures that went in.
            spread: Low and high as a part of the amount. [-]
            lines: What is measured for it; the amount by itself where nothing else is known.
        """
        self._book(words, amount, lines)
        gross = with_allowance(amount, allowance.value)
        self.net += amount
        self.gross += gross
        self.low += gross * spread[0]
        self.high += gross * spread[1]
        self.workings.append(
            Working(
                f"{words} = {amount:.3f}, with {allowance.value:g} % {gross:.3f}",
                gross,
                self.unit,
                (*figures, allowance),
            )
        )

    def take(self, words: str, one: Listed, count: float, lines: tuple[Dimension, ...]) -> None:
        """Add what an assembly takes: so much for each of what it is counted by.

        Args:
            words: The sum with its numbers put in.
            one: The assembly.
            count: What it is counted by comes to. [in the unit of its driver]
            lines: Its lines in the dimension book.
        """
        amount = count * (one.amount or 0.0)
        gross = with_allowance(amount, one.lost_percent)
        self._book(words, amount, lines)
        self.net += amount
        self.gross += gross
        self.low += with_allowance(count * one.low, one.lost_percent)
        self.high += with_allowance(count * one.high, one.lost_percent)
        self.scope.update(line.scope for line in lines if line.scope is not None)
        self.workings.append(Working(f"{words} = {amount:.3f}", gross, self.unit, one.figures, one.note))

    def _book(self, words: str, amount: float, lines: tuple[Dimension, ...]) -> None:
        """Write a use into the dimension book."""
        found = taken(lines, amount, self.unit)
        if not found and amount:
            found = (counted(words, drawn_for(self.serves), self.serves, amount),)
        self.lines += found

    @property
    def allowance_percent(self) -> float:
        """What is lost on the whole. [%]."""
        return 100.0 * (self.gross / self.net - 1.0) if self.net else 0.0
