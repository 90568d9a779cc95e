"""Sums: every calculation that a person might want by itself, under one name, with units and a source.

The command line, the page of quick sums and the published cases all go through the same register. A working is the
other half: one line of arithmetic kept beside a result, so that any figure can unfold to what was put in.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pavewright.rules import Figure, Rulebook

Value = float | str | tuple[float, ...] | tuple[str, ...]
"""What an input or an answer of a sum may be: a number, a word, or a row of either."""


@dataclass(frozen=True, slots=True)
class Working:
    """One line of arithmetic behind a figure.

    Attributes:
        expression: The sum with its numbers put in, as a person would write it.
        result: The answer, unrounded. [in ``unit``]
        unit: Unit of the result.
        figures: Rulebook figures that went in, with source and status.
        note: Where the other numbers came from, in a few words.
    """

    expression: str
    result: float
    unit: str
    figures: tuple[Figure, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Quantity:
    """An input or an answer of a sum: its name, unit and meaning.

    Attributes:
        name: Name of the argument or of the answer.
        unit: Unit as printed; empty for a pure number or a word.
        meaning: What it is, in a few words.
        kind: ``number``, ``word``, ``numbers`` or ``words``.
        default: Value where none is given; ``None`` means that it must be given. A figure of the trade is named in
            ``figure`` and has no default: a case states it.
        choices: The words allowed, where the kind is a word.
        figure: Key of the rulebook's figure that a door takes where none is given; empty for none.
        table: Key of the rulebook's table from which a door takes it where none is given; empty for none.
    """

    name: str
    unit: str
    meaning: str
    kind: str = "number"
    default: Value | None = None
    choices: tuple[str, ...] = ()
    figure: str = ""
    table: str = ""


@dataclass(frozen=True, slots=True)
class FromTable:
    """An input taken from a table of the rulebook: its value and the cells that went in."""

    value: Value
    figures: tuple[Figure, ...]


class SumRefusedError(ValueError):
    """The inputs do not make a sum; the message says what to measure again."""


@dataclass(frozen=True, slots=True)
class Sum:
    """A registered calculation.

    Attributes:
        name: Name on the command line, in words joined by hyphens.
        title: What it works out, for a person.
        inputs: Its inputs in order.
        outputs: Its answers in order.
        formula: The formula as a person would write it.
        source: Key of the source in the rulebook, with place, or ``definition`` or ``common practice``.
        compute: Takes the inputs by name, returns the answers by name; raises ``SumRefusedError``.
        read_tables: Takes what is given and the rulebook, returns the inputs that come from its tables, by name; None
            where none does.
        table_inputs: What is asked for beside the inputs to read those tables.
    """

    name: str
    title: str
    inputs: tuple[Quantity, ...]
    outputs: tuple[Quantity, ...]
    formula: str
    source: str
    compute: Callable[..., Mapping[str, Value]]
    read_tables: Callable[[Mapping[str, Value], Rulebook], Mapping[str, FromTable]] | None = None
    table_inputs: tuple[Quantity, ...] = ()

    def left_to_rules(self, given: Mapping[str, Value]) -> tuple[Quantity, ...]:
        """Return the inputs that were not given and for which the rulebook has a figure."""
        return tuple(quantity for quantity in self.inputs if quantity.figure and quantity.name not in given)

    def from_tables(self, given: Mapping[str, Value], rules: Rulebook) -> dict[str, FromTable]:
        """Return the inputs that were not given and come from tables of the rulebook, by name.

        Raises:
            SumRefusedError: part of a table was given, or what is needed to read it was not.
        """
        left = self.left_to_tables(given)
        for table in {quantity.table: None for quantity in left}:
            of_table = [quantity.name for quantity in self.inputs if quantity.table == table]
            if any(name in given for name in of_table):
                message = f"Give {', '.join(of_table)} together, or none of them: then the rulebook's are taken."
                raise SumRefusedError(message)
        if self.read_tables is None or not left:
            return {}
        asked = {each.name: each for each in (*self.inputs, *self.table_inputs) if not each.table}
        known = {name: _checked(each, given.get(name, each.default)) for name, each in asked.items()}
        read = self.read_tables(known, rules)
        return {quantity.name: read[quantity.name] for quantity in left}

    def left_to_tables(self, given: Mapping[str, Value]) -> tuple[Quantity, ...]:
        """Return the inputs that were not given and come from a table of the rulebook."""
        return tuple(quantity for quantity in self.inputs if quantity.table and quantity.name not in given)

    def run(self, given: Mapping[str, Value]) -> dict[str, Value]:
        """Return the answers for the inputs given by name.

        Raises:
            SumRefusedError: an input is missing, unknown, of the wrong kind or makes no sum.
        """
        known = {quantity.name: quantity for quantity in self.inputs}
        unknown = sorted(set(given) - set(known))
        if unknown:
            message = f"{self.name} has no input {', '.join(unknown)}; it takes {', '.join(known)}."
            raise SumRefusedError(message)
        values = {name: _checked(quantity, given.get(name, quantity.default)) for name, quantity in known.items()}
        try:
            answers = dict(self.compute(**values))
        except (OverflowError, ZeroDivisionError):
            message = f"{self.name}: with these numbers the answer is beyond every measure; check each, and its unit."
            raise SumRefusedError(message) from None
        for quantity in self.outputs:
            _refuse_unless_finite(self.name, quantity.name, answers[quantity.name])
        return answers


def _checked(quantity: Quantity, value: Value | None) -> Value:
    """Return the value if it is of the kind that the input takes."""
    if value is None:
        message = f"Give {quantity.name}: {quantity.meaning}{f' [{quantity.unit}]' if quantity.unit else ''}."
        raise SumRefusedError(message)
    if quantity.kind == "number" and (isinstance(value, bool) or not isinstance(value, int | float)):
        message = f"{quantity.name} takes one number, not {value!r}."
        raise SumRefusedError(message)
    if quantity.kind == "word" and (not isinstance(value, str) or (quantity.choices and value not in quantity.choices)):
        message = f"{quantity.name} takes one of {', '.join(quantity.choices)}; {value!r} is none of them."
        raise SumRefusedError(message)
    if quantity.kind in {"numbers", "words"} and not isinstance(value, tuple):
        message = f"{quantity.name} takes a row of {quantity.kind}, separated by commas."
        raise SumRefusedError(message)
    if isinstance(value, tuple):
        _refuse_other_entries(quantity, value)
    _refuse_unless_finite("the sum", quantity.name, value)
    _refuse_vast(quantity.name, value)
    return value


_LARGEST = 1e15
"""No measure in any of the units taken is larger."""


def _refuse_other_entries(quantity: Quantity, row: tuple[object, ...]) -> None:
    """Refuse a row that holds something else than it takes."""
    numbers = quantity.kind == "numbers"
    for number, entry in enumerate(row, start=1):
        fitting = isinstance(entry, int | float) and not isinstance(entry, bool) if numbers else isinstance(entry, str)
        if not fitting:
            message = f"{quantity.name} takes a row of {quantity.kind}; entry {number} is {entry!r:.60}."
            raise SumRefusedError(message)


def _refuse_unless_finite(where: str, name: str, value: Value) -> None:
    numbers = value if isinstance(value, tuple) else (value,)
    if any(isinstance(number, float) and not math.isfinite(number) for number in numbers):
        message = f"{where}: {name} is not a finite number."
        raise SumRefusedError(message)


def _refuse_vast(name: str, value: Value) -> None:
    numbers = value if isinstance(value, tuple) else (value,)
    if any(isinstance(number, int | float) and abs(number) > _LARGEST for number in numbers):
        message = f"{name} is larger than any measure: read it again, and check its unit."
        raise SumRefusedError(message)


__all__ = ["FromTable", "Quantity", "Sum", "SumRefusedError", "Value", "Working"]
