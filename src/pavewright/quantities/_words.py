"""The sentences of the findings on quantities, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def dig_not_measured() -> str:
    """Say that the dig is not in the price."""
    return "Without spot levels of the ground neither the dig nor what leaves is measured: they are not in the price."


def not_in_price(what: str) -> Said:
    """Say that something could not be measured."""
    ways = ("Enter pipe_mm, or the place of the soakaway.", "Say whether it is there already: its state.")
    return f"{what}: it is not in the price.", worded(ways)


def deep_pit(outfall: str, deep_mm: float) -> Said:
    """Say that the hole of a soakaway has sides that have to be looked at. [mm]."""
    words = (
        f"The hole of {outfall} is {deep_mm:.0f} mm deep. Nobody goes into it before its sides are battered "
        "back or held. Spoil and machines stand back from its edge; it is fenced and covered while it is open. "
        "Have somebody who knows decide how. No depth is safe by itself."
    )
    return words, worded(("Take a wider, shallower pit.",))


def taken_as_new(name: str) -> Said:
    """Say that a drain is priced as new because nobody said what it is."""
    words = f"Whether {name} is there already is not said: it is taken as new, and is in the price."
    return words, worded(("Say that it is there: state existing.", "Say that it is new: state new."))


def units_alone() -> str:
    """Say that paving units are all that could be measured."""
    return "Base, bed, joints, edges and drains: not measured while levels or soil are not known"
