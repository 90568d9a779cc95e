"""Bounds hold, whatever the prices; people are told apart from counts exactly."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import pytest
from tests.unit.crew_calendar.made import SKILLS, asked, day, job, person, season
from tests.unit.crew_calendar.plain import least
from tests.unit.crew_calendar.test_arrange import tiny

from pavewright.crew_calendar import Searching, arrange, breaks_of
from pavewright.crew_calendar._crews import can_send, wanted
from pavewright.crew_calendar._days import board_of
from pavewright.crew_calendar._greedy import in_turn
from pavewright.crew_calendar._prices import priced
from pavewright.crew_calendar._turning import other_turns
from pavewright.crew_calendar._types import DayNeed
from pavewright.job import Skill


@pytest.mark.parametrize("seed", range(12, 24))
def test_no_bound_by_prices_is_above_the_answer_of_the_plain_twin(seed):
    question = tiny(seed)
    board = board_of(question)
    answer = least(question)
    bounds = [each.bound for each in priced(board, list(board.jobs.values()), answer + 5.0, most=120)]
    assert bounds == sorted(bounds)
    assert 0.0 < bounds[-1] <= answer + 1e-6


def test_a_bound_by_prices_is_above_that_of_each_job_by_itself_where_people_are_few():
    board = board_of(asked([person("a")], [job(f"j{n}", (2, 1)) for n in range(4)]))
    jobs = list(board.jobs.values())
    weight = in_turn(board, jobs).weight
    *_, last = priced(board, jobs, weight)
    alone = 4 * 2.0
    assert alone < last.bound <= weight


@pytest.mark.parametrize("seed", range(30))
def test_who_can_be_sent_is_told_as_by_trying_everybody_everywhere(seed):
    drawn = random.Random(seed)
    people = tuple(person(f"p{n}", *drawn.choice([*SKILLS, (Skill.ANY,)])) for n in range(drawn.randint(2, 4)))
    asks = [Skill.LAYER, Skill.GROUNDWORKER, Skill.DRIVER]
    wants = tuple(
        wanted(
            DayNeed(drawn.randint(1, 2), tuple(drawn.sample(asks, drawn.randint(0, 2)))),
            ("p1",) if not number and drawn.random() < 0.3 else (),
        )
        for number in range(drawn.randint(1, 3))
    )
    assert can_send(people, wants) == _by_trying(people, wants)


def _by_trying(people, wants):
    for sent in itertools.product(range(-1, len(wants)), repeat=len(people)):
        crews = [[one for one, where in zip(people, sent, strict=True) if where == n] for n in range(len(wants))]
        if all(
            len(crew) == hands
            and all(any({skill, Skill.ANY} & set(one.skills) for one in crew) for skill in skills)
            and set(must) <= {one.id for one in crew}
            for crew, (hands, skills, must, *_) in zip(crews, wants, strict=True)
        ):
            return True
    return False


def test_a_turn_told_from_its_middle_is_the_turn_told_from_its_beginning():
    board = board_of(season(8))
    jobs = list(board.jobs.values())
    for found in other_turns(board, in_turn(board, jobs), dict.fromkeys(board.jobs, 0.0), max_placed=2_000):
        whole = in_turn(board, found.turn)
        assert (whole.taken, whole.left) == (found.taken, found.left)
        assert whole.weight == pytest.approx(found.weight)


def crowd():
    """Return 60 jobs over 26 weeks for ten people."""
    made = season(60)
    people = [person(f"p{n}", *SKILLS[n % 6], away=((10 + 7 * n, 12 + 7 * n),)) for n in range(10)]
    return replace(made, people=tuple(people), last=day(7 * 26))


def test_sixty_jobs_have_an_answer_with_a_bound_and_whoever_stops_keeps_it():
    question = crowd()
    steps = []

    def step(each):
        steps.append(each)
        return each.searching is not Searching.BOUND and len(steps) < 40

    found = arrange(question, step)
    assert not found.not_placed
    assert [each for each in breaks_of(question, found.placed) if not each.soft] == []
    assert 0.0 < found.bound_job_days <= found.job_days
    assert all(0.0 < each.bound_job_days <= each.job_days for each in steps)
    assert steps[-1].best() == found
