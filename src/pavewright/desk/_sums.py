"""A sum answered, with what was not given taken from the rulebook."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.catalogue import find
from pavewright.sums import SumRefusedError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Rulebook
    from pavewright.sums import Quantity, Sum, Value


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
        edition: Place and date of the edition that they were taken from; empty where nothing was taken.
    """

    entry: Sum
    answers: Mapping[str, Value]
    taken: tuple[TakenInput, ...]
    edition: str


def answer_sum(name: str, given: Mapping[str, Value], edition: str = "") -> AnsweredSum:
    """Return the answers of a sum; what was not given and stands in the rulebook is taken from there, and said.

    Args:
        name: Name of the sum.
        given: Inputs by name.
        edition: Place or name of the edition; the neutral one where none is named.

    Raises:
        SumRefusedError: the inputs make no sum, or there is no such edition.
    """
    entry = find(name)
    left = entry.left_to_rules(given) or entry.left_to_tables(given)
    rules = _rules(edition) if left or edition else None
    taken = () if rules is None else _taken(entry, given, rules)
    asked = {each.name for each in entry.table_inputs}
    idle = [each for each in asked if each in given]
    if idle and not any(each.quantity.table for each in taken):
        message = f"{', '.join(idle)}: only to read the rulebook's tables by, and you gave your own. Leave it out."
        raise SumRefusedError(message)
    own = {key: value for key, value in given.items() if key not in asked}
    answers = entry.run({**own, **{each.quantity.name: each.value for each in taken}})
    known = "" if rules is None or not taken else f"{rules.locality} of {rules.dated.isoformat()}"
    return AnsweredSum(entry, answers, taken, known)


def _rules(edition: str) -> Rulebook:
    """Return an edition by its name, or the newest of a place."""
    wanted = edition or rulebook.NEUTRAL
    if wanted in rulebook.localities():
        wanted = rulebook.newest(wanted)
    try:
        return rulebook.load(wanted)
    except rulebook.RulebookError as problem:
        raise SumRefusedError(str(problem)) from None


def _taken(entry: Sum, given: Mapping[str, Value], rules: Rulebook) -> tuple[TakenInput, ...]:
    left = entry.left_to_rules(given)
    from_tables = entry.left_to_tables(given)
    if not left and not from_tables:
        return ()
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
