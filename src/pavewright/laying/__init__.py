"""Laying: every unit of a paved area with its place, its cut and its number.

Units are laid in a pattern at any angle from a starting corner, with or without a border round the outline. They are
clipped to the true outline and round everything that stands in it. Pieces are numbered outward from that corner, course
by course. Cut pieces are cut from as few units as a search finds, offcuts used again, straight cuts right across;
beside them stands the fewest possible. Packs of mixed sizes are laid at random to rules, also when part
of them lies already. The search for the best starts shows other ways to begin and what each saves.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying._before import LaidBefore
    from pavewright.laying._lay import lay
    from pavewright.laying._quick import QuickCounts, quick_counts
    from pavewright.laying._sums import SUMS
    from pavewright.laying._types import LaidArea, LayingPlan, Piece, PieceKind, UnitCount
    from pavewright.laying._types_parts import FoldCuts, LaidMixed, LaidZone, MovementJoints, UnderSteps
    from pavewright.laying._types_sheets import GaugeMark, Ordinate, RunGrowth, Template
    from pavewright.laying.cutting import Part, PlacedPart, SawCut, SawnUnit
    from pavewright.laying.mixed import MixLook
    from pavewright.laying.search import joints_to_try
    from pavewright.laying.sheets import (
        MixOffer,
        SawSetUp,
        SetUpCut,
        SetUpKind,
        curve_in_its_box,
        has_curve,
        is_skew,
        mixes,
        saw_set_ups,
        settings_unit_by_unit,
        template_of,
        wants_template,
    )
    from pavewright.laying.starts import AreaStarts, Choice, MovedCircle, MovedEdge, best_starts, counted_start
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "AreaStarts",
    "Choice",
    "FoldCuts",
    "GaugeMark",
    "LaidArea",
    "LaidBefore",
    "LaidMixed",
    "LaidZone",
    "LayingPlan",
    "MixLook",
    "MixOffer",
    "MovedCircle",
    "MovedEdge",
    "MovementJoints",
    "Ordinate",
    "Part",
    "Piece",
    "PieceKind",
    "PlacedPart",
    "QuickCounts",
    "RunGrowth",
    "SawCut",
    "SawSetUp",
    "SawnUnit",
    "SetUpCut",
    "SetUpKind",
    "Template",
    "UnderSteps",
    "UnitCount",
    "best_starts",
    "counted_start",
    "curve_in_its_box",
    "has_curve",
    "is_skew",
    "joints_to_try",
    "lay",
    "mixes",
    "quick_counts",
    "saw_set_ups",
    "settings_unit_by_unit",
    "template_of",
    "wants_template",
]
