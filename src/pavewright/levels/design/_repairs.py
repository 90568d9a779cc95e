"""Where rules clash: the cheapest sets of changes, one mixed-integer programme after another."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.levels.design._design import design, own_directions, programme_of
from pavewright.levels.design._facet_rows import LEAST, STEEPEST, VALLEY, FallRange, group_of, nearest_facet
from pavewright.levels.design._linear import Programme, solve

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.levels.design._design import Designed, Task
    from pavewright.levels.design._linear import Row

_MOST = 500.0
"""More than any cover, edge or step is moved. [mm]"""
_MIN_LEFT = 1.0
"""A fall may give way down to one millimetre in a metre. [mm/m]"""
_STEEPEST_EVER = 100.0
"""A surface may give way up to one in ten. [mm/m]"""
_TURNS = 5
"""Rounds in which directions turn to reach furthest."""
_COUNTS = 1e-6
"""A change smaller than this is none."""


@dataclass(frozen=True, slots=True)
class ChangePrice:
    """What it costs to give way in one rule: once, and for each millimetre (or millimetre in a metre, for a fall)."""

    once: float
    each: float


@dataclass(frozen=True, slots=True)
class Change:
    """One rule that gives way.

    Attributes:
        group: The rule.
        by: How far: millimetres, or millimetres in a metre for a fall.
    """

    group: str
    by: float


@dataclass(frozen=True)
class Repair:
    """A smallest set of changes that makes the job possible.

    Attributes:
        changes: What gives way, in the order of the rules.
        price: Price of the changes by themselves.
        task: The task with those rules changed.
        designed: The cheapest surface then.
    """

    changes: tuple[Change, ...]
    price: float
    task: Task
    designed: Designed


def repairs(
    task: Task, prices: Mapping[str, ChangePrice], most: int = 5, kept: frozenset[str] = frozenset()
) -> tuple[Repair, ...]:
    """Return the cheapest smallest sets of changes, cheapest first; empty where locked rules clash by themselves.

    Args:
        task: A task that no surface meets.
        prices: Price of each kind of change: ``cover``, ``tie_in``, ``min_fall`` and so on. A kind without a price is
            not offered.
        most: How many sets to look for.
        kept: Rules that never give way, whatever their price.

    Source: definition, mixed-integer programme over rules given up, each set found barred from the next
    """
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    bare = replace(task, earth=None)
    plain, _ = programme_of(bare, directions)
    groups = list(
        dict.fromkeys(
            row.group for row in plain.rows if row.yields and row.group not in kept and kind_of(row.group) in prices
        )
    )
    barred: list[tuple[str, ...]] = []
    found: list[Repair] = []
    while len(found) < most:
        answer = _cheapest(plain, groups, prices, task.falls, barred)
        if answer is None:
            break
        changes, _ = answer
        barred.append(tuple(change.group for change in changes))
        if not changes:
            break
        settled, start = _least(task, tuple(change.group for change in changes), prices)
        changed = _changed(task, settled)
        designed = design(changed, start)
        if designed is not None:
            found.append(Repair(settled, _price(settled, prices), changed, designed))
    return tuple(sorted(found, key=lambda repair: repair.price))


def _least(
    task: Task, names: tuple[str, ...], prices: Mapping[str, ChangePrice]
) -> tuple[tuple[Change, ...], tuple[XY, ...]]:
    """Return the least that a set of rules has to give once directions have turned, and those directions."""
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    best: tuple[float, tuple[Change, ...], tuple[XY, ...]] | None = None
    for _ in range(_TURNS if task.arrangement.may_turn else 1):
        plain, columns = programme_of(replace(task, earth=None), directions)
        programme = Programme([0.0] * len(plain.cost), list(plain.low), list(plain.high), [], [])
        gives = {
            name: (programme.column(prices[kind_of(name)].each + _COUNTS, 0.0, _most(name, task.falls)), -1)
            for name in names
        }
        programme.rows = [relaxed for row in plain.rows for relaxed in _relaxed(row, gives)]
        found = solve(programme)
        if found is None:
            break
        cost = float(np.dot(programme.cost, found))
        if best is not None and cost > best[0] - _COUNTS:
            break
        best = cost, tuple(Change(name, float(found[amount])) for name, (amount, _) in gives.items()), directions
        directions = own_directions(found, columns, directions)
    return (best[1], best[2]) if best is not None else ((), directions)


def _cheapest(
    plain: Programme,
    groups: list[str],
    prices: Mapping[str, ChangePrice],
    falls: FallRange,
    barred: list[tuple[str, ...]],
) -> tuple[tuple[Change, ...], float] | None:
    programme = Programme([0.0] * len(plain.cost), list(plain.low), list(plain.high), list(plain.whole), [])
    gives: dict[str, tuple[int, int]] = {}
    for group in groups:
        price, most = prices[kind_of(group)], _most(group, falls)
        amount = programme.column(price.each, 0.0, most)
        given = programme.column(price.once, 0.0, 1.0, whole=True)
        programme.row("given", {amount: 1.0, given: -most}, -math.inf, 0.0)
        gives[group] = amount, given
    for row in plain.rows:
        for relaxed in _relaxed(row, gives):
            programme.rows.append(relaxed)
    for names in barred:
        programme.row("barred", {gives[name][1]: 1.0 for name in names}, -math.inf, len(names) - 1.0)
    found = solve(programme)
    if found is None:
        return None
    changes = tuple(
        Change(group, float(found[amount]))
        for group, (amount, given) in gives.items()
        if found[given] > 0.5  # noqa: PLR2004
    )
    return changes, _price(changes, prices)


def _price(changes: tuple[Change, ...], prices: Mapping[str, ChangePrice]) -> float:
    return sum(prices[kind_of(each.group)].once + prices[kind_of(each.group)].each * each.by for each in changes)


def _relaxed(row: Row, gives: Mapping[str, tuple[int, int]]) -> list[Row]:
    """Return a row, as one or two rows that may give way."""
    if not row.yields or row.group not in gives:
        return [row]
    amount, _ = gives[row.group]
    found = []
    if math.isfinite(row.low):
        found.append(replace(row, terms=(*row.terms, (amount, row.yields)), high=math.inf))
    if math.isfinite(row.high):
        found.append(replace(row, terms=(*row.terms, (amount, -row.yields)), low=-math.inf))
    return found


def kind_of(group: str) -> str:
    """Return the kind of a rule: what its name begins with."""
    return group.split(":", 1)[0]


def _most(group: str, falls: FallRange) -> float:
    """Return how far a rule can give way at most."""
    if group == LEAST:
        return falls.least * units.MM_PER_M - _MIN_LEFT
    if group == VALLEY:
        return falls.valley * units.MM_PER_M - _MIN_LEFT
    if group == STEEPEST:
        return _STEEPEST_EVER - falls.steepest * units.MM_PER_M
    return _MOST


def _changed(task: Task, changes: tuple[Change, ...]) -> Task:
    """Return the task with the changes made, a hair wider so that rounding does not undo them."""
    by = {change.group: change.by + _COUNTS for change in changes}
    falls = FallRange(
        task.falls.least - by.get(LEAST, 0.0) / units.MM_PER_M,
        task.falls.steepest + by.get(STEEPEST, 0.0) / units.MM_PER_M,
        task.falls.valley - by.get(VALLEY, 0.0) / units.MM_PER_M,
    )
    limits = tuple(
        replace(bound, low_mm=bound.low_mm - by[group_of(bound)], high_mm=bound.high_mm + by[group_of(bound)])
        if group_of(bound) in by
        else bound
        for bound in task.limits
    )
    return replace(task, falls=falls, limits=limits)


def clashing(task: Task) -> tuple[str, ...]:
    """Return a smallest set of rules that cannot all be kept, for the explanation; empty where all can.

    Rules are left out one at a time; one without which the rest still clash is not needed for the clash.

    Source: definition, irreducible infeasible subset by deletion
    """
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    programme, _ = programme_of(replace(task, earth=None), directions)
    programme.cost = [0.0] * len(programme.cost)
    kept = list(dict.fromkeys(row.group for row in programme.rows))
    if solve(programme) is not None:
        return ()
    rows = programme.rows
    for group in list(kept):
        trial = [name for name in kept if name != group]
        programme.rows = [row for row in rows if row.group in trial]
        if solve(programme) is None:
            kept = trial
    return tuple(kept)


def reach(task: Task, group: str, at: XY) -> tuple[float, float]:
    """Return the lowest and highest level that a surface can have at a place when one thing does not hold it. [mm].

    Infinite on a side on which nothing holds it, or both nan where the rest clash already.
    """
    return _furthest(task, group, at, 1.0), _furthest(task, group, at, -1.0)


def _furthest(task: Task, group: str, at: XY, sign: float) -> float:
    """Return the lowest level for a sign of one, the highest for minus one; directions turn as in the design. [mm]."""
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    best = math.nan
    for _ in range(_TURNS if task.arrangement.may_turn else 1):
        programme, columns = programme_of(replace(task, earth=None), directions, leave=group)
        programme.cost = [0.0] * len(programme.cost)
        terms = columns.level(nearest_facet(task.arrangement.facets, at), at)
        level = programme.column(sign, -_FAR, _FAR)
        programme.row("level", terms | {level: -1.0}, 0.0, 0.0)
        found = solve(programme)
        if found is None:
            break
        value = float(found[level])
        if abs(value) >= _FAR:
            return -sign * math.inf
        gain = math.inf if math.isnan(best) else (best - value - columns.datum_mm) * sign
        best = value + columns.datum_mm
        if gain < _COUNTS:
            break
        directions = own_directions(found, columns, directions)
    return best


_FAR = 1e5
"""A level this far off is held by nothing. [mm]"""
