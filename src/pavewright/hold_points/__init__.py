"""Hold points: where work stops until somebody has looked, and what was read there says of going on.

Formation, each layer, drains before they are covered, the first row and the bed: every reading passes, fails, or is too
near to its limit to decide. What lies too low or too high is told at once as m³, goods, hours, money and days, by the
rates of the plan itself. A hold point that nobody read is open; it is never taken for good.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.hold_points._drains import DrainRead, DrainStanding
    from pavewright.hold_points._holds import Made, hold_points
    from pavewright.hold_points._limits import off_limit
    from pavewright.hold_points._sums_holds import SUMS
    from pavewright.hold_points._types import (
        Consequence,
        FindRate,
        GoodsNeeded,
        GoodsRate,
        Hold,
        HoldKey,
        HoldLimit,
        HoldPlace,
        HoldPoints,
        PlaceRead,
        TakeUp,
        TakeUpRate,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Consequence",
    "DrainRead",
    "DrainStanding",
    "FindRate",
    "GoodsNeeded",
    "GoodsRate",
    "Hold",
    "HoldKey",
    "HoldLimit",
    "HoldPlace",
    "HoldPoints",
    "Made",
    "PlaceRead",
    "TakeUp",
    "TakeUpRate",
    "hold_points",
    "off_limit",
]
