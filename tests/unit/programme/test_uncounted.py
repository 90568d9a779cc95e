"""Work without known hours is named with the work that it may come with, on the plan and on its sheet."""

from __future__ import annotations

import pytest

from pavewright.cost import LabourTask, TaskKey, TaskKind
from pavewright.programme import Uncounted, schedule
from pavewright.sums import Working

DIG, DRAINS, CLEAR = TaskKey(TaskKind.DIG, 0), TaskKey(TaskKind.DRAINS), TaskKey(TaskKind.CLEAR, 0)


@pytest.mark.parametrize(
    ("keys", "named"),
    [
        ((DIG,), (Uncounted.REMOVAL,)),
        ((TaskKey(TaskKind.SUB_BASE, 0), DRAINS), (Uncounted.DRAIN_TEST,)),
        ((DIG, CLEAR), (Uncounted.REMOVAL, Uncounted.SNAGGING)),
        ((TaskKey(TaskKind.LAY, 0),), ()),
    ],
)
def test_what_has_no_hours_is_named_with_what_it_comes_with(small, keys, named):
    small.rectangle(4000.0, 3000.0)
    tasks = tuple(LabourTask(key, key.text, 2.0, 2.0, 2.0, Working("", 2.0, "h")) for key in keys)
    made = schedule(small.job(), tasks, small.rules)
    assert made.uncounted == named
    assert bool(made.uncounted_words) == bool(named)
    assert ("old paving" in made.uncounted_words) == (Uncounted.REMOVAL in named)
    assert ("test the drains" in made.uncounted_words) == (Uncounted.DRAIN_TEST in named)
