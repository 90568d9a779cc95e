"""Dates worked out by hand."""

from __future__ import annotations

import datetime as dt

import pytest

from pavewright.cost import Cost, LabourTask
from pavewright.job import JobInvalid
from pavewright.programme import schedule
from pavewright.sums import Working


def cost_of(*hours: tuple[str, float]) -> Cost:
    tasks = tuple(LabourTask(key, key, each, each, each, Working("", each, "h")) for key, each in hours)
    return Cost(tasks, (), 0, 0, 0, 0, 0, 0, 0, 0, (), (), (), ())


def planned(small, *hours):
    return schedule(small.job(), None, cost_of(*hours), small.rules)


def at(programme, key):
    return next(task for task in programme.tasks if task.key == key)


def test_two_people_halve_the_time_and_the_working_day_is_kept(small):
    small.rectangle(4000.0, 3000.0)
    # Tuesday 1 June 2027, 8 h days from 8:00: 24 person-hours are 12 on the clock
    programme = planned(small, ("dig.Patio", 24.0))
    task = at(programme, "dig.Patio")
    assert task.start == dt.datetime(2027, 6, 1, 8, 0)
    assert task.finish == dt.datetime(2027, 6, 2, 12, 0)
    assert (programme.site_days, programme.start, programme.finish) == (2, dt.date(2027, 6, 1), dt.date(2027, 6, 2))


def test_a_base_hardens_for_a_day_before_it_is_laid_on(small):
    small.rectangle(4000.0, 3000.0)
    programme = planned(small, ("base.Patio", 8.0), ("lay.Patio", 16.0), ("point.Patio", 4.0))
    assert at(programme, "base.Patio").finish == dt.datetime(2027, 6, 1, 12, 0)
    assert at(programme, "cure_base.Patio").finish == dt.datetime(2027, 6, 2, 12, 0)
    assert at(programme, "lay.Patio").start == dt.datetime(2027, 6, 2, 12, 0)
    assert at(programme, "lay.Patio").finish == dt.datetime(2027, 6, 3, 12, 0)
    # 24 hours before pointing
    assert at(programme, "point.Patio").start == dt.datetime(2027, 6, 4, 12, 0)
    assert programme.foot_ready == dt.date(2027, 6, 5)
    assert programme.car_ready is None


def test_waits_run_over_the_weekend_and_work_does_not(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2027-06-04"
    programme = planned(small, ("base.Patio", 16.0), ("lay.Patio", 2.0))
    assert at(programme, "cure_base.Patio").finish == dt.datetime(2027, 6, 5, 16, 0)
    assert at(programme, "lay.Patio").start == dt.datetime(2027, 6, 7, 8, 0)


def test_days_off_are_skipped(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["days_off"] = ["2027-06-01", "2027-06-02"]
    assert planned(small, ("dig.Patio", 2.0)).start == dt.date(2027, 6, 3)


def test_weather_lengthens_only_what_rain_stops(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["weather_percent"] = 25.0
    programme = planned(small, ("dig.Patio", 4.0), ("point.Patio", 4.0))
    assert at(programme, "dig.Patio").work_min == pytest.approx(120.0)
    assert at(programme, "point.Patio").work_min == pytest.approx(150.0)


def test_while_one_base_hardens_the_crew_works_on_the_other_area(small):
    small.rectangle(4000.0, 3000.0)
    small.area([(0, 4000), (4000, 4000), (4000, 6000), (0, 6000)], "Other")
    programme = planned(small, ("base.Patio", 16.0), ("lay.Patio", 4.0), ("dig.Other", 8.0), ("base.Other", 8.0))
    assert at(programme, "dig.Other").start == dt.datetime(2027, 6, 2, 8, 0)
    # the first base is hard at 16:00 on the second day, when the crew has just placed the other
    assert at(programme, "lay.Patio").start == dt.datetime(2027, 6, 3, 8, 0)


def test_blocks_on_sand_may_be_driven_on_when_they_are_done(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")["use"] = "car"
    programme = planned(small, ("lay.Patio", 4.0), ("point.Patio", 4.0))
    assert programme.car_ready == programme.foot_ready == programme.finish == dt.date(2027, 6, 1)
    assert "cure_bed.Patio" not in [task.key for task in programme.tasks]


def test_slabs_on_mortar_wait_a_week_for_a_car(small):
    small.rectangle(4000.0, 3000.0)["use"] = "car"
    programme = planned(small, ("lay.Patio", 4.0), ("point.Patio", 4.0))
    assert programme.car_ready == dt.date(2027, 6, 9)


def test_winter_mortar_is_told(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["start"] = "2027-12-06"
    assert [finding.code for finding in planned(small, ("lay.Patio", 4.0)).findings] == ["programme.cold_season"]
    assert planned(small, ("dig.Patio", 4.0)).findings == ()


def test_no_working_day_is_a_fault_of_the_document(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["weekdays"] = []
    with pytest.raises(JobInvalid, match="No day is a working day"):
        planned(small, ("dig.Patio", 4.0))


def test_every_task_starts_after_those_before_it_and_none_on_a_day_off(small):
    small.rectangle(4000.0, 3000.0)
    small.document["calendar"]["days_off"] = ["2027-06-03"]
    programme = planned(
        small,
        ("set_out.Patio", 2.0), ("dig.Patio", 30.0), ("drains", 3.0), ("base.Patio", 11.0), ("cut.Patio", 3.0),
        ("lay.Patio", 25.0), ("point.Patio", 7.0), ("clear.Patio", 2.0),
    )  # fmt: skip
    finish = {task.key: task.finish for task in programme.tasks}
    for task in programme.tasks:
        assert all(finish[key] <= task.start for key in task.after)
        if not task.wait:
            assert task.start.date() != dt.date(2027, 6, 3)
            assert task.start.weekday() < 5
    assert at(programme, "base.Patio").after == ("drains",)
    assert programme.hire_days == ()
