"""A saw plan for parts from slabs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.laying.cutting._bound import least_cost, least_slabs
from pavewright.laying.cutting._check import check_saw_plan
from pavewright.laying.cutting._grid import task_of, units_of
from pavewright.laying.cutting._search import found_plan, rounds_for
from pavewright.laying.cutting._types import SawPlan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._types import Part, Stock


def saw_plan(
    parts: Sequence[Part],
    sizes: Sequence[Stock],
    kerf_mm: float,
    *,
    may_turn: bool,
    rounds: int | None = None,
    cover: bool = True,
) -> SawPlan:
    """Return a saw plan for parts from slabs, with a cost that no plan can be below.

    Args:
        parts: Boxes to cut.
        sizes: Sizes of slab that there are.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid; half a turn is always allowed.
        rounds: Rounds of the search; by the number of parts where none are told.
        cover: Whether to choose again among all ways of cutting a slab that were met.

    Valid for: straight cuts right across (guillotine), in any number of stages; every box is cut whole.
    Source: definition; a search, proved only where the cost meets the bound

    Raises:
        PartTooLargeError: a part fits no size, or not with its factory edges.
        RuntimeError: the plan fails its check, which is a fault of the program.
    """
    if not parts:
        return SawPlan((), 0, 0)
    task = task_of(parts, sizes, kerf_mm, may_turn=may_turn)
    bound = least_cost(task)
    found = found_plan(task, rounds_for(len(parts)) if rounds is None else rounds, bound, cover=cover)
    sawn = units_of(task, found.plan, found.slabs)
    faults = check_saw_plan(sawn, parts, sizes, kerf_mm, may_turn=may_turn)
    if faults:
        raise RuntimeError(" ".join(faults))
    return SawPlan(sawn, found.cost, bound)


def fewest_slabs(parts: Sequence[Part], size: Stock, kerf_mm: float, *, may_turn: bool) -> int:
    """Return a number of slabs that no plan for the parts can be below, whatever the cuts.

    Args:
        parts: Boxes that must come out whole.
        size: The size of slab.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid.

    Source: fekete_schepers_2004, dual feasible functions
    """
    return least_slabs(task_of(parts, (size,), kerf_mm, may_turn=may_turn)) if parts else 0
