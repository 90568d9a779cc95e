"""What lies in the yard: left-overs of earlier areas, and of earlier jobs, from which parts may be cut."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.laying.cutting import Part, PartTooLargeError, SawnUnit, SawPlan, Stock, left_overs_of, saw_plan

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from pavewright.job import Job
    from pavewright.laying.yard._stones import Stones

_MAX_TRIED = 12
"""So many left-overs that were taken are tried without, for the chance that fewer do."""


@dataclass(frozen=True, slots=True)
class LeftOver:
    """A rectangle of stone that is left.

    Attributes:
        unit: Name of the paving unit that it was.
        along_mm: Size along the length of that unit. [mm]
        across_mm: Size across. [mm]
        of: From where, in words.
    """

    unit: str
    along_mm: float
    across_mm: float
    of: str


def yard_of(job: Job) -> list[LeftOver]:
    """Return what the job document says lies in the yard."""
    return [
        LeftOver(unit.name, each.along_mm, each.across_mm, "the yard")
        for unit in job.units
        for each in unit.in_yard
        for _ in range(each.count)
    ]


def sawn_with_yard(
    plan: SawPlan, parts: Sequence[Part], stones: Stones, yard: Sequence[LeftOver], kerf_mm: float
) -> tuple[SawPlan, tuple[LeftOver, ...]]:
    """Return a saw plan that cuts some parts from left-overs where that saves a unit, and the left-overs it takes.

    The largest parts go first, each into the smallest left-over that holds it. A left-over that saves nothing is put
    back. Parts that keep factory edges are not cut from left-overs. What the parts of one left-over take would go into
    one new unit of its size, so that no plan can be below the bound without left-overs less what those cost.

    Args:
        plan: The saw plan without left-overs.
        parts: Pieces to cut.
        stones: The sizes that they are cut from.
        yard: Left-overs of those that hold a part.
        kerf_mm: Width of the saw cut. [mm]
    """
    plan = replace(plan, min_cost=max(plan.min_cost - sum(stones.cost_of(left.unit) for left in yard), 0))
    taken = _fitted(parts, yard, kerf_mm, may_turn=not stones.units[0].keeps_direction)

    def rest_of(used: dict[int, tuple[LeftOver, SawnUnit]]) -> SawPlan:
        return stones.sawn([part for part in parts if part.piece not in used], kerf_mm)

    found = rest_of(taken)
    if found.cost >= plan.cost:
        return plan, ()
    for piece in sorted(taken, key=lambda each: taken[each][0].along_mm * taken[each][0].across_mm)[:_MAX_TRIED]:
        fewer = {each: how for each, how in taken.items() if each != piece}
        again = rest_of(fewer)
        if again.cost <= found.cost:
            taken, found = fewer, again
    sawn = (*found.sawn, *(one for _, one in taken.values()))
    return SawPlan(sawn, found.cost, plan.min_cost), tuple(left for left, _ in taken.values())


def useful(yard: Sequence[LeftOver], names: Collection[str], parts: Sequence[Part]) -> list[LeftOver]:
    """Return the left-overs of some units that hold the box of some part, one way or a quarter turned."""
    sides = [sorted((part.along_mm, part.across_mm)) for part in parts]
    return [
        left
        for left in yard
        if left.unit in names
        and any(
            shorter <= min(left.along_mm, left.across_mm) + _TENTH_MM
            and longer <= max(left.along_mm, left.across_mm) + _TENTH_MM
            for shorter, longer in sides
        )
    ]


_TENTH_MM = 0.1
"""A part may be as much larger than its left-over: no saw can tell. [mm]"""


def _fitted(
    parts: Sequence[Part], yard: Sequence[LeftOver], kerf_mm: float, *, may_turn: bool
) -> dict[int, tuple[LeftOver, SawnUnit]]:
    """Return parts with the left-overs that hold them, and how each is cut out of its own."""
    waiting = sorted(yard, key=lambda left: (left.along_mm * left.across_mm, left.of))
    found: dict[int, tuple[LeftOver, SawnUnit]] = {}
    for part in sorted(parts, key=lambda each: (-each.along_mm * each.across_mm, each.piece)):
        if part.factory_sides:
            continue
        for left in waiting:
            stock = Stock(left.along_mm, left.across_mm)
            try:
                alone = saw_plan([part], (stock,), kerf_mm, may_turn=may_turn, rounds=1, cover=False)
            except PartTooLargeError:
                continue
            waiting.remove(left)
            found[part.piece] = left, replace(alone.sawn[0], left_over_of=left.of, unit=left.unit)
            break
    return found


def put_by(
    yard: list[LeftOver],
    used: Sequence[LeftOver],
    sawn: Sequence[SawnUnit],
    where: str,
    kerf_mm: float,
    min_mm: float,
) -> tuple[LeftOver, ...]:
    """Take from the yard what was used and put by what is left of the units sawn; return what was put by."""
    for left in used:
        yard.remove(left)
    more = [
        LeftOver(one.unit, x2 - x1, y2 - y1, where)
        for one in sawn
        for x1, y1, x2, y2 in left_overs_of(one, kerf_mm, min_mm)
    ]
    yard += more
    return tuple(more)


def still_there(kept: Sequence[LeftOver], yard: list[LeftOver]) -> tuple[LeftOver, ...]:
    """Return which of what an area put by is still in the yard, and take it out."""
    found = []
    for left in kept:
        if left in yard:
            yard.remove(left)
            found.append(left)
    return tuple(found)
