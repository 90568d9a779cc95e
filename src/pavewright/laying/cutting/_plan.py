"""A saw plan for parts from slabs."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.cutting._bound import min_cost, min_slabs
from pavewright.laying.cutting._check import check_saw_plan
from pavewright.laying.cutting._columns import min_cost_of_sizes
from pavewright.laying.cutting._grid import task_of, units_of
from pavewright.laying.cutting._inner_box import inner_box
from pavewright.laying.cutting._pairs import pairs_of
from pavewright.laying.cutting._search import found_plan, rounds_for
from pavewright.laying.cutting._subsets import MAX_PARTS, fewest_by_subsets
from pavewright.laying.cutting._types import SawPlan
from pavewright.laying.cutting._unpaired import told_as_pieces

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying.cutting._types import Part, Point, Stock


_KEPT = 64
_MAX_BY_COLUMNS = 150
"""Parts of a job whose bound is sought by column generation too."""
_AGAIN = 2
"""Times as many rounds for a small job whose plan is not proved."""


def saw_plan(
    parts: Sequence[Part],
    sizes: Sequence[Stock],
    kerf_mm: float,
    *,
    may_turn: bool,
    rounds: int | None = None,
    cover: bool = True,
    prove: bool = True,
) -> SawPlan:
    """Return a saw plan for parts from slabs, with a cost that no plan can be below.

    Args:
        parts: Pieces to cut; two with outlines may share a box, head to tail.
        sizes: Sizes of slab that there are.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid; half a turn is always allowed.
        rounds: Rounds of the search; by the number of parts where none are given.
        cover: Whether to choose again among all ways of cutting a slab that were met.
        prove: Whether to spend a second or so on a better bound where the plan does not meet the first.

    Valid for: straight cuts right across (guillotine), in any number of stages.
    Source: definition; a search, proved only where the cost meets the bound

    Raises:
        PartTooLargeError: a part fits no size, or not with its factory edges.
        RuntimeError: the plan fails its check, which is a fault of the program.
    """
    return _saw_plan(tuple(parts), tuple(sizes), kerf_mm, rounds, may_turn=may_turn, cover=cover, prove=prove)


@lru_cache(maxsize=_KEPT)
def _saw_plan(
    parts: tuple[Part, ...],
    sizes: tuple[Stock, ...],
    kerf_mm: float,
    rounds: int | None,
    *,
    may_turn: bool,
    cover: bool,
    prove: bool,
) -> SawPlan:
    """Return a saw plan; those made last are kept: most areas of a job are as they were when it is planned again."""
    if not parts:
        return SawPlan((), 0, 0)
    skew = any(part.outline for part in parts)
    found = _boxes_cut(parts, sizes, kerf_mm, rounds, may_turn=may_turn, cover=cover)
    least = _least(parts, sizes, kerf_mm, may_turn=may_turn) if skew else found.min_cost
    sawn, cost = found.sawn, found.cost
    pairs = {} if cost <= least else {p.first.piece: p for p in pairs_of(parts, sizes, kerf_mm, may_turn=may_turn)}
    if pairs:
        nested = {pair.second.piece for pair in pairs.values()}
        boxes = [pairs[part.piece].box if part.piece in pairs else part for part in parts if part.piece not in nested]
        paired = _boxes_cut(boxes, sizes, kerf_mm, rounds, may_turn=may_turn, cover=cover)
        if paired.cost < cost:
            sawn, cost = tuple(told_as_pieces(unit, pairs) for unit in paired.sawn), paired.cost
    faults = check_saw_plan(sawn, parts, sizes, kerf_mm, may_turn=may_turn)
    if faults:
        raise RuntimeError(" ".join(faults))
    if prove and not skew and cost > least and len(sizes) == 1 and len(parts) <= _MAX_BY_COLUMNS:
        least = max(least, _by_columns(SawPlan(sawn, cost, least), parts, sizes, kerf_mm, may_turn=may_turn))
    return SawPlan(sawn, cost, least)


def _by_columns(plan: SawPlan, parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool) -> int:
    """Return a cost that no plan for parts that fill their boxes can be below, started from the slabs of a plan."""
    task = task_of([replace(part, factory_sides=0) for part in parts], sizes, kerf_mm, may_turn=may_turn)
    kind = {part.piece: int(row[4]) for part, row in zip(task.parts, task.rows, strict=True)}
    met = [(np.bincount([kind[part.piece] for part in unit.parts], minlength=task.kinds), 1.0) for unit in plan.sawn]
    cost = sizes[0].cost
    counted = replace(task, stock=task.stock * (1, 1, 0) + (0, 0, 1))
    least = min_cost_of_sizes(counted, met, plan.min_cost // cost, plan.cost // cost)
    return least * cost


def _boxes_cut(
    parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, rounds: int | None, *, may_turn: bool, cover: bool
) -> SawPlan:
    """Return a plan for parts as boxes, with the bound for those boxes: in small jobs over all sets that fit a slab."""
    task = task_of(parts, sizes, kerf_mm, may_turn=may_turn)
    bound = min_cost(task)
    many = rounds_for(len(parts)) if rounds is None else rounds
    found = found_plan(task, many, bound, cover=cover)
    small = len(parts) <= MAX_PARTS and len(sizes) == 1 and not task.rows[:, 3].any()
    if found.cost > bound and small:
        bound = max(bound, (fewest_by_subsets(task) or 0) * sizes[0].cost)
        if found.cost > bound:
            found = min(found, found_plan(task, _AGAIN * many, bound, cover=True), key=lambda each: each.cost)
    return SawPlan(units_of(task, found.plan, found.slabs), found.cost, bound)


def _least(parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool) -> int:
    """Return a cost that no plan can be below, boxes inside the pieces that do not fill their own taken for those.

    Sides of such a box are not those of its piece, so that factory edges are left out: that only lowers the bound.
    """
    boxes = [
        replace(part, along_mm=box[0], across_mm=box[1], factory_sides=0)
        for part, box in ((each, _whole_box(each)) for each in parts)
    ]
    sure = [part for part in boxes if min(part.along_mm, part.across_mm) > 0.0]
    return min_cost(task_of(sure, sizes, kerf_mm, may_turn=may_turn)) if sure else 0


def _whole_box(part: Part) -> Point:
    """Return the box of a part that must come out whole."""
    return inner_box(part.outline) if part.outline else (part.along_mm, part.across_mm)


def fewest_slabs(parts: Sequence[Part], size: Stock, kerf_mm: float, *, may_turn: bool) -> int:
    """Return a number of slabs that no plan for the parts can be below, whatever the cuts.

    Args:
        parts: Boxes that must come out whole.
        size: The size of slab.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid.

    Source: fekete_schepers_2004, dual feasible functions
    """
    return min_slabs(task_of(parts, (size,), kerf_mm, may_turn=may_turn)) if parts else 0


def factory_edge_cost(parts: Sequence[Part], sizes: Sequence[Stock], kerf_mm: float, *, may_turn: bool) -> int:
    """Return what keeping factory edges costs: the cost of a plan that keeps them less that of one that does not.

    Args:
        parts: Pieces with the sides that must be factory edges.
        sizes: Sizes of slab that there are.
        kerf_mm: Width of the saw cut. [mm]
        may_turn: Whether a piece may lie a quarter turn from how it is laid.

    Source: definition; of two plans found by a search
    """
    free = [replace(part, factory_sides=0) for part in parts]
    kept = saw_plan(parts, sizes, kerf_mm, may_turn=may_turn).cost
    return max(0, kept - saw_plan(free, sizes, kerf_mm, may_turn=may_turn).cost)
