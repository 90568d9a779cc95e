"""What an arrangement breaks, each as a fact with its days: nothing is taken on trust from whoever made it."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.crew_calendar._days import board_of, links_into
from pavewright.job import Skill

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.crew_calendar._types import CalendarAsked, CalendarJob, DayNeed, Placed, WaitLink
    from pavewright.job import PlantKind


class BreakKind(StrEnum):
    """What is broken."""

    TWO_PLACES = "two_places"
    AWAY = "away"
    TOO_FEW_HANDS = "too_few_hands"
    SKILL_MISSING = "skill_missing"
    MACHINE_TAKEN = "machine_taken"
    WAIT_CUT_SHORT = "wait_cut_short"
    OUT_OF_TURN = "out_of_turn"
    DELIVERY_TOO_LATE = "delivery_too_late"
    COLD_OR_HOT_MONTH = "cold_or_hot_month"
    PROMISE_MISSED = "promise_missed"
    TOO_EARLY = "too_early"
    CLOSED_DAY = "closed_day"
    PIN_MOVED = "pin_moved"
    PINNED_PERSON_GONE = "pinned_person_gone"
    LENGTH_CHANGED = "length_changed"


SOFT = frozenset({BreakKind.COLD_OR_HOT_MONTH, BreakKind.PROMISE_MISSED})
"""What asks to look, and does not make an arrangement impossible."""


@dataclass(frozen=True, slots=True)
class Break:
    """One thing that an arrangement breaks.

    Attributes:
        kind: What is broken.
        job: Of which job.
        stretch: Which stretch, from 0.
        on: The day on which it shows.
        other_job: The job on the other side: where the same person or machine stands; empty where there is none.
        person: Who; empty where nobody is meant.
        skill: Which skill; None where none is meant.
        machine: Which machine; None where none is meant.
        due: The day that would hold: the end of a wait, the day of the delivery, the promised end; None where none.
        key: Which wait or delivery of the programme; empty where none is meant.
    """

    kind: BreakKind
    job: str
    stretch: int
    on: dt.date
    other_job: str = ""
    person: str = ""
    skill: Skill | None = None
    machine: PlantKind | None = None
    due: dt.date | None = None
    key: str = ""

    @property
    def soft(self) -> bool:
        """Whether it asks to look only."""
        return self.kind in SOFT


def breaks_of(asked: CalendarAsked, placed: Sequence[Placed]) -> tuple[Break, ...]:
    """Return everything that an arrangement breaks, by day.

    Args:
        asked: What is asked.
        placed: The arrangement.
    """
    board = board_of(asked)
    jobs = board.jobs
    known = [each for each in placed if each.job in jobs]
    found = [one for each in known for one in _of_stretch(board.asked, jobs[each.job], each)]
    whole = [each for each in known if _same_length(jobs[each.job], each)]
    by_job: dict[str, dict[int, Placed]] = defaultdict(dict)
    for each in whole:
        by_job[each.job][each.stretch] = each
    for name, stretches in by_job.items():
        found += _of_order(jobs[name], stretches)
    found += _of_days(board.asked, jobs, whole)
    return tuple(sorted(set(found), key=lambda one: (one.on, one.job, one.stretch, one.kind, one.person, one.key)))


def _same_length(job: CalendarJob, each: Placed) -> bool:
    return each.stretch < len(job.stretches) and len(each.days) == len(job.stretches[each.stretch].days)


def _of_stretch(asked: CalendarAsked, job: CalendarJob, each: Placed) -> Iterator[Break]:
    """Give what a stretch breaks by itself."""
    if not _same_length(job, each):
        yield Break(BreakKind.LENGTH_CHANGED, job.id, each.stretch, each.days[0])
        return
    first, last = each.days[0], each.days[-1]
    if job.earliest is not None and first < job.earliest:
        yield Break(BreakKind.TOO_EARLY, job.id, each.stretch, first, due=job.earliest)
    for pin in asked.pins:
        if (pin.job, pin.stretch) == (job.id, each.stretch) and pin.first != first:
            yield Break(BreakKind.PIN_MOVED, job.id, each.stretch, first, due=pin.first)
        if (pin.job, pin.stretch) == (job.id, each.stretch):
            for day, crew in zip(each.days, each.crew, strict=True):
                for person in sorted(set(pin.people) - set(crew)):
                    yield Break(BreakKind.PINNED_PERSON_GONE, job.id, each.stretch, day, person=person)
    yield from _of_its_days(asked, job, each)
    if each.stretch == len(job.stretches) - 1 and job.promised is not None and last > job.promised:
        yield Break(BreakKind.PROMISE_MISSED, job.id, each.stretch, last, due=job.promised)


def _of_its_days(asked: CalendarAsked, job: CalendarJob, each: Placed) -> Iterator[Break]:
    """Give deliveries that have not come, days without work, and months that a gate shuts."""
    for delivery in job.deliveries:
        if delivery.at[0] == each.stretch and delivery.earliest is not None:
            on, due = each.days[delivery.at[1]], delivery.earliest
            if on < due:
                kind = BreakKind.TOO_EARLY if delivery.pinned else BreakKind.DELIVERY_TOO_LATE
                yield Break(kind, job.id, each.stretch, on, due=due, key=delivery.key)
    for need, day in zip(job.stretches[each.stretch].days, each.days, strict=True):
        if day in asked.closed or not job.open_on(day):
            yield Break(BreakKind.CLOSED_DAY, job.id, each.stretch, day)
        if day.month in need.shut_months:
            yield Break(BreakKind.COLD_OR_HOT_MONTH, job.id, each.stretch, day)


def _of_order(job: CalendarJob, stretches: dict[int, Placed]) -> Iterator[Break]:
    """Give waits that are cut short, and work that comes before what it follows."""
    waits: dict[tuple[int, int, int], list[WaitLink]] = defaultdict(list)
    for link in job.links:
        waits[link.before[0], link.after[0], link.after[1]].append(link)
    for number, links in links_into(job).items():
        for other, at, place, apart in links:
            if other not in stretches or number not in stretches:
                continue
            due = stretches[other].days[at] + dt.timedelta(days=apart)
            on = stretches[number].days[place]
            if on >= due:
                continue
            own = [each for each in waits[other, number, place] if each.days == apart and each.before[1] == at]
            kind = BreakKind.WAIT_CUT_SHORT if own else BreakKind.OUT_OF_TURN
            yield Break(kind, job.id, number, on, due=due, key=own[0].key if own else "")


def _of_days(asked: CalendarAsked, jobs: dict[str, CalendarJob], placed: Sequence[Placed]) -> Iterator[Break]:
    """Give what stands in two places, is away, or is too little on a day."""
    days: dict[dt.date, list[tuple[Placed, DayNeed, tuple[str, ...]]]] = defaultdict(list)
    for each in placed:
        for need, day, crew in zip(jobs[each.job].stretches[each.stretch].days, each.days, each.crew, strict=True):
            days[day].append((each, need, crew))
    for day, work in sorted(days.items()):
        yield from _of_people(asked, day, work)
        for machine, count in sorted(asked.plant.items()):
            using = [each for each, need, _ in work if machine in need.machines]
            for late in using[count:]:
                yield Break(
                    *(BreakKind.MACHINE_TAKEN, late.job, late.stretch, day),
                    other_job=using[0].job if count else "",
                    machine=machine,
                )


def _of_people(
    asked: CalendarAsked, day: dt.date, work: Sequence[tuple[Placed, DayNeed, tuple[str, ...]]]
) -> Iterator[Break]:
    people, seen = {one.id: one for one in asked.people}, dict[str, str]()
    for each, need, crew in work:
        for person in crew:
            if person in seen:
                yield Break(*(BreakKind.TWO_PLACES, each.job, each.stretch, day), other_job=seen[person], person=person)
            seen.setdefault(person, each.job)
            if person not in people or not people[person].works_on(day):
                yield Break(BreakKind.AWAY, each.job, each.stretch, day, person=person)
        there = [people[person] for person in crew if person in people]
        if len(there) < need.hands:
            yield Break(BreakKind.TOO_FEW_HANDS, each.job, each.stretch, day)
        for skill in need.skills:
            if not any({skill, Skill.ANY} & set(one.skills) for one in there):
                yield Break(BreakKind.SKILL_MISSING, each.job, each.stretch, day, skill=skill)
