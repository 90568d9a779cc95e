"""Search: where a pattern is best begun.

Shifts at which an edge of a unit meets a corner of the outline, or clears it by just enough to leave no sliver, are
counted by a compiled kernel: whole units, cut pieces, slivers, notches and sawing. What is found here is only counted;
the laying room lays and cuts the best of it before anything is reported.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.search._field import Field, Limits, field_of
    from pavewright.laying.search._shifts import NARROW_COST, Ranked, best_shifts
    from pavewright.laying.search._start_ways import borders_to_try, corners_to_try, joints_to_try, turns_to_try
else:
    __getattr__ = face(__name__)

__all__ = [
    "NARROW_COST",
    "Field",
    "Limits",
    "Ranked",
    "best_shifts",
    "borders_to_try",
    "corners_to_try",
    "field_of",
    "joints_to_try",
    "turns_to_try",
]
