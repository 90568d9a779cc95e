"""Patterns: where units lie before the outline cuts them.

A pattern is what it takes (sizes of its units, joint, stagger or mix) and one generator that covers a box with units,
course by course. To add one, write its generator in a file of its own and enter it in the register of `_layout`. A
border follows the outline instead of a box and leaves the field inside it to the pattern.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.patterns._bond import Bond, Box, Size
    from pavewright.laying.patterns._border import Bordered, bordered
    from pavewright.laying.patterns._curved_rows import CurvedRow, min_radius_mm
    from pavewright.laying.patterns._edging import Ring
    from pavewright.laying.patterns._layout import Layout, about_how_many
    from pavewright.laying.patterns._placing import Placing, joined_placings
    from pavewright.laying.patterns._rings import (
        RingCourse,
        RingUnit,
        first_ring_mm,
        ring_courses,
        ring_joint_mm,
        ring_placing,
        units_in_ring,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "Bond",
    "Bordered",
    "Box",
    "CurvedRow",
    "Layout",
    "Placing",
    "Ring",
    "RingCourse",
    "RingUnit",
    "Size",
    "about_how_many",
    "bordered",
    "first_ring_mm",
    "joined_placings",
    "min_radius_mm",
    "ring_courses",
    "ring_joint_mm",
    "ring_placing",
    "units_in_ring",
]
