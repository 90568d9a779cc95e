"""The register of sums as a page of quick sums wants it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.catalogue import ROOMS, find
from pavewright.desk._verbs import source_words
from pavewright.job import Locality

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure
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
class AnsweredSum:
    """A sum with its answers.

    Attributes:
        entry: The sum.
        answers: Its answers by name.
        taken: Inputs that nobody gave, each with the figure of the rulebook that was taken.
    """

    entry: Sum
    answers: Mapping[str, Value]
    taken: tuple[tuple[Quantity, Figure], ...]


def answer_sum(name: str, given: Mapping[str, Value], edition: str = Locality.ELSEWHERE.value) -> AnsweredSum:
    """Return the answers of a sum; what was not given and stands in the rulebook is taken from there, and said.

    Raises:
        SumRefusedError: the inputs make no sum.
    """
    entry = find(name)
    left = entry.left_to_rules(given)
    rules = rulebook.load(edition) if left else None
    taken = () if rules is None else tuple((quantity, rules.figure(quantity.figure)) for quantity in left)
    values = {**given, **{quantity.name: figure.value for quantity, figure in taken}}
    return AnsweredSum(entry, entry.run(values), taken)


def sums_told() -> list[dict[str, Any]]:
    """Return every registered sum: name, subject, title, formula, source, inputs and answers."""
    return [
        {
            "name": entry.name,
            "group": subject,
            "title": entry.title,
            "formula": entry.formula,
            "source": source_words(entry),
            "inputs": [_told(quantity) for quantity in entry.inputs],
            "outputs": [_told(quantity) for quantity in entry.outputs],
        }
        for room, subject in _SUBJECTS.items()
        for entry in sorted(ROOMS[room], key=lambda entry: entry.title)
    ]


def _told(quantity: Quantity) -> dict[str, Any]:
    default = quantity.default
    meaning = quantity.meaning
    if quantity.figure:
        figure = rulebook.load(Locality.ELSEWHERE.value).figure(quantity.figure)
        default, meaning = figure.value, f"{meaning}; the rulebook's is {figure.value:g}, from {figure.citation}"
    return {
        "name": quantity.name,
        "unit": quantity.unit,
        "meaning": meaning,
        "kind": quantity.kind,
        "default": list(default) if isinstance(default, tuple) else default,
        "choices": list(quantity.choices),
    }
