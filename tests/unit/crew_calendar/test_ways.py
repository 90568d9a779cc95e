"""Changes of place weigh in the search as the check counts them; the bound holds; the way itself is always the same."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from tests.unit.crew_calendar.made import asked, day, job, person, season
from tests.unit.crew_calendar.plain import least
from tests.unit.crew_calendar.test_arrange import tiny

from pavewright.crew_calendar import _ways, arrange, breaks_of, cost_of, move
from pavewright.crew_calendar._days import board_of

PLACES = ("North", "South")


def placed_in(question, seed, change, places=PLACES):
    drawn = random.Random(seed)
    jobs = tuple(
        replace(one, place=drawn.choice(places), travel_min=drawn.choice([None, 20, 45])) for one in question.jobs
    )
    return replace(question, jobs=jobs, change_job_days=change)


def both_ways(change):
    """Two jobs in each of two places, a day and a pair each; either order of the jobs is as quick."""
    jobs = [job(f"j{n}", (1, 2), place=PLACES[n % 2]) for n in range(4)]
    return asked([person("a"), person("b")], jobs, change_job_days=change)


def test_jobs_of_one_place_come_after_each_other_where_that_weighs():
    found = arrange(both_ways(0.1))
    assert found.weighed.place_changes == 2  # the pair goes once from the one place to the other
    assert found.job_days == pytest.approx(1 + 2 + 3 + 4 + 0.2)
    assert cost_of(both_ways(0.1), arrange(both_ways(0.0)).placed).place_changes > 2


def test_nobody_is_sent_across_where_two_crews_can_stay_in_their_places():
    jobs = [job(f"j{n}", (2, 1), place=PLACES[n % 2]) for n in range(6)]
    found = arrange(asked([person("a"), person("b")], jobs, change_job_days=0.1))
    assert found.weighed.place_changes == 0
    assert found.job_days == pytest.approx(found.bound_job_days)


def test_no_arrangement_is_below_the_bound_and_the_best_of_all_lies_between():
    best = 0
    for seed in range(40, 64):
        question = placed_in(tiny(seed), seed, change=0.5)
        found = arrange(question)
        answer = least(question)
        assert found.bound_job_days <= answer + 1e-6
        assert answer <= found.job_days + 1e-6
        assert found.job_days == pytest.approx(found.weighed.job_days)
        assert found.weighed.place_changes == cost_of(question, found.placed).place_changes
        assert not [each for each in breaks_of(question, found.placed) if not each.soft]
        best += found.job_days <= answer + 1e-6
    assert best >= 20  # the search shows no more than its bound: on a few it stays above


def test_more_places_than_people_are_changed_between_and_the_bound_knows_it():
    jobs = [job(f"j{n}", (1, 1), place=f"P{n}") for n in range(4)]
    question = asked([person("a")], jobs, change_job_days=0.5)
    assert _ways.fewest_changes(board_of(question), question.jobs) == 3
    found = arrange(question)
    assert found.job_days == found.bound_job_days == 1 + 2 + 3 + 4 + 1.5
    unknown = replace(question, jobs=(*jobs[:3], replace(jobs[3], place="")))
    assert _ways.fewest_changes(board_of(unknown), unknown.jobs) == 0
    assert arrange(unknown).bound_job_days <= least(unknown)


@pytest.mark.parametrize("seed", range(4))
def test_the_time_on_the_way_is_the_same_in_every_arrangement_of_the_same_jobs(seed):
    question = placed_in(season(4, seed=seed), seed, change=0.1)
    found = arrange(question, max_placed=300)
    other = arrange(replace(question, change_job_days=0.0, late_job_days=0.0), max_placed=50)
    assert {each.job for each in found.placed} == {each.job for each in other.placed}
    way_min = found.weighed.travel_min
    assert way_min == other.weighed.travel_min == cost_of(question, found.placed).travel_min
    moved = move(question, found.placed, found.placed[0].job, 0, day(20))
    assert moved.after.travel_min == way_min


def test_what_weighs_nothing_changes_nothing():
    question = placed_in(season(5), 1, change=0.0)
    plain = replace(question, jobs=tuple(replace(one, place="") for one in question.jobs))
    assert arrange(question, max_placed=500).placed == arrange(plain, max_placed=500).placed


def test_no_more_orders_are_tried_for_fewer_changes_than_is_said(monkeypatch):
    tried = []
    in_turn = _ways.in_turn
    monkeypatch.setattr(_ways, "MAX_TURNS", 3)
    monkeypatch.setattr(_ways, "in_turn", lambda *told: tried.append(told) or in_turn(*told))
    jobs = [job(f"j{n}", (1, 2), place=PLACES[n % 2]) for n in range(8)]
    arrange(asked([person("a"), person("b")], jobs, change_job_days=0.1))
    assert len(tried) == 3
