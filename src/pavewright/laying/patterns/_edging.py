"""A border as it is asked for: its unit, its courses and its joints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import BorderKind

if TYPE_CHECKING:
    from pavewright.job import BorderCorner
    from pavewright.laying.patterns._bond import Size


@dataclass(frozen=True, slots=True)
class Ring:
    """A border as it is asked for.

    Attributes:
        kind: How its units stand.
        corner: How it turns corners.
        courses: How many courses run round.
        size: Its unit.
        number: Which of the sizes of the area that unit is.
        joint_mm: Joint. [mm]
        stretch_mm: Least and most that the joint between its units may be, so that straight sides end in whole units;
            none where the joint stays. [mm]
        tapered: Whether units round a curve are cut to a taper.
    """

    kind: BorderKind
    corner: BorderCorner
    courses: int
    size: Size
    number: int
    joint_mm: float
    stretch_mm: tuple[float, float] | None = None
    tapered: bool = False

    @property
    def course_mm(self) -> float:
        """Depth of a course. [mm]."""
        return self.size.along_mm if self.kind is BorderKind.SOLDIER else self.size.across_mm

    @property
    def wide_mm(self) -> float:
        """What a unit takes along its side. [mm]."""
        return self.size.across_mm if self.kind is BorderKind.SOLDIER else self.size.along_mm

    @property
    def pitch_mm(self) -> float:
        """A unit and its joint along its side. [mm]."""
        return self.wide_mm + self.joint_mm

    @property
    def depth_mm(self) -> float:
        """Depth of all courses, each with the joint that follows it. [mm]."""
        return self.courses * (self.course_mm + self.joint_mm)
