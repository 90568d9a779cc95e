"""What a typed text was found to mean."""

from __future__ import annotations

from dataclasses import dataclass

LONGEST_TEXT = 60
"""No length is written in more signs."""


@dataclass(frozen=True, slots=True)
class Typed:
    """What a text means.

    Attributes:
        value: The value, where the text is clear. [unit of the field]
        choices: Where it is not: each reading with its unit written out, and its value. [unit of the field]
        without_unit: Whether the text was a number without a unit.
    """

    value: float | None
    choices: tuple[tuple[str, float], ...] = ()
    without_unit: bool = False


NONE = Typed(None)
"""A text that means none."""

NUMBER = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
"""A number without a sign, as a pattern."""
