"""Job: the document in which everything about one job is written down.

It holds who and where, what was measured, what stands on the site, what is to be paved with what, the ground, the
prices, the crew and, later, the levels as laid. A document is read once; everything that is wrong with it is told
together, each fault with its place in the document and a sentence that says what to measure or write again.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job._base import LevelOrPoint
    from pavewright.job._caps import heaviest
    from pavewright.job._changes import changed
    from pavewright.job._document import CURRENT_VERSION, FORMAT, Job
    from pavewright.job._drains import (
        Channel,
        Gully,
        GullyState,
        Outfall,
        OutfallKind,
        PitFill,
        PitTest,
        Rain,
        RainDepth,
        Soakaway,
    )
    from pavewright.job._edges import EdgeRestraint, EdgeSide
    from pavewright.job._faults import Fault, JobInvalid
    from pavewright.job._ground import Ground, Soil, Stratum
    from pavewright.job._measured import (
        Benchmark,
        BreakLine,
        GivenPoint,
        GroundGap,
        HeightMeans,
        HeightOver,
        LevelBook,
        LevelBookRow,
        Measurements,
        MisclosureRule,
        OffsetPoint,
        PointOnLine,
        SquareCorner,
        Tape,
        TapePlan,
        TapeSide,
    )
    from pavewright.job._mixed_pack import LaidSoFar, MixedPack
    from pavewright.job._pattern_traits import Pattern, PatternTraits, Taken, Through
    from pavewright.job._paving import (
        Area,
        Bedding,
        Border,
        BorderCorner,
        BorderKind,
        FallWish,
        Folding,
        Laying,
        OutlineCorner,
        Position,
        StartCorner,
        StepFlight,
        Use,
        Zone,
    )
    from pavewright.job._paving_units import PavingUnit
    from pavewright.job._read import load_document, parse, schema, to_text
    from pavewright.job._site import (
        AirBrick,
        Beyond,
        Boundary,
        Cover,
        Obstacle,
        Opening,
        Service,
        Site,
        TieIn,
        Tree,
        WalkRoundAnswer,
        Wall,
        WallKind,
    )
    from pavewright.job._strict_json import NotJobJsonError, strict_json
    from pavewright.job._trade import (
        AsLaid,
        AsLaidReading,
        Calendar,
        ChangePrice,
        Crew,
        Disposal,
        Identity,
        Material,
        MaterialKind,
        PlantHire,
        PlantKind,
        Rates,
        ToleranceRegime,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "CURRENT_VERSION",
    "FORMAT",
    "AirBrick",
    "Area",
    "AsLaid",
    "AsLaidReading",
    "Bedding",
    "Benchmark",
    "Beyond",
    "Border",
    "BorderCorner",
    "BorderKind",
    "Boundary",
    "BreakLine",
    "Calendar",
    "ChangePrice",
    "Channel",
    "Cover",
    "Crew",
    "Disposal",
    "EdgeRestraint",
    "EdgeSide",
    "FallWish",
    "Fault",
    "Folding",
    "GivenPoint",
    "Ground",
    "GroundGap",
    "Gully",
    "GullyState",
    "HeightMeans",
    "HeightOver",
    "Identity",
    "Job",
    "JobInvalid",
    "LaidSoFar",
    "Laying",
    "LevelBook",
    "LevelBookRow",
    "LevelOrPoint",
    "Material",
    "MaterialKind",
    "Measurements",
    "MisclosureRule",
    "MixedPack",
    "NotJobJsonError",
    "Obstacle",
    "OffsetPoint",
    "Opening",
    "Outfall",
    "OutfallKind",
    "OutlineCorner",
    "Pattern",
    "PatternTraits",
    "PavingUnit",
    "PitFill",
    "PitTest",
    "PlantHire",
    "PlantKind",
    "PointOnLine",
    "Position",
    "Rain",
    "RainDepth",
    "Rates",
    "Service",
    "Site",
    "Soakaway",
    "Soil",
    "SquareCorner",
    "StartCorner",
    "StepFlight",
    "Stratum",
    "Taken",
    "Tape",
    "TapePlan",
    "TapeSide",
    "Through",
    "TieIn",
    "ToleranceRegime",
    "Tree",
    "Use",
    "WalkRoundAnswer",
    "Wall",
    "WallKind",
    "Zone",
    "changed",
    "heaviest",
    "load_document",
    "parse",
    "schema",
    "strict_json",
    "to_text",
]
