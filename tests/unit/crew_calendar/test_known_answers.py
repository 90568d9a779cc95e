"""The calendar against a published instance of jobs that share machines."""

from __future__ import annotations

from tests.unit.crew_calendar.made import MONDAY, asked, person

from pavewright.crew_calendar import CalendarJob, DayNeed, Stretch, arrange, breaks_of
from pavewright.job import PlantKind

SIX = """
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1
"""
"""Six jobs on six machines, each line machine and days in turn (Fisher and Thompson 1963, instance FT06)."""
SHORTEST_DAYS = 55
"""No arrangement is done sooner: printed with the instance wherever it is listed."""
LEAST_SUM_DAYS = 265
"""The least sum of the days on which the jobs are done: from memory of the literature, no page at hand."""
MACHINES = tuple(PlantKind)[:6]


def six_jobs(days):
    jobs = []
    for number, line in enumerate(SIX.split("\n")[1:-1]):
        read = [int(each) for each in line.split()]
        stretches = (
            Stretch((DayNeed(1, (), (MACHINES[machine],)),) * length)
            for machine, length in zip(read[::2], read[1::2], strict=True)
        )
        jobs.append(CalendarJob(f"j{number}", tuple(stretches)))
    people = [person(f"p{number}", weekdays=tuple(range(7))) for number in range(6)]
    return asked(people, jobs, days=days - 1, plant=dict.fromkeys(MACHINES, 1))


def last_day(found):
    return max((each.days[-1] - MONDAY).days + 1 for each in found.placed)


def test_six_jobs_on_six_machines_are_held_to_the_published_answer():
    question = six_jobs(70)
    found = arrange(question, max_placed=4_000)
    assert not found.not_placed
    assert breaks_of(question, found.placed) == ()
    assert last_day(found) >= SHORTEST_DAYS
    assert found.bound_job_days <= LEAST_SUM_DAYS == found.job_days


def test_six_jobs_have_no_place_in_a_day_less_than_the_published_shortest():
    found = arrange(six_jobs(SHORTEST_DAYS - 1), max_placed=2_000)
    assert found.not_placed
    assert last_day(found) < SHORTEST_DAYS
