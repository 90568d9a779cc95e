"""Levels: how high the finished paving lies everywhere, so that it sheds water and keeps clear of the house.

Each area is one plane, or is folded into planes that meet. It falls as asked, or away from the house; it lies as high
as the damp-proof course, air bricks and doors allow, and meets covers, existing edges and its neighbours. Where these
clash the room shows the chain of levels in millimetres and the options, cheapest first. Steps get equal risers.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels._drained import drained_grid, drained_surface
    from pavewright.levels._formulas import clearance_mm
    from pavewright.levels._levels import finished_levels
    from pavewright.levels._spot_types import SpotKind, SpotLevel
    from pavewright.levels._sums import SUMS
    from pavewright.levels._types import (
        DoorStep,
        Draining,
        FinishedArea,
        FoldOption,
        FoldStudy,
        Levels,
        Steps,
        WallClearance,
    )
    from pavewright.levels.design import can_lead_to
    from pavewright.levels.edges import (
        NO_DRAIN,
        THEIRS,
        DrainedSurface,
        Taker,
        TakerKind,
        past_edge,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "NO_DRAIN",
    "SUMS",
    "THEIRS",
    "DoorStep",
    "DrainedSurface",
    "Draining",
    "FinishedArea",
    "FoldOption",
    "FoldStudy",
    "Levels",
    "SpotKind",
    "SpotLevel",
    "Steps",
    "Taker",
    "TakerKind",
    "WallClearance",
    "can_lead_to",
    "clearance_mm",
    "drained_grid",
    "drained_surface",
    "finished_levels",
    "past_edge",
]
