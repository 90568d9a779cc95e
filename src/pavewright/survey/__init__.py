"""Survey: from tapes and staff readings to points that can be trusted.

Level books are reduced both ways, checked and closed; the tape plan is laid down from its base line and, where
there are spare tapes, made to agree; every wall, cover, gully, tree and area is put at its place. A slip is reported
with the tape or the row that it sits in and what to measure again. What could not be seen becomes a sentence for the
quotation.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey._assumed_words import assumed_name, assumed_names
    from pavewright.survey._sums import SUMS
    from pavewright.survey._survey import survey, survey_so_far
    from pavewright.survey._types import (
        PlacedBy,
        PlacedCover,
        PlacedGully,
        PlacedObstacle,
        PlacedService,
        PlacedTree,
        PlanAirBrick,
        PlanArea,
        PlanBoundary,
        PlanChannel,
        PlanOpening,
        PlanTieIn,
        PlanWall,
        SitePlan,
        Survey,
        SurveyedPoint,
    )
    from pavewright.survey._types_channels import ChannelCut, taken_of
    from pavewright.survey._types_known import AssumedFact, AssumedWhat, LevelNotRead, NotRead, SurveyFaults
    from pavewright.survey._types_levels import (
        ArithmeticCheck,
        LevelledBy,
        LevelReading,
        LevelSource,
        LevelsTogether,
        ReducedLevelBook,
        ReducedRow,
    )
    from pavewright.survey._types_shape import ShapeSoFar, SideBy, SideTaken, SketchedPlace, UnplacedPoint
    from pavewright.survey._types_tapes import (
        AdjustedTapes,
        ErrorEllipse,
        NextTape,
        ShapeKind,
        ShapeResidual,
        SuspectTape,
        TapeGain,
        TapeResidual,
    )
    from pavewright.survey._walk_round import WALK_QUESTIONS, WalkQuestion
    from pavewright.survey.edges import ArcFaultError, outline_ring
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "WALK_QUESTIONS",
    "AdjustedTapes",
    "ArcFaultError",
    "ArithmeticCheck",
    "AssumedFact",
    "AssumedWhat",
    "ChannelCut",
    "ErrorEllipse",
    "LevelNotRead",
    "LevelReading",
    "LevelSource",
    "LevelledBy",
    "LevelsTogether",
    "NextTape",
    "NotRead",
    "PlacedBy",
    "PlacedCover",
    "PlacedGully",
    "PlacedObstacle",
    "PlacedService",
    "PlacedTree",
    "PlanAirBrick",
    "PlanArea",
    "PlanBoundary",
    "PlanChannel",
    "PlanOpening",
    "PlanTieIn",
    "PlanWall",
    "ReducedLevelBook",
    "ReducedRow",
    "ShapeKind",
    "ShapeResidual",
    "ShapeSoFar",
    "SideBy",
    "SideTaken",
    "SitePlan",
    "SketchedPlace",
    "Survey",
    "SurveyFaults",
    "SurveyedPoint",
    "SuspectTape",
    "TapeGain",
    "TapeResidual",
    "UnplacedPoint",
    "WalkQuestion",
    "assumed_name",
    "assumed_names",
    "outline_ring",
    "survey",
    "survey_so_far",
    "taken_of",
]
