"""Where rules clash: the cheapest sets of changes, one mixed-integer programme after another."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.levels.design._design import design, own_directions, programme_of
from pavewright.levels.design._facet_rows import FallRange
from pavewright.levels.design._linear import Programme, solve
from pavewright.levels.design._rule import MIN_FALL, STEEPEST, VALLEY_FALL, Rule, RuleKind

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
    """What it costs to give way in one rule: once, and for each millimetre (or millimetre in a metre, for a fall).

    Attributes:
        once: Price once. [minor units]
        each: Price of each millimetre, or millimetre in a metre. [minor units]
    """

    once: float
    each: float


@dataclass(frozen=True, slots=True)
class Change:
    """One rule that gives way.

    Attributes:
        rule: The rule.
        by: How far: millimetres, or millimetres in a metre for a fall. [mm; mm/m for a fall]
    """

    rule: Rule
    by: float


@dataclass(frozen=True)
class Repair:
    """A smallest set of changes that makes the job possible.

    Attributes:
        changes: What gives way, in the order of the rules.
        price: Price of the changes by themselves. [minor units]
        task: The task with those rules changed.
        designed: The cheapest surface then.
    """

    changes: tuple[Change, ...]
    price: float
    task: Task
    designed: Designed


def repairs(
    task: Task, prices: Mapping[RuleKind, ChangePrice], most: int = 5, kept: frozenset[Rule] = frozenset()
) -> tuple[Repair, ...]:
    """Return the cheapest smallest sets of changes, cheapest first; empty where locked rules clash by themselves.

    Args:
        task: A task that no surface meets.
        prices: Price of each kind of change. A kind without a price is not offered.
        most: How many sets to look for.
        kept: Rules that never give way, whatever their price.

    Source: definition, mixed-integer programme over rules given up, each set found barred from the next
    """
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    bare = replace(task, earth=None)
    plain, _ = programme_of(bare, directions)
    able = [row.rule for row in plain.rows if row.yields and row.rule is not None]
    given = [rule for rule in dict.fromkeys(able) if rule not in kept and rule.kind in prices]
    barred: list[tuple[Rule, ...]] = []
    found: list[Repair] = []
    while len(found) < most:
        answer = _cheapest(plain, given, prices, task.falls, barred)
        if answer is None:
            break
        changes, _ = answer
        barred.append(tuple(change.rule for change in changes))
        if not changes:
            break
        settled, start = _least(task, tuple(change.rule for change in changes), prices)
        changed = _changed(task, settled)
        designed = design(changed, start)
        if designed is not None:
            found.append(Repair(settled, _price(settled, prices), changed, designed))
    return tuple(sorted(found, key=lambda repair: repair.price))


def _least(
    task: Task, given: tuple[Rule, ...], prices: Mapping[RuleKind, ChangePrice]
) -> tuple[tuple[Change, ...], tuple[XY, ...]]:
    """Return the least that a set of rules has to give once directions have turned, and those directions."""
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    best: tuple[float, tuple[Change, ...], tuple[XY, ...]] | None = None
    for _ in range(_TURNS if task.arrangement.may_turn else 1):
        plain, columns = programme_of(replace(task, earth=None), directions)
        programme = Programme([0.0] * len(plain.cost), list(plain.low), list(plain.high), [], [])
        gives = {
            rule: (programme.column(prices[rule.kind].each + _COUNTS, 0.0, _most(rule, task.falls)), -1)
            for rule in given
        }
        programme.rows = [relaxed for row in plain.rows for relaxed in _relaxed(row, gives)]
        found = solve(programme)
        if found is None:
            break
        cost = float(np.dot(programme.cost, found))
        if best is not None and cost > best[0] - _COUNTS:
            break
        best = cost, tuple(Change(rule, float(found[amount])) for rule, (amount, _) in gives.items()), directions
        directions = own_directions(found, columns, directions)
    return (best[1], best[2]) if best is not None else ((), directions)


def _cheapest(
    plain: Programme,
    given: list[Rule],
    prices: Mapping[RuleKind, ChangePrice],
    falls: FallRange,
    barred: list[tuple[Rule, ...]],
) -> tuple[tuple[Change, ...], float] | None:
    programme = Programme([0.0] * len(plain.cost), list(plain.low), list(plain.high), list(plain.whole), [])
    gives: dict[Rule, tuple[int, int]] = {}
    for rule in given:
        price, most = prices[rule.kind], _most(rule, falls)
        amount = programme.column(price.each, 0.0, most)
        taken = programme.column(price.once, 0.0, 1.0, whole=True)
        programme.row(None, {amount: 1.0, taken: -most}, -math.inf, 0.0)
        gives[rule] = amount, taken
    for row in plain.rows:
        for relaxed in _relaxed(row, gives):
            programme.rows.append(relaxed)
    for together in barred:
        programme.row(None, {gives[rule][1]: 1.0 for rule in together}, -math.inf, len(together) - 1.0)
    found = solve(programme)
    if found is None:
        return None
    changes = tuple(
        Change(rule, float(found[amount]))
        for rule, (amount, taken) in gives.items()
        if found[taken] > 0.5  # noqa: PLR2004
    )
    return changes, _price(changes, prices)


def _price(changes: tuple[Change, ...], prices: Mapping[RuleKind, ChangePrice]) -> float:
    return sum(prices[each.rule.kind].once + prices[each.rule.kind].each * each.by for each in changes)


def _relaxed(row: Row, gives: Mapping[Rule, tuple[int, int]]) -> list[Row]:
    """Return a row, as one or two rows that may give way."""
    if not row.yields or row.rule is None or row.rule not in gives:
        return [row]
    amount, _ = gives[row.rule]
    found = []
    if math.isfinite(row.low):
        found.append(replace(row, terms=(*row.terms, (amount, row.yields)), high=math.inf))
    if math.isfinite(row.high):
        found.append(replace(row, terms=(*row.terms, (amount, -row.yields)), low=-math.inf))
    return found


def _most(rule: Rule, falls: FallRange) -> float:
    """Return how far a rule can give way at most: millimetres, or millimetres in a metre for a fall."""
    if rule == MIN_FALL:
        return falls.least * units.MM_PER_M - _MIN_LEFT
    if rule == VALLEY_FALL:
        return falls.valley * units.MM_PER_M - _MIN_LEFT
    if rule == STEEPEST:
        return _STEEPEST_EVER - falls.steepest * units.MM_PER_M
    return _MOST


def _changed(task: Task, changes: tuple[Change, ...]) -> Task:
    """Return the task with the changes made, a hair wider so that rounding does not undo them."""
    by = {change.rule: change.by + _COUNTS for change in changes}
    falls = FallRange(
        task.falls.least - by.get(MIN_FALL, 0.0) / units.MM_PER_M,
        task.falls.steepest + by.get(STEEPEST, 0.0) / units.MM_PER_M,
        task.falls.valley - by.get(VALLEY_FALL, 0.0) / units.MM_PER_M,
    )
    limits = tuple(
        replace(bound, low_mm=bound.low_mm - by[bound.rule], high_mm=bound.high_mm + by[bound.rule])
        if bound.rule in by
        else bound
        for bound in task.limits
    )
    return replace(task, falls=falls, limits=limits)


def clashing(task: Task) -> tuple[Rule, ...]:
    """Return a smallest set of rules that cannot all be kept, for the explanation; empty where all can.

    Rules are left out one at a time; one without which the rest still clash is not needed for the clash.

    Source: definition, irreducible infeasible subset by deletion
    """
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    programme, _ = programme_of(replace(task, earth=None), directions)
    programme.cost = [0.0] * len(programme.cost)
    kept = list(dict.fromkeys(row.rule for row in programme.rows if row.rule is not None))
    if solve(programme) is not None:
        return ()
    rows = programme.rows
    for left in list(kept):
        trial = [rule for rule in kept if rule != left]
        programme.rows = [row for row in rows if row.rule in trial]
        if solve(programme) is None:
            kept = trial
    return tuple(kept)


def reach(task: Task, rule: Rule, at: XY) -> tuple[float, float]:
    """Return the lowest and highest level that a surface can have at a place when one thing does not hold it. [mm].

    Infinite on a side on which nothing holds it, or both nan where the rest clash already.
    """
    return _furthest(task, rule, at, 1.0), _furthest(task, rule, at, -1.0)


def _furthest(task: Task, rule: Rule, at: XY, sign: float) -> float:
    """Return the lowest level for a sign of one, the highest for minus one; directions turn as in the design. [mm]."""
    directions = tuple(facet.direction for facet in task.arrangement.facets)
    best = math.nan
    for _ in range(_TURNS if task.arrangement.may_turn else 1):
        programme, columns = programme_of(replace(task, earth=None), directions, leave=rule)
        programme.cost = [0.0] * len(programme.cost)
        terms = columns.level(task.arrangement.facet_under(at), at)
        level = programme.column(sign, -_FAR, _FAR)
        programme.row(None, terms | {level: -1.0}, 0.0, 0.0)
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
