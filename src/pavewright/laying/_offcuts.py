"""Cut pieces from as few units as can be found: offcuts used again, straight cuts right across only.

Every cut runs from edge to edge of what is left (guillotine). Pieces and units are grown by the width of the saw cut,
so that a plan without overlap leaves a saw cut between neighbours and none at the outer edge. Several orders and rules
are tried, always the same ones, and the plan with fewest units is kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from pavewright.laying._types import PlacedPart, SawnUnit

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

SLACK_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""

_MANY = 250
"""With more pieces than this only the best orders are tried, and only the newest offcuts are looked at."""
_NEWEST = 300
"""So many offcuts are looked at then, so that the work grows with the number of pieces and not with its square."""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece to be cut, as the box that it takes.

    Attributes:
        piece: Number of the piece.
        along_mm: Size along the unit's length. [mm]
        across_mm: Size across. [mm]
    """

    piece: int
    along_mm: float
    across_mm: float


@dataclass(slots=True)
class _Free:
    """What is left of a unit: a rectangle in grown sizes."""

    unit: int
    x: float
    y: float
    width: float
    height: float


_ORDERS: tuple[Callable[[Part], tuple[float, ...]], ...] = (
    lambda part: (-part.along_mm * part.across_mm, -max(part.along_mm, part.across_mm)),
    lambda part: (-max(part.along_mm, part.across_mm), -min(part.along_mm, part.across_mm)),
    lambda part: (-part.across_mm, -part.along_mm),
    lambda part: (-part.along_mm, -part.across_mm),
    lambda part: (-(part.along_mm + part.across_mm),),
)


def cut_from_units(
    parts: Sequence[Part], length_mm: float, width_mm: float, kerf_mm: float, *, may_turn: bool
) -> tuple[SawnUnit, ...]:
    """Return a cutting plan for parts from equal units.

    Args:
        parts: Boxes to cut, none larger than a unit.
        length_mm: Length of a unit. [mm]
        width_mm: Width of a unit. [mm]
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid.

    Valid for: straight cuts from edge to edge; every box is cut whole, so no triangle is nested into another.
    Source: definition; a construction with guillotine rectangles, not a proof of the fewest
    """
    if not parts:
        return ()
    orders = _ORDERS if len(parts) <= _MANY else _ORDERS[:2]
    best: tuple[SawnUnit, ...] | None = None
    for order, by_area, longer in product(orders, (True, False), (True, False)):
        in_turn = sorted(parts, key=lambda part: (*order(part), part.piece))
        found = _fill(
            in_turn, length_mm + kerf_mm, width_mm + kerf_mm, kerf_mm, may_turn=may_turn, by_area=by_area, longer=longer
        )
        if best is None or len(found) < len(best):
            best = found
    return best or ()


def _fill(
    parts: Sequence[Part],
    length: float,
    width: float,
    kerf: float,
    *,
    may_turn: bool,
    by_area: bool,
    longer: bool,
) -> tuple[SawnUnit, ...]:
    """Place parts one by one into the free rectangle that they fit best, or a new unit."""
    free: list[_Free] = []
    placed: list[list[PlacedPart]] = []
    for part in parts:
        grown = (
            (part.along_mm + kerf, part.across_mm + kerf, False),
            (part.across_mm + kerf, part.along_mm + kerf, True),
        )
        ways = grown if may_turn else grown[:1]
        first = max(0, len(free) - _NEWEST) if len(parts) > _MANY else 0
        found = _best_fit(free, ways, first, by_area=by_area)
        if found is None:
            placed.append([])
            free.append(_Free(len(placed) - 1, 0.0, 0.0, length, width))
            fitting = [way for way in ways if way[0] <= length + SLACK_MM and way[1] <= width + SLACK_MM]
            found = len(free) - 1, fitting[0]
        index, (wide, high, turned) = found
        rest = free.pop(index)
        placed[rest.unit].append(PlacedPart(part.piece, rest.x, rest.y, wide - kerf, high - kerf, turned))
        free.extend(_split(rest, wide, high, longer=longer))
    return tuple(SawnUnit(number, tuple(each)) for number, each in enumerate(placed, start=1))


def _best_fit(
    free: Sequence[_Free], ways: Sequence[tuple[float, float, bool]], first: int, *, by_area: bool
) -> tuple[int, tuple[float, float, bool]] | None:
    best: tuple[float, float, int, tuple[float, float, bool]] | None = None
    for index in range(first, len(free)):
        rest = free[index]
        for way in ways:
            over_x, over_y = rest.width - way[0], rest.height - way[1]
            if over_x < -SLACK_MM or over_y < -SLACK_MM:
                continue
            left_area = rest.width * rest.height - way[0] * way[1]
            score = (left_area, min(over_x, over_y)) if by_area else (min(over_x, over_y), left_area)
            if best is None or (*score, index) < best[:3]:
                best = (*score, index, way)
    return None if best is None else (best[2], best[3])


def _split(rest: _Free, wide: float, high: float, *, longer: bool) -> list[_Free]:
    """Return what is left of a free rectangle after a part from its corner, cut along its longer or shorter rest."""
    over_x, over_y = rest.width - wide, rest.height - high
    across_first = (over_x > over_y) == longer
    if across_first:
        pieces = (
            _Free(rest.unit, rest.x + wide, rest.y, over_x, rest.height),
            _Free(rest.unit, rest.x, rest.y + high, wide, over_y),
        )
    else:
        pieces = (
            _Free(rest.unit, rest.x + wide, rest.y, over_x, high),
            _Free(rest.unit, rest.x, rest.y + high, rest.width, over_y),
        )
    return [piece for piece in pieces if piece.width > SLACK_MM and piece.height > SLACK_MM]


def cutting_faults(
    sawn: Sequence[SawnUnit], parts: Sequence[Part], length_mm: float, width_mm: float, kerf_mm: float
) -> tuple[str, ...]:
    """Return what is wrong with a cutting plan, each as a sentence; empty when it can be sawn.

    Checks, without knowing how the plan was made, that every part is cut once and in its size, lies inside its unit,
    keeps a saw cut from its neighbours, and that straight cuts from edge to edge part the pieces.
    """
    faults: list[str] = []
    wanted = {part.piece: (part.along_mm, part.across_mm) for part in parts}
    seen = [placed.piece for unit in sawn for placed in unit.parts]
    if sorted(seen) != sorted(wanted):
        faults.append("Not every piece is cut exactly once.")
    for unit in sawn:
        for placed in unit.parts:
            size = (placed.across_mm, placed.along_mm) if placed.turned else (placed.along_mm, placed.across_mm)
            due = wanted.get(placed.piece, (0.0, 0.0))
            if max(abs(size[0] - due[0]), abs(size[1] - due[1])) > SLACK_MM:
                faults.append(f"Piece {placed.piece} is cut to the wrong size.")
            if (
                min(placed.x_mm, placed.y_mm) < -SLACK_MM
                or placed.x_mm + placed.along_mm > length_mm + SLACK_MM
                or placed.y_mm + placed.across_mm > width_mm + SLACK_MM
            ):
                faults.append(f"Piece {placed.piece} reaches over the edge of unit {unit.number}.")
        if not _can_be_sawn(unit.parts, kerf_mm):
            faults.append(f"Straight cuts do not part the pieces of unit {unit.number}.")
    return tuple(faults)


def _can_be_sawn(parts: Sequence[PlacedPart], kerf_mm: float) -> bool:
    """Return whether straight cuts from edge to edge, a saw wide, part all pieces: tried at the edge of every piece."""
    if len(parts) <= 1:
        return True
    for low, size in (("x_mm", "along_mm"), ("y_mm", "across_mm")):
        for part in parts:
            edge = getattr(part, low) + getattr(part, size)
            before = [each for each in parts if getattr(each, low) + getattr(each, size) <= edge + SLACK_MM]
            after = [each for each in parts if getattr(each, low) >= edge + kerf_mm - SLACK_MM]
            if after and len(before) + len(after) == len(parts):
                return _can_be_sawn(before, kerf_mm) and _can_be_sawn(after, kerf_mm)
    return False
