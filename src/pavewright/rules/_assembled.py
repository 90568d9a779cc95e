"""What work takes beside what is drawn, as a rulebook lists it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Assembled:
    """One thing that work takes: so much of it for each of another.

    Attributes:
        key: Its name inside the program, the same as that of its item in a catalogue.
        figure: Key of the figure that says how much: likely, and the ends of its range.
        name: What is bought, in words.
        per: What the amount is counted by.
        unit: Unit of the amount.
        when: On what it hangs; empty where it is always taken.
        off: Whether nothing of it is taken unless a user switches it on.
    """

    key: str
    figure: str
    name: str
    per: str
    unit: str
    when: str = ""
    off: bool = False
