"""The site log: logs of one day are one day, hours against the plan, what the firm may learn, what the programme takes."""

from __future__ import annotations

import datetime as dt
import json
from functools import cache
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.firm import FirmBook, PastHours, learnt_outputs
from pavewright.job import OutputKind, load_document, parse
from pavewright.job.on_site import WorkStage
from pavewright.pipeline import plan_as_far
from pavewright.site_log import (
    NotLearnt,
    TaskPace,
    bays_seen,
    done_by_log,
    done_with_log,
    own_hours,
    site_log,
)
from pavewright.site_log._expected import expected_hours

RULES = rulebook.load(rulebook.NEUTRAL)
PATIO = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))
LAY = "lay.area1"


@cache
def planned(text):
    return plan_as_far(parse(load_document(text)), RULES)


def logged(*days, **more):
    """The plan of the patio with days, and its log."""
    plan = planned(json.dumps(PATIO | {"site_days": list(days)} | more))
    return plan, site_log(plan.job, plan.labour, plan.programme, RULES)


def day(name, on=1, **more):
    return {"name": name, "date": f"2027-06-{on:02}"} | more


def hours(task, person_h, done=None):
    return {"task": task, "person_h": person_h} | ({} if done is None else {"done_percent": done})


def task(log, key):
    return next(each for each in log.tasks if each.key.text == key)


def codes(log):
    return [each.code.split(".")[1] for each in log.findings]


def test_no_log_says_nothing():
    _, log = logged()
    assert (log.days, log.person_h, log.findings) == ((), 0.0, ())
    assert {each.pace for each in log.tasks} == {TaskPace.NOT_BEGUN}


def test_logs_of_two_phones_are_one_day_and_a_person_on_both_counts_once():
    ann, ben = {"name": "Ann", "there_h": 8.0}, {"name": "Ben", "there_h": 7.5}
    one = day("one", present=[ann, ben], worked=[hours(LAY, 6.0, 30.0)])
    two = day("two", present=[ann], worked=[hours(LAY, 4.0, 40.0), hours("base.area1", 2.0)])
    _, log = logged(one, two, day("three", on=2))
    assert [each.on.day for each in log.days] == [1, 2]
    first = log.days[0]
    assert [(each.name, each.there_h) for each in first.people] == [("Ann", 8.0), ("Ben", 7.5)]
    assert first.there_h == 15.5
    assert [(each.task, each.person_h, each.done_percent) for each in first.hours] == [
        ("base.area1", 2.0, None),
        (LAY, 10.0, 40.0),
    ]
    assert log.person_h == 12.0
    assert task(log, LAY).logged_h == 10.0


def test_hours_of_somebody_that_nobody_counted_are_not_known_and_are_no_zero():
    _, log = logged(day("one", present=[{"name": "Ann", "there_h": 8.0}, {"name": "Ben"}], worked=[hours(LAY, 12.0)]))
    assert log.days[0].there_h is None
    assert codes(log) == []


def test_more_hours_booked_than_people_were_there_are_noticed():
    _, log = logged(day("one", present=[{"name": "Ann", "there_h": 8.0}], worked=[hours(LAY, 12.0)]))
    assert codes(log) == ["booked_more"]
    assert "12 h are booked" in log.findings[0].message


def test_two_logs_that_give_a_person_other_hours_are_noticed_and_the_hours_not_known():
    _, log = logged(
        day("one", present=[{"name": "Ann", "there_h": 8.0}]), day("two", present=[{"name": "Ann", "there_h": 6.0}])
    )
    assert log.days[0].people[0].there_h is None
    assert codes(log) == ["person_twice"]


def test_a_stop_whose_length_nobody_noted_leaves_the_lost_time_unknown():
    _, log = logged(
        day("one", stops=[{"why": "rain", "lost_h": 2.0}, {"why": "delivery", "lost_h": 0.5}]),
        day("two", on=2, stops=[{"why": "rain"}]),
    )
    assert [each.lost_h for each in log.days] == [2.5, None]


@pytest.mark.parametrize(
    ("share", "done", "pace"),
    [
        (0.5, None, TaskPace.NOT_KNOWN),
        (0.1, 10.0, TaskPace.TOO_EARLY),
        (0.5, 50.0, TaskPace.AS_PLANNED),
        (3.0, 50.0, TaskPace.SLOWER),
        (0.05, 80.0, TaskPace.QUICKER),
    ],
)
def test_hours_are_held_against_the_range_of_the_plan(share, done, pace):
    _, log = logged()
    planned_h = task(log, LAY).planned_h
    _, log = logged(day("one", worked=[hours(LAY, round(planned_h * share, 3), done)]))
    assert task(log, LAY).pace is pace
    assert ("slower" in codes(log)) is (pace is TaskPace.SLOWER)


def test_a_doubt_that_reaches_into_the_range_of_the_plan_is_no_verdict():
    """At 40 % by eye twice the highest hours of the plan over the share may still be within it; the ends decide."""
    _, log = logged()
    lay = task(log, LAY)
    just = lay.high_h * 0.40
    _, log = logged(day("one", worked=[hours(LAY, round(just * 1.2, 3), 40.0)]))
    lay = task(log, LAY)
    assert lay.expected_h > lay.high_h > lay.expected_low_h
    assert lay.pace is TaskPace.AS_PLANNED


def test_what_is_done_whole_took_what_was_logged():
    found = expected_hours(12.0, 100.0, 5.0)
    assert (found.likely_h, found.low_h, found.high_h) == (12.0, 12.0, 12.0)
    # 9 h for 60 % are 15 h in all; at 70 % they would be 12.9 h, at 50 % 18 h
    found = expected_hours(9.0, 60.0, 5.0)
    assert [round(each, 1) for each in (found.likely_h, found.low_h, found.high_h)] == [15.0, 12.9, 18.0]
    assert expected_hours(1.0, 8.0, 5.0).high_h == float("inf")


def test_hours_of_a_task_that_the_plan_holds_no_more_stay_and_are_said():
    _, log = logged(day("one", worked=[hours("lay.area9", 3.0, 50.0)]))
    assert log.person_h == 3.0
    assert codes(log) == ["no_such_task"]


def test_less_done_than_the_day_before_is_noticed():
    _, log = logged(day("one", worked=[hours(LAY, 3.0, 50.0)]), day("two", on=2, worked=[hours(LAY, 3.0, 40.0)]))
    assert "less_done" in codes(log)


def test_the_programme_takes_what_the_log_says_is_done_and_plans_the_rest():
    plan, log = logged(day("one", worked=[hours("set_out.area1", 4.0, 100.0), hours("base.area1", 5.0, 50.0)]))
    assert codes(log).count("done_differs") == 2
    found = done_by_log(plan.job)
    assert [(each.task, each.on, each.since, each.done_percent) for each in found] == [
        ("set_out.area1", dt.date(2027, 6, 1), dt.date(2027, 6, 1), 100.0),
        ("base.area1", dt.date(2027, 6, 1), dt.date(2027, 6, 1), 50.0),
    ]
    done = [each.model_dump(mode="json") for each in done_with_log(plan.job)]
    after, log = logged(
        day("one", worked=[hours("set_out.area1", 4.0, 100.0), hours("base.area1", 5.0, 50.0)]), done=done
    )
    assert "done_differs" not in codes(log)
    assert after.programme.done_up_to == dt.date(2027, 6, 1)
    assert next(each for each in after.programme.tasks if each.key.text == "base.area1").done_percent == 50.0


def test_what_was_entered_by_hand_stays_where_the_log_says_nothing():
    plan, _ = logged(
        day("one", worked=[hours("base.area1", 5.0, 50.0)]),
        done=[{"task": "set_out.area1", "on": "2027-05-31"}, {"task": "base.area1", "on": "2027-05-31"}],
    )
    assert [(each.task, each.done_percent) for each in done_with_log(plan.job)] == [
        ("set_out.area1", 100.0),
        ("base.area1", 50.0),
    ]


def finished(plan, log, key, hours_each):
    """A log in which a task took so many hours for each unit, and is done."""
    own = next(each for each in plan.labour if each.key.text == key)
    return day("one", worked=[hours(key, round(own.measured.amount * own.measured.times * hours_each, 3), 100.0)])


def test_a_finished_task_says_the_own_output_and_a_half_done_one_does_not():
    plan, log = logged()
    plan, log = logged(finished(plan, log, LAY, 0.9))
    (own,) = own_hours(plan.job, plan.labour, log, ())
    assert own.kind in {OutputKind.LAY_FLAGS, OutputKind.LAY_BLOCKS}
    assert own.hours_each == pytest.approx(0.9, abs=1e-3)
    assert own.why_not is None
    assert own.entry.person_hours == own.person_h
    plan, log = logged(day("one", worked=[hours(LAY, 5.0, 90.0)]))
    (own,) = own_hours(plan.job, plan.labour, log, ())
    assert (own.why_not, own.entry) == (NotLearnt.NOT_DONE, None)


def test_what_the_book_took_of_this_job_it_is_not_offered_again():
    plan, log = logged()
    plan, log = logged(finished(plan, log, LAY, 0.9))
    (own,) = own_hours(plan.job, plan.labour, log, ())
    (again,) = own_hours(plan.job, plan.labour, log, (own.entry,))
    assert (again.why_not, again.entry) == (NotLearnt.IN_BOOK, None)


def test_the_next_job_is_planned_with_what_this_one_took():
    plan, log = logged()
    plan, log = logged(finished(plan, log, LAY, 0.9))
    (own,) = own_hours(plan.job, plan.labour, log, ())
    empty = FirmBook.model_validate_json('{"format": "pavewright.firm", "version": 1}')
    book = empty.model_copy(update={"past": (own.entry,)})
    (learnt,) = learnt_outputs(book.past, RULES)
    assert (learnt.kind, learnt.own_hours, learnt.jobs) == (own.kind, pytest.approx(0.9, abs=1e-3), 1)
    assert min(learnt.book_hours, 0.9) < learnt.hours_each < max(learnt.book_hours, 0.9)
    assert isinstance(own.entry, PastHours)


def test_a_bay_shows_the_last_stage_that_was_logged_and_others_none():
    plan, _ = logged()
    area = plan.levels.areas[0]
    x, y = (sum(each) / len(each) for each in zip(*area.surface.facets[0].outline, strict=True))
    bay = {"area": area.area, "x_mm": x, "y_mm": y}
    plan, _ = logged(
        day("one", bays=[bay | {"stage": "base"}]),
        day("two", bays=[bay | {"stage": "bed"}]),
        day("late", on=3, bays=[bay | {"stage": "laid"}, bay | {"stage": "laid", "area": "gone"}]),
    )
    first, *others = bays_seen(plan.job, plan.levels.areas)
    assert (first.stage, first.on, first.number) == (WorkStage.LAID, dt.date(2027, 6, 3), 1)
    assert {each.stage for each in others} <= {None}
