"""Several gangs, machines that are shared, holds, pins, and what is done."""

from __future__ import annotations

import copy
import datetime as dt
import itertools

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pavewright.cost import LabourTask, TaskKey, TaskKind
from pavewright.job import JobInvalid, PlantKind, parse
from pavewright.programme import WaitKey, WaitKind, schedule
from pavewright.programme._figures import programme_figures
from pavewright.programme._held import HeldKind
from pavewright.programme._network import FILLED_IN, network
from pavewright.programme._placing import placed
from pavewright.programme._schedule import _means
from pavewright.rulebook import load
from pavewright.sums import Working

DIG, BASE, LAY, POINT, CLEAR, CUT = (
    TaskKind.DIG, TaskKind.BASE, TaskKind.LAY, TaskKind.POINT, TaskKind.CLEAR, TaskKind.CUT
)  # fmt: skip
TWO_AREAS = tuple(
    (TaskKey(kind, area), hours)
    for area in (0, 1)
    for kind, hours in ((DIG, 16.0), (BASE, 8.0), (CUT, 4.0), (LAY, 24.0), (POINT, 8.0), (CLEAR, 2.0))
)
SAW = {"key": "saw", "name": "Saw", "day_price_minor": 2000}


def work(hours, plant=()):
    return tuple(LabourTask(key, key.text, each, each, each, Working("", each, "h"), plant) for key, each in hours)


def two_areas(small, **changes):
    small.rectangle(4000.0, 3000.0)
    small.area([(0, 4000), (4000, 4000), (4000, 6000), (0, 6000)], "Other")
    for name, value in changes.items():
        small.document[name] = value
    return small


def gangs(*sizes, skills=("any",)):
    return [{"name": f"Gang {n}", "people": list(skills) * size} for n, size in enumerate(sizes, start=1)]


def at(programme, key):
    return next(task for task in programme.tasks if task.key == key)


def overlaps(one, other):
    return one.start < other.finish and other.start < one.finish


def test_two_gangs_work_on_two_areas_at_once_and_are_done_earlier(small):
    two_areas(small)
    alone = schedule(small.job(), work(TWO_AREAS), small.rules)
    small.document["crew"]["gangs"] = gangs(2, 2)
    both = schedule(small.job(), work(TWO_AREAS), small.rules)
    assert both.finish < alone.finish
    first, second = at(both, TaskKey(DIG, 0)), at(both, TaskKey(DIG, 1))
    assert first.start == second.start
    assert {first.gang, second.gang} == {0, 1}
    assert [gang.people for gang in both.gangs] == [2, 2]
    assert both.earliest_finish <= both.finish


def test_one_saw_serves_one_gang_at_a_time_and_two_serve_both(small):
    two_areas(small)
    small.document["crew"]["gangs"] = gangs(2, 2)
    cuts = ((TaskKey(CUT, 0), 8.0), (TaskKey(CUT, 1), 8.0))
    small.document["rates"]["plant"] = [SAW]
    made = schedule(small.job(), work(cuts, (PlantKind.SAW,)), small.rules)
    second = at(made, TaskKey(CUT, 1))
    assert second.start == at(made, TaskKey(CUT, 0)).finish
    assert (second.held_by.kind, second.held_by.key, second.held_by.plant) == (
        HeldKind.PLANT, TaskKey(CUT, 0), PlantKind.SAW
    )  # fmt: skip
    small.document["rates"]["plant"] = [SAW, SAW]
    made = schedule(small.job(), work(cuts, (PlantKind.SAW,)), small.rules)
    assert at(made, TaskKey(CUT, 1)).start == at(made, TaskKey(CUT, 0)).start


def test_only_a_gang_with_a_layer_lays(small):
    two_areas(small)
    small.document["crew"]["gangs"] = gangs(3, skills=("labourer",)) + [{"name": "Layers", "people": ["layer"]}]
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    assert {task.gang for task in made.tasks if task.key.kind is LAY} == {1}
    assert [finding.code for finding in made.findings] == ["programme.no_skill"]  # nobody can dig


def test_pieces_are_cut_while_others_lay(small):
    small.rectangle(4000.0, 3000.0)
    small.document["crew"]["gangs"] = gangs(2, 1)
    made = schedule(small.job(), work(TWO_AREAS[:6]), small.rules)
    cut, lay = at(made, TaskKey(CUT, 0)), at(made, TaskKey(LAY, 0))
    assert overlaps(cut, lay)
    # the bed hardens from when the last piece lies, cut ones among them
    assert set(at(made, WaitKey(WaitKind.CURE_BED, 0)).after) == {cut.key, lay.key}


def test_an_inspection_holds_up_the_stone_and_nothing_else(small):
    two_areas(small, holds=[{"key": "formation", "wait_h": 48.0, "by": "Building control"}])
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    hold, stone = at(made, WaitKey(WaitKind.HOLD_FORMATION, 0)), at(made, TaskKey(BASE, 0))
    assert hold.finish - hold.start == dt.timedelta(hours=48)
    assert hold.hold
    assert hold.description == "Formation looked at by Building control before stone, Patio"
    assert stone.start >= hold.finish
    # meanwhile the crew digs the other area
    assert at(made, TaskKey(DIG, 1)).start == dt.datetime(2027, 6, 2, 8)


PIPES, FILLED = TaskKey(TaskKind.GULLY_PIPES), TaskKey(TaskKind.GULLY_FILL)
PIT, PIT_FILLED = TaskKey(TaskKind.PIT_DIG), TaskKey(TaskKind.PIT_FILL)


def test_drains_are_looked_at_while_they_lie_open(small):
    """Pipes and pits wait for whoever looks; trenches are filled after that, and stone comes after the filling."""
    small.rectangle(4000.0, 3000.0)
    small.document["holds"] = [{"key": "drains", "wait_h": 24.0, "by": "Inspector"}]
    hours = (
        (TaskKey(DIG, 0), 8.0),
        (PIPES, 4.0),
        (PIT, 4.0),
        (FILLED, 2.0),
        (PIT_FILLED, 2.0),
        (TaskKey(BASE, 0), 8.0),
    )
    made = schedule(small.job(), work(hours), small.rules)
    look, stone = at(made, WaitKey(WaitKind.HOLD_DRAINS)), at(made, TaskKey(BASE, 0))
    assert look.description == "Drains tested and looked at by Inspector while they lie open"
    assert look.start == max(at(made, PIPES).finish, at(made, PIT).finish)
    assert min(at(made, FILLED).start, at(made, PIT_FILLED).start) >= look.finish == look.start + dt.timedelta(hours=24)
    assert stone.start >= max(at(made, FILLED).finish, at(made, PIT_FILLED).finish)
    assert not made.findings


def test_what_is_filled_in_is_work_of_its_own_in_a_job_with_drains(made_plan):
    """Laying and filling of a pipe are together the work that they were, and the look stands between them."""
    made = made_plan("front_drive")
    by_kind = {task.key.kind: task for task in made.programme.tasks}
    look = by_kind[WaitKind.HOLD_DRAINS]
    filled = {kind for kind in by_kind if kind in FILLED_IN}
    assert filled
    for kind in filled:
        assert by_kind[kind].start >= look.finish
    for laid, filled_in in (
        (TaskKind.CHANNEL_PIPES, TaskKind.CHANNEL_FILL),
        (TaskKind.GULLY_PIPES, TaskKind.GULLY_FILL),
    ):
        pair = [
            sum(each.person_hours for each in made.cost.labour if each.key.kind is kind) for kind in (laid, filled_in)
        ]
        assert pair[1] == pytest.approx(load("england").value("cost.pipe_fill_share") * sum(pair))


def test_a_pinned_task_waits_for_its_day_and_says_so(small):
    two_areas(small, pins=[{"task": "lay.area1", "on": "2027-06-21", "reason": "Stone comes then"}])
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    lay = at(made, TaskKey(LAY, 0))
    assert lay.start == dt.datetime(2027, 6, 21, 8)
    assert lay.held_by.kind is HeldKind.PIN
    assert lay.pinned_on == dt.date(2027, 6, 21)
    assert made.findings == ()


def test_a_pin_that_cannot_hold_is_noticed(small):
    two_areas(small, pins=[{"task": "lay.area1", "on": "2027-06-01", "reason": ""}])
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    assert [finding.code for finding in made.findings] == ["programme.pin_late"]


def test_what_is_left_is_planned_from_the_day_after_what_is_done(small):
    done = [
        {"task": "dig.area1", "on": "2027-06-03", "since": "2027-06-01"},
        {"task": "base.area1", "on": "2027-06-07", "done_percent": 50.0},
    ]
    two_areas(small, done=done)
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    dig, base = at(made, TaskKey(DIG, 0)), at(made, TaskKey(BASE, 0))
    assert (dig.start, dig.finish) == (dt.datetime(2027, 6, 1, 8), dt.datetime(2027, 6, 3, 16))
    assert (dig.done_percent, dig.work_min, dig.critical) == (100.0, 0.0, False)
    # half of 4 hours on the clock is left, from the morning after
    assert (base.start, base.finish) == (dt.datetime(2027, 6, 7, 8), dt.datetime(2027, 6, 8, 10))
    assert base.work_min == pytest.approx(120.0)
    assert made.done_up_to == dt.date(2027, 6, 7)
    assert at(made, TaskKey(DIG, 1)).start >= dt.datetime(2027, 6, 8, 8)


def test_what_is_done_before_its_turn_or_is_no_task_is_noticed(small):
    done = [{"task": "lay.area1", "on": "2027-06-03"}, {"task": "walk.area9", "on": "2027-06-02"}]
    two_areas(small, done=done)
    made = schedule(small.job(), work(TWO_AREAS), small.rules)
    assert {finding.code for finding in made.findings} == {"programme.no_such_task", "programme.out_of_order"}


def test_a_task_that_is_done_twice_is_a_fault(small):
    small.rectangle(4000.0, 3000.0)
    small.document["done"] = [{"task": "lay.area1", "on": "2027-06-03"}] * 2
    with pytest.raises(JobInvalid, match=r"lay\.area1"):
        parse(small.document)


def test_float_is_how_long_a_wait_over_the_weekend_leaves(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2027-06-04"
    made = schedule(small.job(), work(((TaskKey(BASE, 0), 8.0), (TaskKey(LAY, 0), 2.0))), small.rules)
    base, lay = at(made, TaskKey(BASE, 0)), at(made, TaskKey(LAY, 0))
    # done on Friday at noon, hard on Saturday at noon, laid on from Monday: it may end as late as Friday at four
    assert base.finish == dt.datetime(2027, 6, 4, 12)
    assert base.total_float_min == pytest.approx(240.0)
    assert base.free_float_min == 0.0
    assert not base.critical
    assert lay.critical


def test_a_gang_moves_to_another_area_at_half_a_day(small):
    two_areas(small)
    small.document["calendar"]["half_days"] = True
    made = schedule(small.job(), work(((TaskKey(DIG, 0), 2.0), (TaskKey(DIG, 1), 2.0))), small.rules)
    assert at(made, TaskKey(DIG, 1)).start == dt.datetime(2027, 6, 1, 12)


@pytest.fixture
def two(small):
    return two_areas(small)


KINDS = (DIG, BASE, CUT, LAY, POINT, CLEAR)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    hours=st.lists(st.floats(0.1, 40.0), min_size=12, max_size=12),
    sizes=st.lists(st.integers(1, 4), min_size=1, max_size=3),
    saws=st.integers(0, 2),
    half=st.booleans(),
)
def test_order_gangs_machines_and_working_time_are_kept(two, hours, sizes, saws, half):
    document = copy.deepcopy(two.document)
    document["crew"]["gangs"] = gangs(*sizes)
    document["rates"]["plant"] = [SAW] * saws
    document["calendar"]["half_days"] = half
    keys = [TaskKey(kind, area) for area in (0, 1) for kind in KINDS]
    made = schedule(parse(document), work(tuple(zip(keys, hours, strict=True)), (PlantKind.SAW,)), two.rules)
    finish = {task.key: task.finish for task in made.tasks}
    busy = [task for task in made.tasks if not task.wait]
    for task in made.tasks:
        assert all(finish[key] <= task.start for key in task.after)
        assert 0.0 <= task.free_float_min <= task.total_float_min + 1e-6
    for one, other in itertools.combinations(busy, 2):
        assert one.gang != other.gang or not overlaps(one, other)
    for task in busy:
        at_once = [each for each in busy if each.start <= task.start < each.finish]
        assert saws == 0 or len(at_once) <= saws
        assert task.start.weekday() < 5
    assert made.earliest_finish <= made.finish
    assert any(task.critical for task in busy)


def test_an_exact_search_never_says_more_than_every_order_shows(small):
    """Two areas, six tasks, two gangs: the bound lies at or before the best of every order by rank."""
    two_areas(small)
    small.document["crew"]["gangs"] = gangs(1, 2)
    hours = ((TaskKey(DIG, 0), 9.0), (TaskKey(BASE, 0), 10.0), (TaskKey(LAY, 0), 12.0),
             (TaskKey(DIG, 1), 14.0), (TaskKey(BASE, 1), 7.0), (TaskKey(LAY, 1), 20.0))  # fmt: skip
    quick = schedule(small.job(), work(hours), small.rules)
    small.document["calendar"]["exact_order"] = True
    job = small.job()
    searched = schedule(job, work(hours), small.rules)
    steps = network(job, work(hours), programme_figures(small.rules))
    means = _means(job, steps, job.calendar.start, small.rules)
    best = min(
        max(each.finish for each in placed(steps, means, rank, by_rank=True) if not each.step.wait).date()
        for order in itertools.permutations([step.key for step in steps if not step.wait])
        for rank in [{step.key: 0 for step in steps} | {key: number for number, key in enumerate(order)}]
    )
    assert searched.earliest_finish <= best
    assert quick.earliest_finish <= searched.earliest_finish
    assert searched.finish <= quick.finish
    assert searched.proven == (searched.finish == searched.earliest_finish)


@pytest.mark.parametrize(
    ("pinned", "on", "hours", "quick_ends", "ends"),
    [
        (TaskKey(BASE, 1), 7, (14, 14, 17, 16, 19, 6), 10, 9),
        (TaskKey(BASE, 1), 8, (23, 23, 28, 5, 16, 26), 14, 11),
        (TaskKey(LAY, 0), 7, (26, 26, 5, 11, 16, 5), 8, 7),
    ],
)
def test_an_exact_search_saves_a_day_and_keeps_what_is_done_and_what_is_pinned(
    small, pinned, on, hours, quick_ends, ends
):
    done = [{"task": "dig.area1", "on": "2027-06-01"}, {"task": "base.area1", "on": "2027-06-02", "done_percent": 50.0}]
    pin = {"task": pinned.text, "on": f"2027-06-0{on}", "reason": "It comes then"}
    two_areas(small, done=done, pins=[pin])
    small.document["crew"]["gangs"] = gangs(1, 2)
    keys = [TaskKey(kind, area) for area in (0, 1) for kind in (DIG, BASE, LAY)]
    tasks = work(tuple(zip(keys, map(float, hours), strict=True)))
    quick = schedule(small.job(), tasks, small.rules)
    small.document["calendar"]["exact_order"] = True
    made = schedule(small.job(), tasks, small.rules)
    assert (quick.finish, quick.proven) == (dt.date(2027, 6, quick_ends), False)
    assert (made.finish, made.proven) == (dt.date(2027, 6, ends), True)
    assert at(made, TaskKey(DIG, 0)).finish == dt.datetime(2027, 6, 1, 16)
    assert at(made, pinned).start >= dt.datetime(2027, 6, on, 8)
    finish = {task.key: task.finish for task in made.tasks}
    left = [task for task in made.tasks if task.done_percent < 100.0 and not task.wait]
    for task in left:
        assert task.finish > dt.datetime(2027, 6, 3)
        assert all(finish[key] <= (task.finish if task.done_percent else task.start) for key in task.after)
    for one, other in itertools.combinations(left, 2):
        assert one.gang != other.gang or one.done_percent or other.done_percent or not overlaps(one, other)
