"""Blocks that somebody writes in, ticks or signs, and words that nobody passes over."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pavewright.papers.look._blocks import Block


@dataclass(frozen=True, slots=True)
class FormLine:
    """A line of a form.

    Attributes:
        label: What is asked for.
        room_mm: Room to write in; zero takes what is left of the line. [mm]
        high_mm: Height of the line, more for several lines of writing. [mm]
        value: What is known already and printed on it.
        unit: Unit that stands behind the room.
    """

    label: str
    room_mm: float = 0.0
    high_mm: float = 8.0
    value: str = ""
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Form(Block):
    """Lines to fill in by hand, in one column or several."""

    kind: ClassVar[str] = "form"
    lines: tuple[FormLine, ...]
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Tick(Block):
    """A box to tick with its words, ticked or not."""

    kind: ClassVar[str] = "tick"
    text: str
    ticked: bool = False


@dataclass(frozen=True, slots=True)
class Choice(Block):
    """A question with answers of which one is ticked, or several; `ticked` holds places in the list."""

    kind: ClassVar[str] = "choice"
    question: str
    answers: tuple[str, ...]
    ticked: tuple[int, ...] = ()
    several: bool = False


@dataclass(frozen=True, slots=True)
class Signatures(Block):
    """Room for each who signs: name, signature, date; never parted over two pages."""

    kind: ClassVar[str] = "signatures"
    who: tuple[str, ...]
    names: tuple[str, ...]


class CalloutKind(StrEnum):
    """What a callout is: a frame says which by its strength and its word, never by colour alone."""

    NOTE = "note"
    CHECK = "check"
    CAUTION = "caution"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Callout(Block):
    """Words in a frame that nobody passes over."""

    kind: ClassVar[str] = "callout"
    level: CalloutKind
    word: str
    text: str


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A row of a checklist: what to check, what is planned, how far it may be off; the box to tick comes by itself."""

    words: str
    planned: str = ""
    limit: str = ""
    found: str = ""


@dataclass(frozen=True, slots=True)
class Checklist(Block):
    """What to check one by one: a box to tick, the words, planned, limit, and an empty box for what is found.

    A column that no row uses is left out; `heads` are the words over planned, limit and found.
    """

    kind: ClassVar[str] = "checklist"
    rows: tuple[CheckRow, ...]
    heads: tuple[str, str, str, str]
    to_write: bool


@dataclass(frozen=True, slots=True)
class SketchGrid(Block):
    """Squared paper to sketch on. [mm]."""

    kind: ClassVar[str] = "grid"
    high_mm: float
    step_mm: float
    caption: str = ""
