"""The search for a saw plan: ruin and recreate, then the best choice among all ways met."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.cutting._bench import Bench
from pavewright.laying.cutting._cover import MAX_WAYS, cheapest_cover, most_together
from pavewright.laying.cutting._no_waste import leaves_no_waste, slabs_without_waste

if TYPE_CHECKING:
    from pavewright.laying.cutting._grid import SawTask

_MAX_ON_ONE = 64
"""Parts put on one slab at most."""
_MAX_WAYS = 20_000
_SEED = 20_011
_WORK = 300_000
_MAX_ROUNDS = 20_000
_MIN_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class Found:
    """A plan in steps of the grid.

    Attributes:
        plan: Slab, x, y, quarter turns of each part, shape (n, 4), int64.
        slabs: Size of each slab, shape (slabs,), int64.
        cost: Sum of the costs.
    """

    plan: np.ndarray
    slabs: np.ndarray
    cost: int


@dataclass(frozen=True, slots=True)
class _Ways:
    """Ways of cutting a slab that were met: size and lines (part, x, y, turns) of each."""

    sizes: np.ndarray
    lines: tuple[np.ndarray, ...]


def rounds_for(parts: int) -> int:
    """Return the rounds of ruin and recreate for so many parts: fixed, so that a job gives the same plan twice."""
    return min(_MAX_ROUNDS, max(_MIN_ROUNDS, _WORK // max(parts, 1)))


def found_plan(task: SawTask, rounds: int, target: int, *, cover: bool) -> Found:
    """Return the cheapest plan found.

    Args:
        task: What is to be cut.
        rounds: Rounds of ruin and recreate.
        target: Cost that no plan can be below; the search stops when it is met.
        cover: Whether to choose again among all ways met, where the target is not met.
    """
    best, ways = _ruin_and_recreate(task, rounds, target, _SEED)
    if not cover or best.cost <= target:
        return best
    best = _covered(task, best, ways)
    if best.cost <= target or not leaves_no_waste(task, target):
        return best
    return _without_waste(task, best, rounds, target)


def _ruin_and_recreate(task: SawTask, rounds: int, target: int, seed: int) -> tuple[Found, _Ways]:
    from pavewright.laying.cutting._kernels import search  # noqa: PLC0415 - the compiler is slow to load

    count = len(task.rows)
    areas = task.stock[:, 0] * task.stock[:, 1]
    most = int(min(count, _MAX_ON_ONE, areas.max() // (task.rows[:, 0] * task.rows[:, 1]).min()))
    ids = 2 * count + 3
    bench = Bench(
        np.ascontiguousarray(task.rows),
        np.ascontiguousarray(task.stock),
        np.zeros((ids, 5), np.int64),
        np.zeros((ids, most, 4), np.int64),
        np.zeros((ids, most + 2, 4), np.int64),
        np.array([0, 0, 0, 0, task.rows[:, :2].min(), most], np.int64),
        np.zeros(5, np.int64),
        np.array([seed], np.int64),
    )
    plan, sizes = np.zeros((count, 4), np.int64), np.zeros(count, np.int64)
    code = np.random.default_rng(seed).integers(1, 2**62, task.kinds)
    seen = np.zeros(1 << (2 * _MAX_WAYS).bit_length(), np.int64)
    heads = np.zeros((_MAX_WAYS + 1, 3), np.int64)
    lines = np.zeros((_MAX_WAYS * min(most, 16), 4), np.int64)
    cost = int(search(bench, rounds, target, plan, sizes, code, seen, heads, lines))
    rows = heads[1 : int(heads[0, 0]) + 1]
    ways = _Ways(rows[:, 0].copy(), tuple(lines[first : first + each] for _, first, each in rows.tolist()))
    return Found(plan, sizes[sizes >= 0], cost), ways


def _covered(task: SawTask, best: Found, ways: _Ways, max_ways: int = MAX_WAYS) -> Found:
    """Return the cheapest choice of ways that cuts every part, the plan itself among them."""
    lines = (*ways.lines, *_slabs_of(best))
    sizes = np.concatenate([ways.sizes, best.slabs])
    kinds = task.rows[:, 4]
    counts = np.zeros((len(lines), task.kinds), np.int64)
    for number, each in enumerate(lines):
        np.add.at(counts[number], kinds[each[:, 0]], 1)
    start = range(len(ways.lines), len(lines))
    demand = np.bincount(kinds, minlength=task.kinds)
    chosen = cheapest_cover(counts, task.stock[sizes, 2], demand, list(start), max_ways)
    cost = int(task.stock[sizes[chosen], 2].sum())
    return best if cost >= best.cost else _laid_out(task, [lines[way] for way in chosen], sizes[chosen], cost)


def _laid_out(task: SawTask, chosen: list[np.ndarray], sizes: np.ndarray, cost: int) -> Found:
    """Return a plan from ways: equal parts stand in for each other, and a part that is cut already is left out."""
    waiting = [list(np.flatnonzero(task.rows[:, 4] == kind)[::-1]) for kind in range(task.kinds)]
    plan = np.zeros((len(task.rows), 4), np.int64)
    for slab, lines in enumerate(chosen):
        for part, x, y, turn in lines.tolist():
            left = waiting[task.rows[part, 4]]
            if left:
                plan[left.pop()] = (slab, x, y, turn)
    return Found(plan, sizes, cost)


def _without_waste(task: SawTask, best: Found, rounds: int, target: int) -> Found:
    """Return a plan of as many slabs without waste as go together, and what the search finds for the parts left."""
    whole = slabs_without_waste(task)
    if not whole:
        return best
    sizes = np.array([size for size, _ in whole], np.int64)
    lines = tuple(each for _, each in whole)
    best = _covered(task, best, _Ways(sizes, lines), len(whole) + len(task.rows))
    if best.cost <= target:
        return best
    counts = np.array([np.bincount(task.rows[each[:, 0], 4], minlength=task.kinds) for each in lines])
    demand = np.bincount(task.rows[:, 4], minlength=task.kinds)
    chosen = most_together(counts, task.stock[sizes, 2], demand)
    left = demand - counts[chosen].sum(axis=0)
    if not chosen or not left.any():
        return best
    parts = np.concatenate([np.flatnonzero(task.rows[:, 4] == kind)[:many] for kind, many in enumerate(left.tolist())])
    some = replace(task, rows=task.rows[parts], parts=tuple(task.parts[part] for part in parts.tolist()))
    spent = int(task.stock[sizes[chosen], 2].sum())
    found = found_plan(some, rounds, target - spent, cover=True)
    if spent + found.cost >= best.cost:
        return best
    own = [np.column_stack([parts[each[:, 0]], each[:, 1:]]) for each in _slabs_of(found)]
    together = [*(lines[way] for way in chosen), *own]
    return _laid_out(task, together, np.concatenate([sizes[chosen], found.slabs]), spent + found.cost)


def _slabs_of(found: Found) -> list[np.ndarray]:
    """Return part, x, y, quarter turns of what is cut from each slab of a plan."""
    return [
        np.column_stack([np.flatnonzero(found.plan[:, 0] == slab), found.plan[found.plan[:, 0] == slab, 1:]])
        for slab in range(len(found.slabs))
    ]
