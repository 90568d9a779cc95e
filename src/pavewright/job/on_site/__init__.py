"""On site: what is written down while the work goes on, from the tools at hand to the last reading.

Each part is a list of items with names of their own, so that what two phones wrote is merged. What is left out is not
known: it is never zero.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.on_site._as_laid import (
        AsLaid,
        AsLaidReading,
        FixedMark,
        GapMeans,
        JointFill,
        JointRead,
        LaterReading,
        LaterVisit,
        LipMeans,
        LipRead,
        StraightedgeGap,
    )
    from pavewright.job.on_site._days import (
        BayDone,
        DayWeather,
        MixedBatch,
        PersonOnSite,
        SiteDay,
        SkyKind,
        StopKind,
        TaskHours,
        WasteKind,
        WasteTicket,
        WorkStage,
        WorkStop,
    )
    from pavewright.job.on_site._holds import (
        DigFound,
        DrainTest,
        DrainTestKind,
        FoundCorner,
        FoundKind,
        HoldCheck,
        HoldCheckKind,
        HoldLayer,
        HoldReading,
    )
    from pavewright.job.on_site._hose import DrainMark, HoseMark, HoseTest
    from pavewright.job.on_site._photo import (
        PhoneSlope,
        PhotoMark,
        PhotoPlane,
        PhotoPlaneKind,
        PhotoThing,
        SlopePair,
        SlopeTool,
    )
    from pavewright.job.on_site._snags import Snag, SnagKind, SnagState
    from pavewright.job.on_site._tools import (
        InstrumentSetUp,
        LevelTool,
        SquareTool,
        StringAsSet,
        TapeClass,
        ToolsAtHand,
    )
    from pavewright.job.on_site._units_read import (
        BagsUsed,
        CornerName,
        CornerRead,
        CornerWay,
        Rocks,
        UnitRead,
        UnitState,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "AsLaid",
    "AsLaidReading",
    "BagsUsed",
    "BayDone",
    "CornerName",
    "CornerRead",
    "CornerWay",
    "DayWeather",
    "DigFound",
    "DrainMark",
    "DrainTest",
    "DrainTestKind",
    "FixedMark",
    "FoundCorner",
    "FoundKind",
    "GapMeans",
    "HoldCheck",
    "HoldCheckKind",
    "HoldLayer",
    "HoldReading",
    "HoseMark",
    "HoseTest",
    "InstrumentSetUp",
    "JointFill",
    "JointRead",
    "LaterReading",
    "LaterVisit",
    "LevelTool",
    "LipMeans",
    "LipRead",
    "MixedBatch",
    "PersonOnSite",
    "PhoneSlope",
    "PhotoMark",
    "PhotoPlane",
    "PhotoPlaneKind",
    "PhotoThing",
    "Rocks",
    "SiteDay",
    "SkyKind",
    "SlopePair",
    "SlopeTool",
    "Snag",
    "SnagKind",
    "SnagState",
    "SquareTool",
    "StopKind",
    "StraightedgeGap",
    "StringAsSet",
    "TapeClass",
    "TaskHours",
    "ToolsAtHand",
    "UnitRead",
    "UnitState",
    "WasteKind",
    "WasteTicket",
    "WorkStage",
    "WorkStop",
]
