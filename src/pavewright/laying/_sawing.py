"""Cut pieces of an area to the saw, and what that says about the number of units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.laying._types import PieceKind
from pavewright.laying.cutting import Part, SawPlan, Stock, fewest_slabs, saw_plan
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._types import Piece
    from pavewright.rules import Figure

_FULL = 1e-6
"""Share of its box that a piece may lack and still count as a rectangle."""


def sawn_from_units(pieces: Sequence[Piece], unit: PavingUnit, kerf: Figure) -> tuple[SawPlan, int]:
    """Return the saw plan of the cut pieces, and the units that no way of cutting can do without, whole ones too.

    Only pieces that are rectangles count for those: two triangles might be nested into one box.
    """
    cut = [piece for piece in pieces if piece.kind is PieceKind.CUT]
    size = Stock(unit.length_mm, unit.width_mm)
    plan = saw_plan([_part(piece) for piece in cut], (size,), kerf.value, may_turn=not unit.riven, cover=False)
    full = [_part(piece) for piece in cut if _is_rectangle(piece)]
    whole = len(pieces) - len(cut)
    bound = plan.least_cost if len(full) == len(cut) else fewest_slabs(full, size, kerf.value, may_turn=not unit.riven)
    return plan, whole + bound


def _part(piece: Piece) -> Part:
    return Part(piece.number, piece.along_mm, piece.across_mm)


def _is_rectangle(piece: Piece) -> bool:
    box = units.mm2_to_m2(piece.along_mm * piece.across_mm)
    return piece.area_m2 >= box * (1.0 - _FULL)


def bound_working(needed: int, bound: int, cut: int) -> Working:
    """Return how far the number of units may still be from the fewest."""
    units_needed = f"{needed} unit{'s' if needed > 1 else ''}"
    words = "fewer is impossible" if needed == bound else f"fewer than {bound} is impossible"
    return Working(
        f"{units_needed}; {words}",
        needed - bound,
        "units",
        (),
        "saw plan less the bound by dual-feasible functions and by area" if cut else "no unit is cut",
    )
