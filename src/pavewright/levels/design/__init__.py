"""Design: the planes that keep every limit, and as few limits given up as can be where none do."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.design._arrangements import (
        Arrangement,
        crossed_valley,
        mitres,
        one_plane,
        ridge,
        stepped,
        to_gully,
        valley,
    )
    from pavewright.levels.design._bounds import Bound, bounds, meet
    from pavewright.levels.design._design import Designed, Earth, Task, design, samples
    from pavewright.levels.design._facet_rows import DRAINS, JOIN, LEAST, STEEPEST, STEP, VALLEY, FallRange, group_of
    from pavewright.levels.design._falls import Falls, choose_falls
    from pavewright.levels.design._giving import by_tenths, edge_relaid, fall_of, fold_as, rule_given, thing_given
    from pavewright.levels.design._height import Height, place
    from pavewright.levels.design._repairs import Change, ChangePrice, Repair, clashing, kind_of, reach, repairs
    from pavewright.levels.design._rounding import rounding_findings
else:
    __getattr__ = face(__name__)

__all__ = [
    "DRAINS",
    "JOIN",
    "LEAST",
    "STEEPEST",
    "STEP",
    "VALLEY",
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
    "Task",
    "bounds",
    "by_tenths",
    "choose_falls",
    "clashing",
    "crossed_valley",
    "design",
    "edge_relaid",
    "fall_of",
    "fold_as",
    "group_of",
    "kind_of",
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
