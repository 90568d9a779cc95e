"""The register of sums as a page of quick sums wants it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.catalogue import ROOMS, find
from pavewright.desk._verbs import source_words
from pavewright.sums import SumRefusedError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.sums import Quantity, Sum, Value

_SUBJECTS = {
    "survey": "Tapes and staff",
    "setting_out": "Setting out",
    "levels": "Falls and levels",
    "laying": "Slabs, joints and cuts",
    "buildup": "Layers and digging depth",
    "earthworks": "Dig and spoil",
    "water": "Rain, soakaways and channels",
    "flow": "Water in channels and pipes",
    "quantities": "What to order",
    "cost": "Rates and price",
    "programme": "Time",
    "as_laid": "Checking what is laid",
}
"""Rooms in the order in which a page shows their sums, with a title that says what they are about."""


@dataclass(frozen=True, slots=True)
class TakenInput:
    """An input that nobody gave, taken from the rulebook.

    Attributes:
        quantity: The input.
        value: What was taken.
        citations: Where it is from and how far to trust it, each source once.
    """

    quantity: Quantity
    value: Value
    citations: tuple[str, ...]

    @property
    def words(self) -> str:
        """Say where it is from."""
        return "; ".join(self.citations) or "one by definition"


@dataclass(frozen=True, slots=True)
class AnsweredSum:
    """A sum with its answers.

    Attributes:
        entry: The sum.
        answers: Its answers by name.
        taken: Inputs that nobody gave, each with what was taken of the rulebook.
    """

    entry: Sum
    answers: Mapping[str, Value]
    taken: tuple[TakenInput, ...]


def answer_sum(name: str, given: Mapping[str, Value], edition: str = rulebook.NEUTRAL) -> AnsweredSum:
    """Return the answers of a sum; what was not given and stands in the rulebook is taken from there, and said.

    Raises:
        SumRefusedError: the inputs make no sum.
    """
    entry = find(name)
    taken = _taken(entry, given, edition)
    asked = {each.name for each in entry.table_inputs}
    idle = [each for each in asked if each in given]
    if idle and not any(each.quantity.table for each in taken):
        message = f"{', '.join(idle)}: only to read the rulebook's tables by, and you gave your own. Leave it out."
        raise SumRefusedError(message)
    own = {key: value for key, value in given.items() if key not in asked}
    return AnsweredSum(entry, entry.run({**own, **{each.quantity.name: each.value for each in taken}}), taken)


def _taken(entry: Sum, given: Mapping[str, Value], edition: str) -> tuple[TakenInput, ...]:
    left = entry.left_to_rules(given)
    from_tables = entry.left_to_tables(given)
    if not left and not from_tables:
        return ()
    rules = rulebook.load(edition)
    found = [TakenInput(each, rules.figure(each.figure).value, (rules.figure(each.figure).citation,)) for each in left]
    read = entry.from_tables(given, rules)
    return (
        *found,
        *(
            TakenInput(
                each, read[each.name].value, tuple(dict.fromkeys(cell.citation for cell in read[each.name].figures))
            )
            for each in from_tables
        ),
    )


def sums_told() -> list[dict[str, Any]]:
    """Return every registered sum: name, subject, title, formula, source, inputs and answers."""
    return [
        {
            "name": entry.name,
            "group": subject,
            "title": entry.title,
            "formula": entry.formula,
            "source": source_words(entry),
            "inputs": [_told(quantity) for quantity in (*entry.inputs, *entry.table_inputs)],
            "outputs": [_told(quantity) for quantity in entry.outputs],
        }
        for room, subject in _SUBJECTS.items()
        for entry in sorted(ROOMS[room], key=lambda entry: entry.title)
    ]


def _told(quantity: Quantity) -> dict[str, Any]:
    default = quantity.default
    meaning = quantity.meaning
    if quantity.figure:
        figure = rulebook.load(rulebook.NEUTRAL).figure(quantity.figure)
        default, meaning = figure.value, f"{meaning}; the rulebook's is {figure.value:g}, from {figure.citation}"
    if quantity.table:
        meaning = f"{meaning}; left empty, the rulebook's table is taken"
    return {
        "may_be_left": bool(quantity.table),
        "name": quantity.name,
        "unit": quantity.unit,
        "meaning": meaning,
        "kind": quantity.kind,
        "default": list(default) if isinstance(default, tuple) else default,
        "choices": list(quantity.choices),
    }
