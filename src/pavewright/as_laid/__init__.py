"""As laid: readings on the finished paving checked against the plan.

Every reading is high or low by so much, and passes, fails, or is too near to the limit to decide. All of them together
give the fall that was achieved, bay by bay, the gaps under a straight edge and the clearance at each damp-proof course;
lips and joints are held to a regime of tolerances, later visits show what moved. What readings cannot show is said.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid._area import walls_unread
    from pavewright.as_laid._bays import Bay, bay_under, bays_of
    from pavewright.as_laid._check import check
    from pavewright.as_laid._cloud import MIN_MARKS, CloudCells, check_cloud
    from pavewright.as_laid._judged import with_standing
    from pavewright.as_laid._places import ReadingPlace, reading_places
    from pavewright.as_laid._promises import Promises, WallPromise, promises
    from pavewright.as_laid._regimes import Limit, NotHeld, Regime, held, regime, regimes
    from pavewright.as_laid._sums import SUMS
    from pavewright.as_laid._types import (
        AreaAsLaid,
        AsLaidReport,
        ReadingCheck,
        WallCheck,
    )
    from pavewright.as_laid._types_cloud import CloudBay, CloudCheck, CloudEdge, CloudMark
    from pavewright.as_laid._types_judged import Ground, HoseAsLaid, Reason
    from pavewright.as_laid._types_surface import (
        BayAsLaid,
        BayMoved,
        BayState,
        GapAsLaid,
        JointAsLaid,
        LipAsLaid,
        MovedVerdict,
        PlaceMoved,
        ProfileAsLaid,
        VisitMoved,
    )
    from pavewright.as_laid._verdicts import TRUSTED, Verdict, together, within
    from pavewright.as_laid._words_surface import MOVED, limit_text
    from pavewright.as_laid._words_surface import STATES as BAY_STATES
    from pavewright.as_laid._words_water import reason_in_words
else:
    __getattr__ = face(__name__)

__all__ = [
    "BAY_STATES",
    "MIN_MARKS",
    "MOVED",
    "SUMS",
    "TRUSTED",
    "AreaAsLaid",
    "AsLaidReport",
    "Bay",
    "BayAsLaid",
    "BayMoved",
    "BayState",
    "CloudBay",
    "CloudCells",
    "CloudCheck",
    "CloudEdge",
    "CloudMark",
    "GapAsLaid",
    "Ground",
    "HoseAsLaid",
    "JointAsLaid",
    "Limit",
    "LipAsLaid",
    "MovedVerdict",
    "NotHeld",
    "PlaceMoved",
    "ProfileAsLaid",
    "Promises",
    "ReadingCheck",
    "ReadingPlace",
    "Reason",
    "Regime",
    "Verdict",
    "VisitMoved",
    "WallCheck",
    "WallPromise",
    "bay_under",
    "bays_of",
    "check",
    "check_cloud",
    "held",
    "limit_text",
    "promises",
    "reading_places",
    "reason_in_words",
    "regime",
    "regimes",
    "together",
    "walls_unread",
    "with_standing",
    "within",
]
