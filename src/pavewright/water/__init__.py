"""Water: where rain runs, how much of it, and whether it has somewhere to go.

Every drop follows the fall of its plane to the first edge, channel or gully that it meets; the paving is cut exactly
into what drains to each. Peak flow is area times design rain. Water that runs to a house, over a boundary or to
nowhere says stop.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water._codes import Code
    from pavewright.water._drain import drain
    from pavewright.water._figures import water_figures
    from pavewright.water._idle import share_of
    from pavewright.water._storm_run import (
        AreaStorm,
        StormOutlet,
        StormRefusedError,
        StormStudy,
        run_storm,
        storm_study,
    )
    from pavewright.water._sums import SUMS
    from pavewright.water._types import (
        Band,
        Catchment,
        DrainCheck,
        InletShare,
        PitRecord,
        SheetStorm,
        SoakawayCheck,
        StormShare,
        Water,
    )
    from pavewright.water._types_parts import (
        DrainKind,
        DrainParts,
        DrainState,
        PipeRun,
        PitSize,
        PitVerdict,
        SoakawayParts,
    )
    from pavewright.water._types_runs import DrainRun, RunCrossing, RunEnd, RunFall
    from pavewright.water._ways_idle import ways_to_connect, ways_to_drain
    from pavewright.water._words import ends_at, runs_to
    from pavewright.water.drains import pipe_bed_m3_per_m, soakaway_parts
    from pavewright.water.ground import CLAY, StoneNeed, stone_for
else:
    __getattr__ = face(__name__)

__all__ = [
    "CLAY",
    "SUMS",
    "AreaStorm",
    "Band",
    "Catchment",
    "Code",
    "DrainCheck",
    "DrainKind",
    "DrainParts",
    "DrainRun",
    "DrainState",
    "InletShare",
    "PipeRun",
    "PitRecord",
    "PitSize",
    "PitVerdict",
    "RunCrossing",
    "RunEnd",
    "RunFall",
    "SheetStorm",
    "SoakawayCheck",
    "SoakawayParts",
    "StoneNeed",
    "StormOutlet",
    "StormRefusedError",
    "StormShare",
    "StormStudy",
    "Water",
    "drain",
    "ends_at",
    "pipe_bed_m3_per_m",
    "run_storm",
    "runs_to",
    "share_of",
    "soakaway_parts",
    "stone_for",
    "storm_study",
    "water_figures",
    "ways_to_connect",
    "ways_to_drain",
]
