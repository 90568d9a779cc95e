"""Dates worked out by hand."""

from __future__ import annotations

import datetime as dt
import time

import pytest

from pavewright.cost import LabourTask, TaskKey, TaskKind
from pavewright.job import JobInvalid
from pavewright.pipeline import plan
from pavewright.programme import WaitKey, WaitKind, schedule
from pavewright.sums import Working


def planned(small, *hours: tuple[TaskKey, float]):
    tasks = tuple(LabourTask(key, key.text, each, each, each, Working("", each, "h")) for key, each in hours)
    return schedule(small.job(), tasks, small.rules)


def at(programme, key):
    return next(task for task in programme.tasks if task.key == key)


def test_two_people_halve_the_time_and_the_working_day_is_kept(small):
    small.rectangle(4000.0, 3000.0)
    # Tuesday 1 June 2027, 8 h days from 8:00: 24 person-hours are 12 on the clock
    programme = planned(small, (TaskKey(TaskKind.DIG, 0), 24.0))
    task = at(programme, TaskKey(TaskKind.DIG, 0))
    assert task.start == dt.datetime(2027, 6, 1, 8, 0)
    assert task.finish == dt.datetime(2027, 6, 2, 12, 0)
    assert (programme.site_days, programme.start, programme.finish) == (2, dt.date(2027, 6, 1), dt.date(2027, 6, 2))


def test_a_base_hardens_for_a_day_before_it_is_laid_on(small):
    small.rectangle(4000.0, 3000.0)
    programme = planned(
        small, (TaskKey(TaskKind.BASE, 0), 8.0), (TaskKey(TaskKind.LAY, 0), 16.0), (TaskKey(TaskKind.POINT, 0), 4.0)
    )
    assert at(programme, TaskKey(TaskKind.BASE, 0)).finish == dt.datetime(2027, 6, 1, 12, 0)
    assert at(programme, WaitKey(WaitKind.CURE_BASE, 0)).finish == dt.datetime(2027, 6, 2, 12, 0)
    assert at(programme, TaskKey(TaskKind.LAY, 0)).start == dt.datetime(2027, 6, 2, 12, 0)
    assert at(programme, TaskKey(TaskKind.LAY, 0)).finish == dt.datetime(2027, 6, 3, 12, 0)
    # 24 hours before pointing
    assert at(programme, TaskKey(TaskKind.POINT, 0)).start == dt.datetime(2027, 6, 4, 12, 0)
    assert programme.foot_ready == dt.date(2027, 6, 5)
    assert programme.car_ready is None


def test_waits_run_over_the_weekend_and_work_does_not(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2027-06-04"
    programme = planned(small, (TaskKey(TaskKind.BASE, 0), 16.0), (TaskKey(TaskKind.LAY, 0), 2.0))
    assert at(programme, WaitKey(WaitKind.CURE_BASE, 0)).finish == dt.datetime(2027, 6, 5, 16, 0)
    assert at(programme, TaskKey(TaskKind.LAY, 0)).start == dt.datetime(2027, 6, 7, 8, 0)


def test_days_off_are_skipped(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["days_off"] = ["2027-06-01", "2027-06-02"]
    assert planned(small, (TaskKey(TaskKind.DIG, 0), 2.0)).start == dt.date(2027, 6, 3)


def test_weather_lengthens_only_what_rain_stops(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["weather_percent"] = 25.0
    programme = planned(small, (TaskKey(TaskKind.DIG, 0), 4.0), (TaskKey(TaskKind.POINT, 0), 4.0))
    assert at(programme, TaskKey(TaskKind.DIG, 0)).work_min == pytest.approx(120.0)
    assert at(programme, TaskKey(TaskKind.POINT, 0)).work_min == pytest.approx(150.0)


def test_while_one_base_hardens_the_crew_works_on_the_other_area(small):
    small.rectangle(4000.0, 3000.0)
    small.area([(0, 4000), (4000, 4000), (4000, 6000), (0, 6000)], "Other")
    programme = planned(
        small,
        (TaskKey(TaskKind.BASE, 0), 16.0),
        (TaskKey(TaskKind.LAY, 0), 4.0),
        (TaskKey(TaskKind.DIG, 1), 8.0),
        (TaskKey(TaskKind.BASE, 1), 8.0),
    )
    assert at(programme, TaskKey(TaskKind.DIG, 1)).start == dt.datetime(2027, 6, 2, 8, 0)
    # the first base is hard at 16:00 on the second day, when the crew has just placed the other
    assert at(programme, TaskKey(TaskKind.LAY, 0)).start == dt.datetime(2027, 6, 3, 8, 0)


def test_blocks_on_sand_may_be_driven_on_when_they_are_done(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")["use"] = "car"
    programme = planned(small, (TaskKey(TaskKind.LAY, 0), 4.0), (TaskKey(TaskKind.POINT, 0), 4.0))
    assert programme.car_ready == programme.foot_ready == programme.finish == dt.date(2027, 6, 1)
    assert WaitKey(WaitKind.CURE_BED, 0) not in [task.key for task in programme.tasks]


def test_slabs_on_mortar_wait_a_week_for_a_car(small):
    small.rectangle(4000.0, 3000.0)["use"] = "car"
    programme = planned(small, (TaskKey(TaskKind.LAY, 0), 4.0), (TaskKey(TaskKind.POINT, 0), 4.0))
    assert programme.car_ready == dt.date(2027, 6, 9)


def test_winter_mortar_is_told(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2027-12-06"
    assert [finding.code for finding in planned(small, (TaskKey(TaskKind.LAY, 0), 4.0)).findings] == [
        "programme.cold_season"
    ]
    assert planned(small, (TaskKey(TaskKind.DIG, 0), 4.0)).findings == ()


def test_no_working_day_is_a_fault_of_the_document(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["weekdays"] = []
    with pytest.raises(JobInvalid, match="No day is a working day"):
        planned(small, (TaskKey(TaskKind.DIG, 0), 4.0))


@pytest.mark.parametrize("hours", [1e-9, 1e-4])
def test_work_of_a_hundred_years_is_a_fault_of_the_document(small, hours):
    small.rectangle(4000.0, 3000.0)
    small.document["crew"]["hours_per_day"] = hours
    started = time.process_time()
    with pytest.raises(JobInvalid, match="more than ten years: check hours_per_day"):
        planned(small, *((TaskKey(TaskKind.DIG, number), 4.0) for number in range(20)))
    assert time.process_time() - started < 2.0


def test_work_that_begins_on_the_last_day_of_a_job_is_dated(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2199-12-31"
    assert planned(small, (TaskKey(TaskKind.DIG, 0), 40.0)).finish.year == 2200


def test_every_task_starts_after_those_before_it_and_none_on_a_day_off(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["days_off"] = ["2027-06-03"]
    programme = planned(
        small,
        (TaskKey(TaskKind.SET_OUT, 0), 2.0), (TaskKey(TaskKind.DIG, 0), 30.0), (TaskKey(TaskKind.DRAINS), 3.0), (TaskKey(TaskKind.BASE, 0), 11.0), (TaskKey(TaskKind.CUT, 0), 3.0),
        (TaskKey(TaskKind.LAY, 0), 25.0), (TaskKey(TaskKind.POINT, 0), 7.0), (TaskKey(TaskKind.CLEAR, 0), 2.0),
    )  # fmt: skip
    finish = {task.key: task.finish for task in programme.tasks}
    for task in programme.tasks:
        assert all(finish[key] <= task.start for key in task.after)
        if not task.wait:
            assert task.start.date() != dt.date(2027, 6, 3)
            assert task.start.weekday() < 5
    looked_at = WaitKey(WaitKind.HOLD_DRAINS)
    assert at(programme, TaskKey(TaskKind.BASE, 0)).after == (WaitKey(WaitKind.HOLD_FORMATION, 0), looked_at)
    assert at(programme, looked_at).after == (TaskKey(TaskKind.DRAINS),)
    assert programme.hires == ()


def test_an_area_whose_name_ends_in_that_of_another_has_its_own_tasks(small):
    small.rectangle(4000.0, 3000.0)
    small.area([(0, 4000), (4000, 4000), (4000, 6000), (0, 6000)], "Front.Patio")
    made = plan(small.job(), small.rules)
    keys = [task.key for task in made.programme.tasks]
    assert len(set(keys)) == len(keys) == len({key.text for key in keys})
    assert sum(task.key == TaskKey(TaskKind.LAY, 0) for task in made.programme.tasks) == 1
    assert sum(not task.wait for task in made.programme.tasks) == len(made.cost.labour)
