"""Design: the planes that keep every limit, and as few limits given up as can be where none do."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.design._arrangements import (
        Arrangement,
        can_lead_to,
        crossed_valley,
        mitres,
        one_plane,
        ridge,
        stepped,
        to_gully,
        valley,
    )
    from pavewright.levels.design._bounds import Bound, bounds, door_path, meet
    from pavewright.levels.design._design import Designed, Earth, Task, design, samples
    from pavewright.levels.design._facet_rows import FallRange
    from pavewright.levels.design._falls import Falls, choose_falls
    from pavewright.levels.design._giving import by_tenths, edge_relaid, fall_of, fold_as, rule_given, thing_given
    from pavewright.levels.design._height import Height, place
    from pavewright.levels.design._repairs import Change, ChangePrice, Repair, clashing, reach, repairs
    from pavewright.levels.design._rounding import rounding_findings
    from pavewright.levels.design._rule import (
        DRAINS,
        FACETS_MEET,
        FRAMES,
        MIN_FALL,
        ONE_RISER,
        STEEPEST,
        VALLEY_FALL,
        Rule,
        RuleKind,
    )
    from pavewright.levels.design._words import fold_in_another_way
else:
    __getattr__ = face(__name__)

__all__ = [
    "DRAINS",
    "FACETS_MEET",
    "FRAMES",
    "MIN_FALL",
    "ONE_RISER",
    "STEEPEST",
    "VALLEY_FALL",
    "Arrangement",
    "Bound",
    "Change",
    "ChangePrice",
    "Designed",
    "Earth",
    "FallRange",
    "Falls",
    "Height",
    "Repair",
    "Rule",
    "RuleKind",
    "Task",
    "bounds",
    "by_tenths",
    "can_lead_to",
    "choose_falls",
    "clashing",
    "crossed_valley",
    "design",
    "door_path",
    "edge_relaid",
    "fall_of",
    "fold_as",
    "fold_in_another_way",
    "meet",
    "mitres",
    "one_plane",
    "place",
    "reach",
    "repairs",
    "ridge",
    "rounding_findings",
    "rule_given",
    "samples",
    "stepped",
    "thing_given",
    "to_gully",
    "valley",
]
