"""Agreement: every height, size, price and date is checked against what it has to agree with.

A sill lies near the damp-proof course, a damp-proof course a little above the ground, brickwork in courses; a cover
has one level, whether it was written down or read; a spot of the ground lies as its neighbours say; a patio is larger
than a table, a slab costs more than a stamp, and work starts after it was written down. What disagrees is asked about,
with both values and what to measure again. Nothing is corrected here.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.agreement._ask import disagreements
    from pavewright.survey.agreement._neighbours import Stranger, strangers
    from pavewright.survey.agreement._sizes import too_small_to_be_one
else:
    __getattr__ = face(__name__)

__all__ = ["Stranger", "disagreements", "strangers", "too_small_to_be_one"]
