"""Working days of the firm in a row, and the days that a stretch takes from a start on."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from pavewright.crew_calendar._limits import Limits
from pavewright.crew_calendar._types import CalendarAsked, DayNeed, Stretch
from pavewright.job import Skill

if TYPE_CHECKING:
    from pavewright.crew_calendar._types import CalendarJob, CrewMember, Pin


@dataclass(frozen=True)
class Board:
    """What is asked, with the working days numbered from 0.

    Attributes:
        asked: What is asked, without skills that nobody has.
        days: The working days of the firm.
        skills_nobody_has: What was left out of what is asked.
    """

    asked: CalendarAsked
    days: tuple[dt.date, ...]
    skills_nobody_has: tuple[Skill, ...]

    @cached_property
    def at_hand(self) -> tuple[tuple[CrewMember, ...], ...]:
        """Who works on each day."""
        return tuple(tuple(one for one in self.asked.people if one.works_on(day)) for day in self.days)

    @cached_property
    def pins(self) -> dict[tuple[str, int], Pin]:
        """Pins by job and stretch."""
        return {(pin.job, pin.stretch): pin for pin in self.asked.pins}

    @cached_property
    def limits(self) -> Limits:
        """What a day holds."""
        return Limits(self.asked, self.pins, self.at_hand)

    @cached_property
    def jobs(self) -> dict[str, CalendarJob]:
        """Jobs by their names."""
        return {job.id: job for job in self.asked.jobs}

    def starts(self, job: CalendarJob, stretch: int) -> dict[int, tuple[int, ...]]:
        """Return where a stretch may begin, each with the days that it takes; what other work takes is not asked."""
        return self._starts[job.id, stretch]

    @cached_property
    def links(self) -> dict[str, dict[int, list[tuple[int, int, int, int]]]]:
        """What each stretch of each job waits for, by job."""
        return {job.id: links_into(job) for job in self.asked.jobs}

    @cached_property
    def in_order(self) -> dict[tuple[str, int], tuple[tuple[int, ...], tuple[tuple[int, ...], ...]]]:
        """Where each stretch may begin, and the days that it takes from there, both in order."""
        return {key: (tuple(found), tuple(found.values())) for key, found in self._starts.items()}

    @cached_property
    def _starts(self) -> dict[tuple[str, int], dict[int, tuple[int, ...]]]:
        return {
            (job.id, number): self._starts_of(job, number)
            for job in self.asked.jobs
            for number in range(len(job.stretches))
        }

    def _starts_of(self, job: CalendarJob, stretch: int) -> dict[int, tuple[int, ...]]:
        usable = [number for number, day in enumerate(self.days) if job.open_on(day)]
        pin = self.pins.get((job.id, stretch))
        length = len(job.stretches[stretch].days)
        found = {}
        for place in range(len(usable) - length + 1):
            taken = tuple(usable[place : place + length])
            first = self.days[taken[0]]
            if pin is not None and first != pin.first:
                continue
            if pin is None and job.earliest is not None and first < job.earliest:
                continue
            if all(self._may(job, stretch, place, self.days[day]) for place, day in enumerate(taken)):
                found[taken[0]] = taken
        return found

    def _may(self, job: CalendarJob, stretch: int, place: int, day: dt.date) -> bool:
        """Return whether what is delivered for a day of work has come by then."""
        return all(
            each.earliest is None or day >= each.earliest for each in job.deliveries if each.at == (stretch, place)
        )

    def weight(self, job: CalendarJob, stretch: int, taken: tuple[int, ...]) -> float:
        """Return what it weighs that a stretch takes these days. [job-days]."""
        found = self.rain_weight(job, stretch, taken)
        present = self.asked.present.get((job.id, stretch))
        if present is not None and present != self.days[taken[0]]:
            found += self.asked.stay_job_days
        if stretch == len(job.stretches) - 1:
            found += self.finish_weight(job, taken[-1])
        return found

    def rain_weight(self, job: CalendarJob, stretch: int, taken: tuple[int, ...]) -> float:
        """Return what rain is likely to take of these days. [job-days]."""
        found = 0.0
        for need, day in zip(job.stretches[stretch].days, taken, strict=True):
            if need.rain:
                found += job.wet_share.get(self.days[day].month, 0.0)
        return found

    def finish_weight(self, job: CalendarJob, last: int) -> float:
        """Return what it weighs that a job is done on a day. [job-days]."""
        day = self.days[last]
        late = 0 if job.promised is None else max(0, (day - job.promised).days)
        return (day - self.asked.first).days + 1.0 + self.asked.late_job_days * late


def board_of(asked: CalendarAsked) -> Board:
    """Return what is asked with its working days, and without skills that nobody of the firm has."""
    having = {skill for one in asked.people for skill in one.skills}
    wanted = {
        skill for job in asked.jobs for stretch in job.stretches for need in stretch.days for skill in need.skills
    }
    nobody = tuple(sorted(() if Skill.ANY in having else wanted - having - {Skill.ANY}))
    jobs = tuple(_without(job, frozenset({*nobody, Skill.ANY})) for job in asked.jobs)
    days = []
    for number in range((asked.last - asked.first).days + 1):
        day = asked.first + dt.timedelta(days=number)
        if day not in asked.closed and any(day.weekday() in one.weekdays for one in asked.people):
            days.append(day)
    return Board(replace(asked, jobs=jobs), tuple(days), nobody)


def _without(job: CalendarJob, skills: frozenset[Skill]) -> CalendarJob:
    return replace(
        job,
        stretches=tuple(
            Stretch(
                tuple(
                    replace(need, skills=tuple(skill for skill in need.skills if skill not in skills))
                    for need in each.days
                )
            )
            for each in job.stretches
        ),
    )


def links_into(job: CalendarJob) -> dict[int, list[tuple[int, int, int, int]]]:
    """Return for each stretch what it waits for: stretch, day in it, day of its own that waits, days between."""
    found: dict[int, list[tuple[int, int, int, int]]] = defaultdict(list)
    for number in range(1, len(job.stretches)):
        found[number].append((number - 1, len(job.stretches[number - 1].days) - 1, 0, 1))
    for link in job.links:
        if link.before[0] != link.after[0]:
            found[link.after[0]].append((*link.before, link.after[1], link.days))
    return found


def needs_on(board: Board, taken: dict[tuple[str, int], tuple[int, ...]]) -> dict[int, list[tuple[str, int, DayNeed]]]:
    """Return what each day takes, with job and stretch."""
    found: dict[int, list[tuple[str, int, DayNeed]]] = defaultdict(list)
    for (job, stretch), days in sorted(taken.items()):
        for need, day in zip(board.jobs[job].stretches[stretch].days, days, strict=True):
            found[day].append((job, stretch, need))
    return found


def kinds_on(board: Board, taken: dict[tuple[str, int], tuple[int, ...]]) -> dict[int, tuple[int, ...]]:
    """Return the kinds of need of each day, in rising order."""
    found: dict[int, list[int]] = defaultdict(list)
    for key, days in taken.items():
        for kind, day in zip(board.limits.kinds[key], days, strict=True):
            found[day].append(kind)
    return {day: tuple(sorted(kinds)) for day, kinds in sorted(found.items())}
