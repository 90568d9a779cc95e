"""Cut pieces of an area to the saw, and what that says about the number of units."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely
from shapely import affinity

from pavewright import units
from pavewright.laying._types import PieceKind
from pavewright.laying.cutting import Part, SawPlan, Stock, saw_plan
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._frame import Frame
    from pavewright.laying._types import Piece
    from pavewright.rules import Figure

_FULL = 1e-6
"""Share of its box that a piece may lack and still count as a rectangle."""


def sawn_from_units(pieces: Sequence[Piece], unit: PavingUnit, kerf: Figure, frame: Frame) -> tuple[SawPlan, int]:
    """Return the saw plan of the cut pieces, and the units that no way of cutting can do without, whole ones too.

    Pieces that are no rectangles count for those with a box inside them: two triangles may be nested into one box.

    Args:
        pieces: All pieces of an area.
        unit: What they are cut from.
        kerf: Width of the saw cut.
        frame: The frame of the courses.
    """
    cut = [piece for piece in pieces if piece.kind is PieceKind.CUT]
    size = Stock(unit.length_mm, unit.width_mm)
    parts = [_part(piece, frame) for piece in cut]
    plan = saw_plan(parts, (size,), kerf.value, may_turn=not unit.riven, cover=False)
    return plan, len(pieces) - len(cut) + plan.least_cost


def _part(piece: Piece, frame: Frame) -> Part:
    """Return a piece as a part, with its outline from the corner of its box where it does not fill that.

    The corners of holes follow its own, so that it counts as one with inner corners: it is neither paired nor sure to
    keep what is in its hole.
    """
    box = units.mm2_to_m2(piece.along_mm * piece.across_mm)
    if piece.area_m2 >= box * (1.0 - _FULL):
        return Part(piece.number, piece.along_mm, piece.across_mm)
    in_frame = frame.into(piece.shape.polygon)
    on_unit = affinity.rotate(in_frame, -piece.turn_deg, origin=(0.0, 0.0))
    points = shapely.get_coordinates(on_unit)[:-1]
    from_corner = (points - points.min(axis=0)).round(6)
    return Part(
        piece.number, piece.along_mm, piece.across_mm, outline=tuple((float(x), float(y)) for x, y in from_corner)
    )


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
