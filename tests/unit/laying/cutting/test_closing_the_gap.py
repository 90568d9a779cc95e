"""A better bound where the first one leaves a gap: never above a plan, never below the first."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.laying.cutting import Part, Stock, saw_plan
from pavewright.laying.cutting._columns import min_cost_of_sizes
from pavewright.laying.cutting._grid import task_of

SLAB = (Stock(600.0, 600.0),)


def cut_pieces(count: int, seed: int) -> list[Part]:
    """Pieces as edges make them: most keep one side of the slab, some are cut both ways."""
    dice = random.Random(seed)
    sizes = [(dice.randint(60, 590), 600 if dice.random() < 0.6 else dice.randint(60, 590)) for _ in range(count)]
    return [Part(number, float(wide), float(high)) for number, (wide, high) in enumerate(sizes)]


@pytest.mark.parametrize("seed", range(60_000, 60_003))
def test_what_the_first_bound_leaves_open_is_proved(seed):
    parts = cut_pieces(60, seed)
    first = saw_plan(parts, SLAB, 4.0, may_turn=True, prove=False)
    plan = saw_plan(parts, SLAB, 4.0, may_turn=True)
    assert not first.proved
    assert plan.proved
    assert plan.cost == first.cost


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(60, 590), st.integers(60, 590)), min_size=1, max_size=14), st.booleans())
def test_slabs_of_a_plan_to_start_from_change_no_bound(sides, turn):
    parts = [Part(number, float(a), float(b)) for number, (a, b) in enumerate(sides)]
    task = task_of(parts, SLAB, 4.0, may_turn=turn)
    plan = saw_plan(parts, SLAB, 4.0, may_turn=turn)
    kind = {part.piece: int(row[4]) for part, row in zip(task.parts, task.rows, strict=True)}
    met = []
    for unit in plan.sawn:
        counts = [0.0] * task.kinds
        for part in unit.parts:
            counts[kind[part.piece]] += 1.0
        met.append((counts, 1.0))
    least = min_cost_of_sizes(task)
    assert min_cost_of_sizes(task, met) == least <= plan.cost
    assert plan.min_cost >= least
