"""Water: where rain runs, how much of it, and whether it has somewhere to go.

Every drop follows the fall of its plane to the first edge, channel or gully that it meets; the paving is cut exactly
into what drains to each. Peak flow is area times design rain. Water that runs to a house, over a boundary or to
nowhere says stop.
"""

from pavewright.water._drain import drain
from pavewright.water._sums import SUMS
from pavewright.water._types import (
    Catchment,
    SoakawayCheck,
    Water,
)

__all__ = [
    "SUMS",
    "Catchment",
    "SoakawayCheck",
    "Water",
    "drain",
]
