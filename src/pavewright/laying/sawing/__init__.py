"""Sawing: the units that the cut pieces of an area come from, and the counts and joints of it."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.sawing._lay_sums import joint_length_m, with_workings, workings_of
    from pavewright.laying.sawing._sawn_units import sawn_units
else:
    __getattr__ = face(__name__)

__all__ = [
    "joint_length_m",
    "sawn_units",
    "with_workings",
    "workings_of",
]
