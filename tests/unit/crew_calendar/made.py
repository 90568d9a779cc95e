"""Invented firms and jobs for tests of the calendar; everything is drawn from a seed."""

from __future__ import annotations

import datetime as dt
import random

from pavewright.crew_calendar import (
    CalendarAsked,
    CalendarJob,
    CrewMember,
    DayNeed,
    DaySpan,
    DeliveryNeed,
    Stretch,
    WaitLink,
)
from pavewright.job import PlantKind, Skill

MONDAY = dt.date(2027, 3, 1)
SKILLS = (
    (Skill.LAYER,),
    (Skill.GROUNDWORKER, Skill.LAYER),
    (Skill.GROUNDWORKER,),
    (Skill.DRIVER, Skill.LABOURER),
    (Skill.LABOURER,),
    (Skill.DRAINAGE, Skill.LAYER),
)


def day(number):
    return MONDAY + dt.timedelta(days=number)


def person(name, *skills, weekdays=(0, 1, 2, 3, 4), away=(), cost=None):
    return CrewMember(
        name, tuple(skills) or (Skill.ANY,), weekdays, tuple(DaySpan(day(a), day(b)) for a, b in away), cost
    )


def job(name, *stretches, **more):
    """Return a job; each stretch is days and hands, or needs."""
    made = tuple(Stretch((DayNeed(each[1]),) * each[0]) if isinstance(each, tuple) else each for each in stretches)
    return CalendarJob(name, made, **more)


def asked(people, jobs, days=40, plant=None, **more):
    return CalendarAsked(MONDAY, day(days), tuple(people), plant or {}, more.pop("closed", ()), tuple(jobs), **more)


def season(jobs, people=6, seed=1):
    """Return a firm with jobs of three stretches with two waits, some promised, some with materials that come late."""
    drawn = random.Random(seed)
    crew = [person(f"p{n}", *SKILLS[n], away=((10 + 7 * n, 12 + 7 * n),)) for n in range(people)]
    made = []
    for number in range(jobs):
        hands = drawn.choice([2, 2, 3])
        dig, lay = drawn.randint(1, 3), drawn.randint(2, 5)
        digging = Stretch(
            tuple(
                DayNeed(hands, (Skill.GROUNDWORKER,) if n else (Skill.DRIVER,), () if n else (PlantKind.EXCAVATOR,))
                for n in range(dig)
            )
        )
        laying = Stretch(tuple(DayNeed(hands, (Skill.LAYER,), (PlantKind.SAW,), rain=True) for _ in range(lay)))
        links = (
            WaitLink((0, dig - 1), (1, 0), drawn.choice([1, 3, 4]), "cure_base.area1", hold=False),
            WaitLink((1, lay - 1), (2, 0), drawn.choice([2, 3, 4]), "cure_bed.area1", hold=False),
        )
        promised = day(drawn.randint(20, 40 + jobs * 2)) if drawn.random() < 0.4 else None
        comes = (DeliveryNeed((1, 0), "units.1", day(drawn.randint(3, 12))),) if drawn.random() < 0.3 else ()
        made.append(
            CalendarJob(
                f"j{number:02}",
                (digging, laying, Stretch((DayNeed(hands, (Skill.LAYER,), rain=True),))),
                links,
                comes,
                promised=promised,
                wet_share={3: 0.4, 4: 0.35, 5: 0.3},
                weather_known=True,
            )
        )
    return asked(crew, made, days=7 * (8 + jobs), plant={PlantKind.EXCAVATOR: 1, PlantKind.SAW: 2})
