"""As laid: readings on the finished paving checked against the plan.

Every reading is high or low by so much, and passes, fails, or is too near to the limit to decide. All of them together
give the fall that was achieved and the clearance at each damp-proof course; what they cannot show is said.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid._check import check
    from pavewright.as_laid._places import ReadingPlace, reading_places
    from pavewright.as_laid._promises import Promises, WallPromise, promises
    from pavewright.as_laid._sums_as_laid import SUMS
    from pavewright.as_laid._types import (
        AreaAsLaid,
        AsLaidReport,
        ReadingCheck,
        WallCheck,
    )
    from pavewright.as_laid._verdicts import TRUSTED, Verdict
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "TRUSTED",
    "AreaAsLaid",
    "AsLaidReport",
    "Promises",
    "ReadingCheck",
    "ReadingPlace",
    "Verdict",
    "WallCheck",
    "WallPromise",
    "check",
    "promises",
    "reading_places",
]
