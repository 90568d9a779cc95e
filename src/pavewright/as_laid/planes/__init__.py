"""Planes through readings, of which a few may be wrong: a slab that stands up, a staff on a stone, a figure misread.

A plane by least squares is drawn towards a bad reading and hides it. Here the plane is first sought that most of the
readings agree with, whatever the others say; those that lie far off it are put aside and named, and the rest is fitted.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid.planes._bent import BentPlane, bent_plane
    from pavewright.as_laid.planes._robust import (
        ENOUGH_TO_DOUBT,
        RobustPlane,
        centred_plane,
        median_plane,
        robust_line,
        robust_plane,
    )
    from pavewright.as_laid.planes._sums_planes import SUMS
    from pavewright.as_laid.planes._weighed import weighed_plane
else:
    __getattr__ = face(__name__)

__all__ = [
    "ENOUGH_TO_DOUBT",
    "SUMS",
    "BentPlane",
    "RobustPlane",
    "bent_plane",
    "centred_plane",
    "median_plane",
    "robust_line",
    "robust_plane",
    "weighed_plane",
]
