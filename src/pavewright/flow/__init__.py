"""Flow: where rain runs over any surface, where it stands, and how a storm comes down.

The paving is cut into small square cells with a level each. Filling it from its drains and free edges shows every
puddle; the steepest way off each cell shows which drain takes what; and a storm, let run over it step by step, shows
films, flows and how soon it is clear. It takes any surface, planned or as found, and knows nothing of rules.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.flow._catchments import Catchments, catchments
    from pavewright.flow._fill import Filled, Puddle, fill, standing_l, stands
    from pavewright.flow._grid import Grid, rasterise, with_exit_line, with_exit_polygon
    from pavewright.flow._storm import Storm, storm
    from pavewright.flow._storm_bytes import storm_bytes, storm_read
    from pavewright.flow._sums_flow import SUMS
    from pavewright.flow._trace import Path, trace
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Catchments",
    "Filled",
    "Grid",
    "Path",
    "Puddle",
    "Storm",
    "catchments",
    "fill",
    "rasterise",
    "standing_l",
    "stands",
    "storm",
    "storm_bytes",
    "storm_read",
    "trace",
    "with_exit_line",
    "with_exit_polygon",
]
