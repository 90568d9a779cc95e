"""Movement: whether what was read again lies elsewhere, or only seems to for the scatter of the readings.

Two visits differ always. A place has moved where the difference is more than the readings explain, all places together
as well as each by itself; and that it moved can only be said against marks that stayed. Where the marks do not agree
with each other, the one that moved is looked for; with none, only movement against each other is told.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid.movement._against import Datum, DatumState, Moved, datum_between, moved_since
    from pavewright.as_laid.movement._chances import RISK, f_limit, normal_limit, t_limit
    from pavewright.as_laid.movement._lines import LevelledLine, LinesMoved, lines_moved
    from pavewright.as_laid.movement._sums_movement import SUMS
    from pavewright.as_laid.movement._twice import TwoVisits, two_visits
else:
    __getattr__ = face(__name__)

__all__ = [
    "RISK",
    "SUMS",
    "Datum",
    "DatumState",
    "LevelledLine",
    "LinesMoved",
    "Moved",
    "TwoVisits",
    "datum_between",
    "f_limit",
    "lines_moved",
    "moved_since",
    "normal_limit",
    "t_limit",
    "two_visits",
]
