"""What a pattern takes."""

from __future__ import annotations

from dataclasses import dataclass

Box = tuple[float, float, float, float]
"""A box of the frame: min x, min y, max x, max y. [mm]"""


@dataclass(frozen=True, slots=True)
class Size:
    """A unit in plan.

    Attributes:
        along_mm: Its length. [mm]
        across_mm: Its width. [mm]
    """

    along_mm: float
    across_mm: float


@dataclass(frozen=True, slots=True)
class Bond:
    """Sizes and joints of a pattern.

    Attributes:
        sizes: Sizes of the units, the unit of the area first; all but coursed laying take one.
        joint_mm: Joint. [mm]
        stagger: Shift of each course against the one before, as a part of unit and joint. [-]
        mix: Which of the possible mixes of coursed laying.
    """

    sizes: tuple[Size, ...]
    joint_mm: float
    stagger: float = 0.0
    mix: int = 0

    @property
    def pitch_along_mm(self) -> float:
        """Length of a unit and joint. [mm]."""
        return self.sizes[0].along_mm + self.joint_mm

    @property
    def pitch_across_mm(self) -> float:
        """Width of a unit and joint. [mm]."""
        return self.sizes[0].across_mm + self.joint_mm

    @property
    def side_by_side(self) -> int:
        """How many units side by side make the length of one, to the nearest."""
        return max(round(self.pitch_along_mm / self.pitch_across_mm), 1)

    @property
    def woven_pitch_mm(self) -> float:
        """Pitch of a woven pattern: a width and joint, or its share of a length and joint where that is more. [mm].

        Source: definition, n widths with joints side by side take the room of one length with its joint
        """
        return max(self.pitch_across_mm, self.pitch_along_mm / self.side_by_side)

    @property
    def widest_woven_mm(self) -> float:
        """The widest joint that a woven pattern opens. [mm].

        Source: definition, what the pitch leaves of a width, or of as many pitches as widths make a length
        """
        pitch, size = self.woven_pitch_mm, self.sizes[0]
        return max(pitch - size.across_mm, self.side_by_side * pitch - size.along_mm)
