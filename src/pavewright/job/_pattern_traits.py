"""Laying patterns: one row each for what every room has to know of them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, StrEnum, auto


class Through(Enum):
    """Which joints of a pattern run straight through an area."""

    NONE = auto()
    BETWEEN_COURSES = auto()
    BOTH_WAYS = auto()


class Taken(Enum):
    """How many units a pattern takes."""

    ONE = auto()
    ONE_OR_MORE = auto()
    SEVERAL = auto()


@dataclass(frozen=True, slots=True)
class PatternTraits:
    """What other rooms ask of a pattern.

    Attributes:
        words: Its name in a price: "laid in …".
        through: Which joints run straight through; where any do, every unit lies along its course.
        taken: How many units it takes.
        woven: Whether whole widths of a unit have to make its length.
        staggered: Whether each course is shifted against the last as the job says.
        mirrored_same: Whether its picture in a mirror is the same pattern.
        turned_same_deg: Turn after which it is the same pattern again. [deg]
        locks: Whether its units lock against the braking and turning of wheels.
    """

    words: str
    through: Through = Through.NONE
    taken: Taken = Taken.ONE
    woven: bool = False
    staggered: bool = False
    mirrored_same: bool = False
    turned_same_deg: float = 180.0
    locks: bool = False


class Pattern(StrEnum):
    """Laying pattern."""

    STACK = "stack"
    RUNNING = "running"
    BASKETWEAVE = "basketweave"
    HERRINGBONE = "herringbone"
    COURSED = "coursed"
    MIXED = "mixed"
    RINGS = "rings"

    @property
    def traits(self) -> PatternTraits:
        """What other rooms ask of it."""
        return _TRAITS[self]


_TRAITS: dict[Pattern, PatternTraits] = {
    Pattern.STACK: PatternTraits("stack bond", through=Through.BOTH_WAYS, mirrored_same=True),
    Pattern.RUNNING: PatternTraits("running bond", through=Through.BETWEEN_COURSES, staggered=True),
    Pattern.BASKETWEAVE: PatternTraits("basketweave", woven=True, mirrored_same=True, turned_same_deg=90.0),
    Pattern.HERRINGBONE: PatternTraits("herringbone", woven=True, turned_same_deg=90.0, locks=True),
    Pattern.COURSED: PatternTraits("courses of mixed widths", through=Through.BETWEEN_COURSES, taken=Taken.SEVERAL),
    Pattern.MIXED: PatternTraits("mixed sizes at random", taken=Taken.SEVERAL),
    Pattern.RINGS: PatternTraits("rings", taken=Taken.ONE_OR_MORE),
}
"""One row for each pattern; how it is laid stands in the register of ``laying.patterns``."""
