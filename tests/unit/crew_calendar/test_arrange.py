from __future__ import annotations

import random
from dataclasses import replace

import pytest
from tests.unit.crew_calendar.made import MONDAY, asked, day, job, person, season
from tests.unit.crew_calendar.plain import least

from pavewright.crew_calendar import (
    CalendarJob,
    DayNeed,
    DeliveryNeed,
    Pin,
    Stretch,
    WaitLink,
    WhyNot,
    arrange,
    breaks_of,
)
from pavewright.job import PlantKind, Skill

ANY = person("a")
TWO = (person("a"), person("b"))


def starts(found):
    return {(each.job, each.stretch): (each.days[0] - MONDAY).days for each in found.placed}


def test_one_job_begins_at_once_and_its_weekend_is_not_worked():
    found = arrange(asked([ANY], [job("x", (7, 1))]))
    assert [(each - MONDAY).days for each in found.placed[0].days] == [0, 1, 2, 3, 4, 7, 8]
    assert found.job_days == found.bound_job_days == 9.0
    assert found.gap_percent == 0.0


def test_the_shorter_job_goes_first_and_that_is_shown_to_be_best():
    found = arrange(asked([ANY], [job("long", (3, 1)), job("short", (1, 1))]))
    assert starts(found) == {("short", 0): 0, ("long", 0): 1}
    assert (found.job_days, found.bound_job_days) == (5.0, 5.0)


def test_a_promise_goes_before_a_shorter_job():
    found = arrange(asked([ANY], [job("long", (3, 1), promised=day(2)), job("short", (1, 1))]))
    assert starts(found) == {("long", 0): 0, ("short", 0): 3}


def test_a_wait_is_kept_over_nights_and_another_job_fills_it():
    laid = job("laid", (1, 1), (1, 1), links=(WaitLink((0, 0), (1, 0), 3, "cure_bed.area1", hold=False),))
    found = arrange(asked([ANY], [laid, job("other", (2, 1))]))
    assert starts(found) == {("laid", 0): 0, ("other", 0): 1, ("laid", 1): 3}


def test_nobody_is_in_two_places_or_sent_where_they_lack_the_skill():
    layer, digger = person("layer", Skill.LAYER), person("digger", Skill.GROUNDWORKER)
    dig = Stretch((DayNeed(1, (Skill.GROUNDWORKER,)),))
    lay = Stretch((DayNeed(1, (Skill.LAYER,)),))
    found = arrange(asked([layer, digger], [CalendarJob("x", (dig, lay)), CalendarJob("y", (dig, lay))]))
    assert starts(found) == {("x", 0): 0, ("x", 1): 1, ("y", 0): 1, ("y", 1): 2}
    assert {each.crew for each in found.placed if each.stretch == 0} == {(("digger",),)}


def test_days_away_and_days_of_the_week_are_kept():
    three = person("a", weekdays=(0, 1, 2), away=((1, 1),))
    found = arrange(asked([three], [job("x", (1, 1), (1, 1))]))
    assert starts(found) == {("x", 0): 0, ("x", 1): 2}


def test_a_machine_is_in_one_place():
    dig = Stretch((DayNeed(1, (), (PlantKind.EXCAVATOR,)),))
    found = arrange(asked(TWO, [CalendarJob("x", (dig,)), CalendarJob("y", (dig,))], plant={PlantKind.EXCAVATOR: 1}))
    assert sorted(starts(found).values()) == [0, 1]


def test_work_waits_for_its_materials_and_pins_hold():
    late = job("late", (1, 1), deliveries=(DeliveryNeed((0, 0), "units.1", day(8)),))
    pinned = job("pinned", (2, 1))
    found = arrange(asked(TWO, [late, pinned], pins=(Pin("pinned", 0, day(3), ("b",)),)))
    assert starts(found) == {("late", 0): 8, ("pinned", 0): 3}
    assert {each.crew for each in found.placed if each.job == "pinned"} == {(("b",), ("b",))}


def test_a_stretch_stays_where_it_stands_unless_much_is_gained():
    question = asked([ANY], [job("x", (1, 1))], present={("x", 0): day(1)}, stay_job_days=2.0)
    assert starts(arrange(question)) == {("x", 0): 1}
    assert starts(arrange(replace(question, stay_job_days=0.5))) == {("x", 0): 0}


@pytest.mark.parametrize(
    ("made", "more", "why"),
    [
        (CalendarJob("x", ()), {}, WhyNot.LENGTH_UNKNOWN),
        (job("x", (1, 3)), {}, WhyNot.TOO_FEW_PEOPLE),
        (CalendarJob("x", (Stretch((DayNeed(1, (), (PlantKind.SAW,)),)),)), {}, WhyNot.TOO_FEW_MACHINES),
        (job("x", (1, 1)), {"pins": (Pin("x", 0, day(5)),)}, WhyNot.PIN_CANNOT_HOLD),
        (job("x", (1, 1), deliveries=(DeliveryNeed((0, 0), "u", day(90)),)), {}, WhyNot.DELIVERY_AFTER_END),
        (job("x", (60, 1)), {}, WhyNot.HORIZON_TOO_SHORT),
    ],
)
def test_what_has_no_place_says_why(made, more, why):
    found = arrange(asked(TWO, [made, job("y", (1, 1))], plant={PlantKind.SAW: 0}, **more))
    assert [(each.job, each.why) for each in found.not_placed] == [("x", why)]
    assert {each.job for each in found.placed} == {"y"}


def test_skills_that_only_together_two_people_have_are_named():
    people = [person("a", Skill.LAYER), person("b", Skill.DRIVER)]
    need = Stretch((DayNeed(1, (Skill.DRIVER, Skill.LAYER)),))
    found = arrange(asked(people, [CalendarJob("x", (need,))]))
    assert found.not_placed[0].why is WhyNot.NO_CREW_WITH_SKILLS
    assert found.not_placed[0].skills == (Skill.DRIVER, Skill.LAYER)


def test_a_skill_that_nobody_has_is_told_and_not_asked_for():
    found = arrange(asked([person("a", Skill.LAYER)], [CalendarJob("x", (Stretch((DayNeed(1, (Skill.DRAINAGE,)),)),))]))
    assert found.skills_nobody_has == (Skill.DRAINAGE,)
    assert len(found.placed) == 1


def test_a_job_that_finds_no_room_beside_others_is_named():
    jobs = [job(f"j{n}", (4, 1)) for n in range(3)]
    found = arrange(asked([ANY], jobs, days=11))
    assert [each.why for each in found.not_placed] == [WhyNot.NO_ROOM_FOUND]


def tiny(seed):
    """Return two jobs of two stretches, a day or two each, with a wait between."""
    drawn = random.Random(seed)
    jobs = []
    for name in ("x", "y"):
        lengths = drawn.randint(1, 2), 1
        needs = [
            tuple(
                DayNeed(
                    drawn.randint(1, 2),
                    tuple(drawn.sample([Skill.LAYER, Skill.GROUNDWORKER], drawn.randint(0, 1))),
                    tuple(drawn.sample([PlantKind.SAW], drawn.randint(0, 1))),
                    rain=drawn.random() < 0.5,
                )
                for _ in range(length)
            )
            for length in lengths
        ]
        link = WaitLink((0, lengths[0] - 1), (1, 0), drawn.randint(1, 4), "cure_bed.area1", hold=False)
        promised = day(drawn.randint(1, 6)) if drawn.random() < 0.5 else None
        jobs.append(CalendarJob(name, tuple(map(Stretch, needs)), (link,), promised=promised, wet_share={3: 0.3}))
    crew = [person("a", Skill.LAYER, away=((1, 1),)), person("b", Skill.GROUNDWORKER), person("c", Skill.LAYER)]
    return asked(crew[: drawn.randint(2, 3)], jobs, days=11, plant={PlantKind.SAW: 1})


@pytest.mark.parametrize("seed", range(12))
def test_small_questions_have_the_answer_of_the_plain_twin(seed):
    question = tiny(seed)
    found = arrange(question)
    assert not found.not_placed
    assert [each for each in breaks_of(question, found.placed) if not each.soft] == []
    assert found.job_days == pytest.approx(least(question))
    assert found.bound_job_days == pytest.approx(found.job_days)


def test_a_season_is_arranged_the_same_way_each_time_with_nothing_broken():
    question = season(4)
    steps = []
    found = arrange(question, lambda step: steps.append(step) or True)
    assert found == arrange(question)
    assert not found.not_placed
    assert [each for each in breaks_of(question, found.placed) if not each.soft] == []
    assert 0.0 < found.bound_job_days <= found.job_days
    assert found.gap_percent < 12.0
    weights = [step.job_days for step in steps]
    assert weights == sorted(weights, reverse=True)


def test_whoever_stops_has_the_best_so_far_with_its_bound():
    question = season(4)
    found = arrange(question, lambda _step: False)
    assert len({each.job for each in found.placed}) == 4
    assert [each for each in breaks_of(question, found.placed) if not each.soft] == []
    assert found.bound_job_days <= found.job_days
    assert found.gap_percent >= 0.0
