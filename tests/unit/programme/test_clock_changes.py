"""Waits over the change of clocks: concrete hardens by hours that go by, not by what the clock on the wall shows."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest

from pavewright.cost import LabourTask, TaskKey, TaskKind
from pavewright.programme import WaitKey, WaitKind, schedule
from pavewright.programme._bound import earliest_end
from pavewright.programme._cure_clock import Temperatures, cure_time, regimes_of
from pavewright.programme._figures import programme_figures
from pavewright.programme._network import network
from pavewright.programme._schedule import _means
from pavewright.programme._settled import _Model
from pavewright.rulebook import load, zone_of
from pavewright.sums import Working

LONDON = ZoneInfo("Europe/London")
BASE, LAY = TaskKey(TaskKind.BASE, 0), TaskKey(TaskKind.LAY, 0)
POINT = TaskKey(TaskKind.POINT, 0)
CURE = WaitKey(WaitKind.CURE_BASE, 0)
SPRING, AUTUMN = dt.date(2027, 3, 27), dt.date(2027, 10, 30)
"""Saturdays before the clocks go forward, and back."""


def work(hours):
    return tuple(LabourTask(key, key.text, each, each, each, Working("", each, "h")) for key, each in hours)


def weekend(small, start):
    """A job of people who work on Saturdays and Sundays too, in the place of London."""
    small.rectangle(4000.0, 3000.0)
    small.document["identity"]["locality"] = "england"
    small.document["calendar"] = {"start": start.isoformat(), "weekdays": list(range(7)), "weather_percent": 0.0}
    return small


@pytest.mark.parametrize(("start", "shown"), [(SPRING, 25), (AUTUMN, 23)])
def test_concrete_hardens_for_real_hours_over_both_changes(small, start, shown):
    job = weekend(small, start).job()
    made = schedule(job, work(((BASE, 8.0), (LAY, 8.0), (POINT, 4.0))), load("england"))
    cure = next(task for task in made.tasks if task.key == CURE)
    assert cure.start.date() == start
    assert cure.finish - cure.start == dt.timedelta(hours=shown)
    gone = cure.finish.replace(tzinfo=LONDON).astimezone(dt.UTC) - cure.start.replace(tzinfo=LONDON).astimezone(dt.UTC)
    assert gone == dt.timedelta(hours=24)
    clock = next(each for each in made.cures if each.key == CURE)
    assert (clock.begins, clock.ends) == (cure.start, cure.finish)
    assert next(task for task in made.tasks if task.key == LAY).start >= cure.finish
    # a place that has several zones, or none, keeps to the clock on the wall
    plain = schedule(job, work(((BASE, 8.0), (LAY, 8.0))), load("elsewhere"))
    cure = next(task for task in plain.tasks if task.key == CURE)
    assert cure.finish - cure.start == dt.timedelta(hours=24)


@pytest.mark.parametrize(("start", "shown"), [(SPRING, 25), (AUTUMN, 23)])
def test_the_bound_and_the_exact_search_count_the_same_hours(small, start, shown):
    rules = load("england")
    job = weekend(small, start).job()
    steps = network(job, work(((BASE, 8.0), (LAY, 8.0))), programme_figures(rules))
    means = _means(job, steps, start, rules)
    place = {step.key: number for number, step in enumerate(steps)}
    bound = earliest_end(steps, means)
    people = means.gangs[0].people
    base_ends = means.clock.after(means.begin, 8.0 / people * 60.0)
    lay_starts = means.clock.first_moment(base_ends + dt.timedelta(hours=shown))
    assert bound == means.clock.after(lay_starts, 8.0 / people * 60.0)
    model = _Model(steps, means)
    cure = steps[place[CURE]]
    began = means.clock.after(means.begin, 2 * model.part_min)
    slot = list(model._ready(cure))[2]
    assert slot == model.slot(began + dt.timedelta(hours=shown))


def test_a_month_with_a_change_holds_an_hour_less():
    """From 31 March back: what is left of a month of two temperatures is counted in hours that go by."""
    rules = load("england")
    figures = programme_figures(rules)
    warm = Temperatures(None, {3: 10.0, 4: 20.0})
    begins = dt.datetime(2027, 3, 27, 12)
    regimes = [each for each in regimes_of(rules, figures) if each.figure.key.endswith("zero.datum_c")]
    assert len(regimes) == 1
    long_rule = replace(figures.base_cure_h, value=100.0, low=None, high=None)
    found = cure_time(begins, long_rule, warm, tuple(regimes), figures, LONDON)
    # 107 hours of March at half speed, the rest of 100 in April at full speed
    assert found.hours == pytest.approx(107.0 + (100.0 - 107.0 * 0.5))


@pytest.mark.parametrize(("region", "shown", "said"), [("SE", 25, 0), ("US", 24, 1), (None, 24, 1)])
def test_elsewhere_the_zone_is_that_of_a_region_with_one_and_else_it_is_said(small, region, shown, said):
    document = weekend(small, SPRING).document
    document["identity"] |= {"locality": "elsewhere", "currency": "SEK"} | ({"region": region} if region else {})
    made = schedule(small.job(), work(((BASE, 8.0), (LAY, 8.0))), load("elsewhere"))
    cure = next(task for task in made.tasks if task.key == CURE)
    assert cure.finish - cure.start == dt.timedelta(hours=shown)
    assert [each.code for each in made.findings].count("programme.clock_changes") == said


def test_how_numbers_are_written_moves_no_site_to_another_place():
    """A place that an edition names keeps its zone, or has none where it has several."""
    assert str(load("scotland").zone_in("SE")) == "Europe/London"
    assert load("usa").zone_in("SE") is None
    assert (zone_of("usa", "SE"), zone_of("elsewhere", "SE"), zone_of("england", "SE")) == (
        "", "Europe/Stockholm", "Europe/London"
    )  # fmt: skip
    assert load("elsewhere").zone_in("US") is load("elsewhere").zone_in("AU") is None


def test_work_without_anything_that_hardens_asks_for_no_zone(small):
    weekend(small, SPRING).document["identity"] |= {"locality": "elsewhere"}
    made = schedule(small.job(), work(((TaskKey(TaskKind.DIG, 0), 8.0),)), load("elsewhere"))
    assert "programme.clock_changes" not in [each.code for each in made.findings]
