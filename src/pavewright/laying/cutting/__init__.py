"""Cutting: cut pieces from as few slabs as can be found, and the fewest that could be thought of.

Every cut runs right across the piece of stone on the bench, a saw wide. Pieces are laid out on slabs so that offcuts
are used again; slabs that are badly used are taken apart and laid out anew, many times over and the same way on every
run. A bound says how many slabs no plan can do without, every plan is checked before it is handed out, and each slab
comes with its cuts in the order in which they are made.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.cutting._check import check_saw_plan
    from pavewright.laying.cutting._grid import PartTooLargeError
    from pavewright.laying.cutting._left_overs import left_overs_of
    from pavewright.laying.cutting._plan import factory_edge_cost, fewest_slabs, saw_plan
    from pavewright.laying.cutting._types import (
        FAR,
        LEFT,
        NEAR,
        RIGHT,
        PairedPieces,
        Part,
        PlacedPart,
        SawCut,
        SawnUnit,
        SawPlan,
        Stock,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "FAR",
    "LEFT",
    "NEAR",
    "RIGHT",
    "PairedPieces",
    "Part",
    "PartTooLargeError",
    "PlacedPart",
    "SawCut",
    "SawPlan",
    "SawnUnit",
    "Stock",
    "check_saw_plan",
    "factory_edge_cost",
    "fewest_slabs",
    "left_overs_of",
    "saw_plan",
]
