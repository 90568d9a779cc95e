"""A pattern with its start: what covers an area."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.job import Pattern
from pavewright.laying.patterns._coursed import coursed, coursed_period
from pavewright.laying.patterns._grid import courses, period
from pavewright.laying.patterns._woven import basketweave, basketweave_period, herringbone, herringbone_period

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY
    from pavewright.laying.patterns._bond import Bond, Box
    from pavewright.laying.patterns._placing import Placing

    Generator = Callable[[Bond, Box], Placing]
    Period = Callable[[Bond], XY]

PATTERNS: dict[Pattern, tuple[Generator, Period]] = {
    Pattern.STACK: (courses, period),
    Pattern.RUNNING: (courses, period),
    Pattern.RINGS: (courses, period),
    Pattern.BASKETWEAVE: (basketweave, basketweave_period),
    Pattern.HERRINGBONE: (herringbone, herringbone_period),
    Pattern.COURSED: (coursed, coursed_period),
}
"""Every pattern: what covers a box, and the shifts that give every possible start once."""


@dataclass(frozen=True, slots=True)
class Layout:
    """A pattern from a starting corner, in the frame of the courses.

    Attributes:
        pattern: The pattern.
        bond: Its sizes and joints.
        start: A corner of a unit. [mm]
        from_right: Whether that is a right corner.
        from_far: Whether it is a far corner.
    """

    pattern: Pattern
    bond: Bond
    start: XY
    from_right: bool = False
    from_far: bool = False

    @property
    def period_mm(self) -> XY:
        """Shifts along and across that give every possible start once. [mm]."""
        return PATTERNS[self.pattern][1](self.bond)

    def moved(self, along_mm: float, across_mm: float) -> Layout:
        """Return the same layout shifted in the frame."""
        return replace(self, start=(self.start[0] + along_mm, self.start[1] + across_mm))

    def over(self, box: Box) -> Placing:
        """Return units that cover a box of the frame.

        A generator lays from its origin forward and to the left; from the right or from the far side its picture in
        a mirror is taken, so that courses are counted from the start.
        """
        x1, y1, x2, y2 = box
        (sx, sy), right, far = self.start, self.from_right, self.from_far
        mirrored = (
            sx - x2 if right else x1 - sx,
            sy - y2 if far else y1 - sy,
            sx - x1 if right else x2 - sx,
            sy - y1 if far else y2 - sy,
        )
        laid = PATTERNS[self.pattern][0](self.bond, mirrored)
        upright = laid.turn_deg != 0.0
        wide = np.where(upright, laid.across_mm, laid.along_mm)
        deep = np.where(upright, laid.along_mm, laid.across_mm)
        min_x = np.where(upright, laid.x_mm - wide, laid.x_mm)
        min_x = sx - min_x - wide if right else sx + min_x
        min_y = sy - laid.y_mm - deep if far else sy + laid.y_mm
        return replace(laid, x_mm=np.where(upright, min_x + wide, min_x), y_mm=min_y)


def about_how_many(box: Box, layout: Layout) -> float:
    """Return about how many units it takes to cover a box."""
    x1, y1, x2, y2 = box
    smallest = min(layout.bond.sizes, key=lambda size: size.along_mm * size.across_mm)
    along, across = smallest.along_mm + layout.bond.joint_mm, smallest.across_mm + layout.bond.joint_mm
    return ((x2 - x1) / along + 2.0) * ((y2 - y1) / across + 2.0)
