"""Faults of a job document."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum


class Wanted(StrEnum):
    """What nobody has said yet, where that alone is the fault: nothing contradicts anything."""

    TAPE = "tape"
    SIDE = "side"
    HEIGHT = "height"
    FALL = "fall"
    LAYOUT = "layout"


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong with a document.

    Attributes:
        path: Where in the document, fields and numbers joined by dots.
        message: A sentence that says what to measure or write again.
        wanted: What nobody has said; None where what is said is wrong or contradicts itself.
        place: Name of the area or point for which it is wanted.
    """

    path: str
    message: str
    wanted: Wanted | None = field(default=None, compare=False)
    place: str = field(default="", compare=False)


class JobInvalid(Exception):  # noqa: N818 - the name says what is the matter with the document, not that a program failed
    """The document is not a job; carries every fault that was found."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        """Keep the faults in the order in which they were found."""
        super().__init__("; ".join(f"{fault.path}: {fault.message}" for fault in faults))
        self.faults = faults
