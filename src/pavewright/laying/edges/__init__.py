"""Edges: zones of their own, folds, movement joints and the foot of a flight, where the field of units ends."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.edges._fold_cuts import cuts_along_folds, fold_findings
    from pavewright.laying.edges._movement import movement_findings, movement_joints, with_edges
    from pavewright.laying.edges._under_steps import clear_of_steps, steps_findings
    from pavewright.laying.edges._zones import Part, parts_of, with_zones
else:
    __getattr__ = face(__name__)

__all__ = [
    "Part",
    "clear_of_steps",
    "cuts_along_folds",
    "fold_findings",
    "movement_findings",
    "movement_joints",
    "parts_of",
    "steps_findings",
    "with_edges",
    "with_zones",
]
