"""How far the shape of a job is fixed: which places are measured, and which only a sketch gives."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.survey._types_tapes import ErrorEllipse, NextTape


class SideBy(StrEnum):
    """What says on which side of a line a taped point lies.

    Doubtful is a sketch on which it lies so near the line that a finger may have drawn it on either side.
    """

    STATED = "stated"
    TAPES = "tapes"
    SKETCH = "sketch"
    DOUBTFUL = "doubtful"


@dataclass(frozen=True, slots=True)
class SketchedPlace:
    """A point whose place the sketch gives, in full or in one direction.

    Attributes:
        name: The point.
        missing: How many conditions are missing until it is measured: one tape, or two.
        free_bearing_deg: The direction in which it may still move, degrees clockwise from the y axis; None where it may
            move either way. [deg]
        ellipse: How far a finger draws, in the directions that nothing measured holds.
        is_wanted: Whether it has to be measured; a spot that was tapped in the middle need not.
    """

    name: str
    missing: int
    free_bearing_deg: float | None
    ellipse: ErrorEllipse
    is_wanted: bool = True


@dataclass(frozen=True, slots=True)
class SideTaken:
    """On which side a measured point was put, and by what.

    Attributes:
        name: The point.
        by: What says so.
        line: The two points of the line of which it lies left or right; None where tapes alone say so.
    """

    name: str
    by: SideBy
    line: tuple[str, str] | None


@dataclass(frozen=True, slots=True)
class UnplacedPoint:
    """A taped point that has no place: it is not on the sketch, and too little is measured to it.

    Attributes:
        name: The point.
        missing: How many conditions are missing; none where only its side is not known.
    """

    name: str
    missing: int


@dataclass(frozen=True)
class ShapeSoFar:
    """The shape of a job that has a sketch.

    Attributes:
        sketched: Points whose place comes from the sketch.
        sides: Where the measured points lie, and what says so.
        unplaced: Points that have no place yet.
        scale: How many times larger the site is than the sketch by its guessed scale. [-]
        next_tape: The tape that helps most next; None where none does.
        hanging: Points measured off a line that is itself only sketched.
    """

    sketched: tuple[SketchedPlace, ...]
    sides: tuple[SideTaken, ...]
    unplaced: tuple[UnplacedPoint, ...]
    scale: float
    next_tape: NextTape | None = None
    hanging: tuple[str, ...] = ()

    @property
    def is_fixed(self) -> bool:
        """Whether every point that has to be measured is."""
        return not self.unplaced and not any(each.is_wanted for each in self.sketched)
