"""A bay filled with a pack of mixed sizes, or which rule stands in the way."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.laying.mixed._bays import bay_joints, bays_of
from pavewright.laying.mixed._check import longest_joint, mix_faults
from pavewright.laying.mixed._search import Found, Task, every_way, search
from pavewright.laying.mixed._types import MixedLayout, MixedRefusal, MixRule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.laying.mixed._check import MixFault
    from pavewright.laying.mixed._types import MixedUnit, MixRules, Pack

_TRIES = 8
_TRIES_RELAXED, _TRIES_RELAXED_LARGE, _LARGE_CELLS = 3, 1, 400
"""Tries with a rule relaxed; fewer in a bay of many cells, where each takes long."""
_LONGER = 1.5
"""A longest joint that is relaxed runs so much farther."""
_SPARE_UNITS = 2
"""A bay of several may take so many units of a size more than its share."""
_ACROSS = 24
"""So many mixes of a bay are tried for one whose joints do not run on too far through the movement joint before it."""
_OTHER_MIX = 10_000
"""What leads from a mix to another one of a single bay: more than any mix of a job has. [-]"""


def fill_bay(
    bay: np.ndarray,
    pack: Pack,
    rules: MixRules,
    *,
    mix: int,
    yard: tuple[int, ...] | None = None,
    down: tuple[MixedUnit, ...] = (),
) -> MixedLayout | MixedRefusal:
    """Return a bay filled to all of its rules, or why it is not.

    Over the largest bay of the rules it is filled in several bays with a straight movement joint between them; the
    rules hold in each by itself. Where the free cells are as many as those of the yard, every unit is used. The same
    inputs give the same layout.

    Args:
        bay: Whether each cell of the module is to be covered, shape (rows, columns), bool; a cell that the outline cuts
            is to be covered too.
        pack: A pack that was found to add up.
        rules: Rules to keep to.
        mix: Which of the possible layouts; the same number always gives the same one.
        yard: Units of each size that are left; as many whole packs as the bay takes where it is not given.
        down: Units that are down and stay.
    """
    laid = Counter(unit.size for unit in down)
    if yard is None:
        packs = math.ceil(int(bay.sum()) / pack.cells)
        yard = tuple(max(packs * count - laid[size], 0) for size, count in enumerate(pack.counts))
    had = tuple(count + laid[size] for size, count in enumerate(yard))
    refused = _refused_at_once(bay, pack, yard, down)
    if refused is not None:
        return refused
    task = Task(bay, bay & ~_covered(bay, down), pack, rules, down, yard, had, mix)
    found = _filled(task)
    return _without(task) if found is None else found


def _covered(bay: np.ndarray, placed: tuple[MixedUnit, ...]) -> np.ndarray:
    taken = np.zeros_like(bay)
    for unit in placed:
        taken[unit.row : unit.row + unit.deep_cells, unit.column : unit.column + unit.wide_cells] = True
    return taken


def _refused_at_once(
    bay: np.ndarray, pack: Pack, yard: tuple[int, ...], down: tuple[MixedUnit, ...]
) -> MixedRefusal | None:
    """Return why no search is worth its time, if so."""
    if not bay.any() or len(yard) != len(pack.sizes) or min(yard) < 0:
        words = "Give a bay with one cell or more, and a count for each size of the pack."
        return MixedRefusal(words, None, proved=True)
    for unit in down:
        if not _lies_within(bay, pack, unit):
            place = f"row {unit.row + 1}, column {unit.column + 1}"
            words = f"The unit that is down in {place} is none of the pack or does not lie in the bay."
            return MixedRefusal(words, None, proved=True)
    if int(_covered(bay, down).sum()) != sum(unit.deep_cells * unit.wide_cells for unit in down):
        return MixedRefusal("Two units that are down lie on the same cells.", None, proved=True)
    free = int(bay.sum()) - sum(unit.deep_cells * unit.wide_cells for unit in down)
    cells = sum(count * size.cells for count, size in zip(yard, pack.sizes, strict=True))
    if cells < free:
        short = pack.coverage_of(free - cells)
        words = f"The units in the yard cover {short:.2f} m² less than is left to lay: fetch more."
        return MixedRefusal(words, MixRule.UNITS, proved=True)
    return None


def _lies_within(bay: np.ndarray, pack: Pack, unit: MixedUnit) -> bool:
    if not 0 <= unit.size < len(pack.sizes) or unit.row < 0 or unit.column < 0:
        return False
    size = pack.sizes[unit.size]
    if sorted((unit.deep_cells, unit.wide_cells)) != [size.width_cells, size.length_cells]:
        return False
    block = bay[unit.row : unit.row + unit.deep_cells, unit.column : unit.column + unit.wide_cells]
    return block.shape == (unit.deep_cells, unit.wide_cells) and bool(block.all())


def _filled(task: Task, tries: int = _TRIES) -> MixedLayout | None:
    """Return a task filled, bay after bay, and checked."""
    bays = _bays(task)
    joints = bay_joints(bays)
    placed, yard, steps = task.down, task.yard, 0
    free = [int((bay & task.part).sum()) for bay in bays]
    for number, bay in enumerate(bays):
        part = bay & task.part
        share = yard
        if number < len(bays) - 1:
            share = tuple(min(n, math.ceil(n * free[number] / max(sum(free[number:]), 1)) + _SPARE_UNITS) for n in yard)
        one = _of_bay(task, bay, part, share) if len(bays) > 1 else task
        found = _beside(one, placed, joints, tries) if part.any() else Found((), proved=True, steps=0)
        steps += found.steps
        if found.placed is None:
            return None
        _refuse_faults(one, one.down + found.placed)
        used = Counter(unit.size for unit in found.placed)
        yard = tuple(count - used[size] for size, count in enumerate(yard))
        placed += found.placed
    used_up = tuple(before - after for before, after in zip(task.yard, yard, strict=True))
    longest = longest_joint(placed, joints)
    return MixedLayout(tuple(sorted(placed)), used_up, yard, longest, len(bays), joints, steps)


def _beside(
    task: Task, placed: tuple[MixedUnit, ...], joints: tuple[tuple[int, int, int, int], ...], tries: int
) -> Found:
    """Return a bay filled beside those before it, so that no joint runs on too far through the movement joint.

    Where every mix tried has one that does, the one whose longest joint is shortest is taken.
    """
    best, shortest, steps = Found(None, proved=False, steps=0), math.inf, 0
    for again in range(_ACROSS if joints and task.rules.longest_joint_cells else 1):
        found = search(replace(task, mix=task.mix + again * _OTHER_MIX), tries)
        steps += found.steps
        if found.placed is None:
            best = found if best.placed is None else best
            break
        longest = longest_joint(placed + found.placed, joints) if joints else 0
        if longest < shortest:
            best, shortest = found, longest
        if longest <= task.rules.longest_joint_cells:
            break
    return replace(best, steps=steps)


def _bays(task: Task) -> tuple[np.ndarray, ...]:
    if not task.rules.max_bay_m2:
        return (task.bay,)
    return bays_of(task.bay, max(math.floor(task.rules.max_bay_m2 / task.pack.coverage_of(1)), 1))


def _of_bay(task: Task, bay: np.ndarray, part: np.ndarray, share: tuple[int, ...]) -> Task:
    """Return the task of one bay of several; a unit that is down across a movement joint belongs to none."""
    down = tuple(unit for unit in task.down if _lies_within(bay, task.pack, unit))
    across = task.bay & ~task.part & ~_covered(bay, down)
    laid = Counter(unit.size for unit in down)
    had = tuple(count + laid[size] for size, count in enumerate(share))
    return replace(task, bay=bay & ~across, part=part, down=down, yard=share, had=had)


def _refuse_faults(task: Task, placed: tuple[MixedUnit, ...]) -> None:
    """Raise where the check finds a fault that was not there before: the search and the check disagree."""
    before = {(fault.rule, fault.row, fault.column, fault.words) for fault in _faults(task, task.down)}
    for fault in _faults(task, placed):
        if (fault.rule, fault.row, fault.column, fault.words) not in before or fault.rule is MixRule.COVER:
            message = f"a layout breaks {fault.rule}: {fault.words}, row {fault.row}, column {fault.column}"
            raise AssertionError(message)


def _faults(task: Task, placed: tuple[MixedUnit, ...]) -> tuple[MixFault, ...]:
    return mix_faults(task.bay, task.pack, task.rules, placed, task.had)


def _relaxed(task: Task) -> Iterator[tuple[MixRule, str, Task]]:
    """Give a task with one rule after another relaxed, what hurts least first."""
    rules = task.rules
    if rules.longest_joint_cells:
        longer = math.ceil(_LONGER * rules.longest_joint_cells)
        words = f"joints up to {units.millimetres_text(longer * task.pack.module_mm)} long"
        yield MixRule.LONGEST_JOINT, words, replace(task, rules=replace(rules, longest_joint_cells=longer))
    if rules.even_spread is not None:
        yield MixRule.EVEN_SPREAD, "a less even spread", replace(task, rules=replace(rules, even_spread=None))
    if rules.oblongs_apart:
        words = "two equal oblong units side by side"
        yield MixRule.OBLONGS_APART, words, replace(task, rules=replace(rules, oblongs_apart=False))
    more = tuple(count + extra for count, extra in zip(task.yard, task.pack.counts, strict=True))
    had = tuple(count + extra for count, extra in zip(task.had, task.pack.counts, strict=True))
    yield MixRule.UNITS, "one pack more in the yard", replace(task, yard=more, had=had)
    if rules.smallest_apart:
        words = "two of the smallest units side by side"
        yield MixRule.SMALLEST_APART, words, replace(task, rules=replace(rules, smallest_apart=False))
    if rules.no_four_way:
        yield MixRule.FOUR_WAY, "four units meeting at a point", replace(task, rules=replace(rules, no_four_way=False))
    if rules.longest_joint_cells:
        words = "joints of any length"
        yield MixRule.LONGEST_JOINT, words, replace(task, rules=replace(rules, longest_joint_cells=0))


def _without(task: Task) -> MixedLayout | MixedRefusal:
    """Return which rule, relaxed by itself, gives a layout; the layout after all where every way in turn finds one."""
    last = Found(None, proved=False, steps=0) if len(_bays(task)) > 1 else every_way(task)
    if last.placed is not None:
        placed = task.down + last.placed
        _refuse_faults(task, placed)
        used = Counter(unit.size for unit in last.placed)
        left = tuple(count - used[size] for size, count in enumerate(task.yard))
        took = tuple(used[size] for size in range(len(task.yard)))
        return MixedLayout(tuple(sorted(placed)), took, left, longest_joint(placed), 1, (), last.steps)
    what = "There is no layout" if last.proved else "No layout was found in the steps allowed"
    tries = _TRIES_RELAXED if int(task.part.sum()) <= _LARGE_CELLS else _TRIES_RELAXED_LARGE
    for rule, words, relaxed in _relaxed(task):
        if _filled(relaxed, tries) is not None:
            return MixedRefusal(
                f"{what} that keeps to every rule; there is one with {words}.", rule, last.proved, sound=True
            )
    words = f"{what}, and no one rule relaxed gives one: change the bay or the pack."
    return MixedRefusal(words, None, last.proved, sound=True)
