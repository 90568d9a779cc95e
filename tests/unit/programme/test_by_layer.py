"""Stone that goes in layer by layer: its hours, what stands between layers, and what is shown as done."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from pavewright.buildup import LayerKey
from pavewright.cost import LabourTask, TaskKey, TaskKind, WorkLayer
from pavewright.pipeline import plan
from pavewright.programme import WaitKey, WaitKind, schedule
from pavewright.programme._chances import _pieces
from pavewright.programme._network import network
from pavewright.programme._figures import programme_figures
from pavewright.programme._placing import placed
from pavewright.programme._schedule import _means
from pavewright.sums import Working

WHOLE = TaskKey(TaskKind.SUB_BASE, 0)
LAYERS = tuple(TaskKey(TaskKind.SUB_BASE_LAYER, 0, number) for number in range(3))
SHARES = (0.5, 0.25, 0.25)


def stone(hours=12.0, shares=SHARES):
    layers = tuple(WorkLayer(LayerKey.SUB_BASE, n, len(shares), 100.0, each) for n, each in enumerate(shares, start=1))
    sub_base = LabourTask(WHOLE, "stone", hours, hours * 0.8, hours * 1.5, Working("", hours, "h"), layers=layers)
    lay = LabourTask(TaskKey(TaskKind.LAY, 0), "lay", 4.0, 4.0, 4.0, Working("", 4.0, "h"))
    return sub_base, lay


def dated(small, tasks=None, **changes):
    if not small.document["areas"]:
        small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")
    for name, value in changes.items():
        small.document[name] = value
    return schedule(small.job(), tasks or stone(), small.rules)


def at(programme, key):
    return next(task for task in programme.tasks if task.key == key)


def done(key, percent=100.0):
    return {"task": key, "on": "2027-06-01", "done_percent": percent}


def test_layers_share_the_hours_in_their_order_and_the_end_stays(small):
    made = dated(small)
    whole = dated(small, (dataclasses.replace(stone()[0], layers=()), stone()[1]))
    assert [at(made, key).work_min for key in LAYERS] == [180.0, 90.0, 90.0]
    assert sum(at(made, key).work_min for key in LAYERS) == at(whole, WHOLE).work_min
    assert at(made, LAYERS[1]).after == (LAYERS[0],)
    assert at(made, LAYERS[2]).after == (LAYERS[1],)
    assert at(made, TaskKey(TaskKind.LAY, 0)).after == (LAYERS[2],)
    assert (made.finish, made.site_days) == (whole.finish, whole.site_days)
    assert "layer 2 of 3, 100 mm, " in at(made, LAYERS[1]).description
    assert WHOLE not in [task.key for task in made.tasks]


def test_one_layer_stays_the_task_that_it_was(small):
    made = dated(small, (dataclasses.replace(stone()[0], layers=()), stone()[1]))
    assert [task.key for task in made.tasks if not task.wait] == [WHOLE, TaskKey(TaskKind.LAY, 0)]


def test_somebody_looks_at_each_layer_where_the_job_asks_for_it(small):
    assert not [task for task in dated(small).tasks if task.key.kind is WaitKind.HOLD_LAYER]
    made = dated(small, holds=[{"key": "layer", "wait_h": 24.0, "by": "the engineer"}])
    for number, key in enumerate(LAYERS):
        hold = at(made, WaitKey(WaitKind.HOLD_LAYER, 0, number))
        assert hold.hold
        assert hold.after == (key,)
        assert hold.finish - hold.start == dt.timedelta(hours=24)
    assert at(made, LAYERS[1]).start >= at(made, WaitKey(WaitKind.HOLD_LAYER, 0, 0)).finish
    assert at(made, TaskKey(TaskKind.LAY, 0)).start >= at(made, WaitKey(WaitKind.HOLD_LAYER, 0, 2)).finish
    assert "Layer looked at by the engineer" in at(made, WaitKey(WaitKind.HOLD_LAYER, 0, 0)).description


def test_a_layer_is_shown_as_done_and_the_rest_is_planned_from_the_day_after(small):
    made = dated(small, done=[done(LAYERS[0].text)])
    assert [at(made, key).done_percent for key in LAYERS] == [100.0, 0.0, 0.0]
    assert at(made, LAYERS[1]).start == dt.datetime(2027, 6, 2, 8, 0)
    assert made.findings == ()


@pytest.mark.parametrize(
    ("percent", "parts"),
    [(100.0, (100.0, 100.0, 100.0)), (50.0, (100.0, 0.0, 0.0)), (60.0, (100.0, 40.0, 0.0)), (25.0, (50.0, 0.0, 0.0))],
)
def test_what_was_said_of_all_of_it_holds_for_the_lowest_layers(small, percent, parts):
    made = dated(small, done=[done(WHOLE.text, percent)], pins=[{"task": WHOLE.text, "on": "2027-06-01"}])
    assert [at(made, key).done_percent for key in LAYERS] == pytest.approx(list(parts))
    assert made.findings == ()
    assert at(made, LAYERS[0]).pinned_on == dt.date(2027, 6, 1)


def test_layers_of_one_task_are_as_quick_or_slow_as_each_other(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")
    job, tasks = small.job(), stone()
    steps = network(job, tasks, programme_figures(small.rules))
    means = _means(job, steps, job.calendar.start, small.rules)
    order = placed(steps, means, {step.key: number for number, step in enumerate(steps)})
    pieces = _pieces(tasks, order, means, job.calendar.start)
    vague = [number for number, piece in enumerate(pieces) if piece.high > piece.low]
    assert [pieces[number].alike for number in vague] == [None, vague[0], vague[0]]
    assert all((piece.low, piece.high) == pytest.approx((0.8, 1.5)) for piece in (pieces[number] for number in vague))


def test_a_plan_splits_by_the_compaction_of_its_stone_and_its_price_does_not_move(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")["use"] = "car"
    small.document["rates"]["labour_minor_per_hour"] = 4000
    made = plan(small.job(), small.rules)
    count = sum(each.layers.layers for each in made.earthworks.compaction)
    assert count > 1
    task = next(each for each in made.cost.labour if each.key == WHOLE)
    assert len(task.layers) == count
    assert sum(each.share for each in task.layers) == pytest.approx(1.0)
    layers = [each for each in made.programme.tasks if each.key.kind is TaskKind.SUB_BASE_LAYER]
    assert len(layers) == count
    assert sum(each.work_min * each.people for each in layers) == pytest.approx(task.person_hours * 60.0)
    line = next(each for each in made.cost.lines if each.key == WHOLE)
    assert line.amount_minor == round(task.person_hours * 4000)
