"""What an arrangement costs as far as prices are known: days of hire, hands without work, days after a promise."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.crew_calendar._days import board_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarAsked, CalendarJob, HireNeed, Placed
    from pavewright.job import PlantKind


@dataclass(frozen=True, slots=True)
class HireCost:
    """A machine on hire for a job.

    Attributes:
        job: Which job.
        number: Which entry of plant of the job.
        kind: Which machine.
        days: Working days from the first day of need to the last. [days]
        minor: What they cost, by the day; None where its price is not known. [minor units]
        currency: The money of its job; empty where nothing says it.
    """

    job: str
    number: int
    kind: PlantKind
    days: int
    minor: int | None
    currency: str = ""


@dataclass(frozen=True, slots=True)
class CurrencySum:
    """What is known of a cost in one currency; sums of two currencies are never put together.

    Attributes:
        currency: Which, as ISO 4217 has it; empty where nothing says it.
        hire_minor: Hire of machines. [minor units]
        idle_minor: People without work. [minor units]
    """

    currency: str
    hire_minor: int
    idle_minor: int

    @property
    def known_minor(self) -> int:
        """Both together. [minor units]."""
        return self.hire_minor + self.idle_minor


@dataclass(frozen=True, slots=True)
class CalendarCost:
    """What an arrangement costs, beside what the work itself costs.

    Attributes:
        hires: Machines on hire.
        sums: What is known in money, by currency.
        hires_unpriced: How many have no known price.
        idle_days: Days of people who are there and have no work, until the last day on which any job is worked on.
            [days]
        idle_unpriced: Idle days of people whose hour has no price. [days]
        late_days: Days after promised ends, all jobs together. [days]
        rain_days: Days that rain is likely to take, where the weather is known. [days]
        weather_unknown: Jobs whose weather nobody entered.
        travel_min: Time on the way to jobs and back, of all people, where somebody entered how long the way is. [min]
        travel_unknown: Jobs with people on them whose way nobody entered: it is not in it, and is not zero.
        place_changes: How often somebody works in another place than on their day of work before, as far as places are
            known.
        place_unknown: Jobs whose place is not known.
    """

    hires: tuple[HireCost, ...]
    sums: tuple[CurrencySum, ...]
    hires_unpriced: int
    idle_days: int
    idle_unpriced: int
    late_days: int
    rain_days: float
    weather_unknown: tuple[str, ...]
    travel_min: int
    travel_unknown: tuple[str, ...]
    place_changes: int
    place_unknown: tuple[str, ...]


def cost_of(asked: CalendarAsked, placed: Sequence[Placed]) -> CalendarCost:
    """Return what an arrangement costs as far as it is known; what is not known is counted, never taken as zero.

    Args:
        asked: What is asked.
        placed: The arrangement.

    Source: definition, days by their price
    """
    board = board_of(asked)
    by_job: dict[str, dict[int, Placed]] = defaultdict(dict)
    for each in placed:
        job = board.jobs.get(each.job)
        if job is not None and each.stretch < len(job.stretches):
            by_job[each.job][each.stretch] = each
    hires = tuple(
        cost
        for name, stretches in sorted(by_job.items())
        for need in board.jobs[name].hires
        if (cost := _hire(board.jobs[name], need, stretches, board.days)) is not None
    )
    idle = _idle(asked, board.days, placed)
    rates = {one.id: one.cost_minor_per_hour for one in asked.people}
    hours = max((job.hours_per_day for job in asked.jobs), default=8.0)
    return CalendarCost(
        hires=hires,
        sums=_sums(asked.currency, hires, sum(round((rates[who] or 0) * hours * days) for who, days in idle.items())),
        hires_unpriced=sum(each.minor is None for each in hires),
        idle_days=sum(idle.values()),
        idle_unpriced=sum(days for who, days in idle.items() if rates[who] is None),
        late_days=sum(_late(board.jobs[name], stretches) for name, stretches in by_job.items()),
        rain_days=sum(_rain(board.jobs[name], each) for name in sorted(by_job) for each in by_job[name].values()),
        weather_unknown=tuple(name for name in sorted(by_job) if not board.jobs[name].weather_known),
        travel_min=travel_min(board, [each for own in by_job.values() for each in own.values()]),
        travel_unknown=tuple(name for name in sorted(by_job) if board.jobs[name].travel_min is None),
        place_changes=place_changes(board.jobs, placed),
        place_unknown=tuple(name for name in sorted(by_job) if not board.jobs[name].place),
    )


def _sums(currency: str, hires: Sequence[HireCost], idle_minor: int) -> tuple[CurrencySum, ...]:
    """Return what is known by currency: hire in the money of its job, people in that of the firm's book."""
    hired: dict[str, int] = defaultdict(int)
    for each in hires:
        if each.minor is not None:
            hired[each.currency] += each.minor
    idle = {currency: idle_minor} if idle_minor else {}
    return tuple(CurrencySum(each, hired.get(each, 0), idle.get(each, 0)) for each in sorted({*hired, *idle}))


def travel_min(board: Board, placed: Iterable[Placed]) -> int:
    """Return the time on the way there and back of all who are sent, zero where the way is not known. [min].

    Args:
        board: What is asked.
        placed: The arrangement.

    Source: definition, people sent by the length of the way
    """
    ways = ((board.jobs[each.job].travel_min or 0, sum(map(len, each.crew))) for each in placed)
    return sum(2 * way_min * sent for way_min, sent in ways)


def place_changes(jobs: Mapping[str, CalendarJob], placed: Sequence[Placed]) -> int:
    """Return how often somebody works in another known place than on their day of work before.

    Args:
        jobs: The jobs by their names.
        placed: The arrangement.

    Source: definition
    """
    days = sorted(
        (day, person, jobs[each.job].place)
        for each in placed
        if each.job in jobs
        for day, crew in zip(each.days, each.crew, strict=True)
        for person in crew
    )
    before, found = dict[str, str](), 0
    for _, person, place in days:
        last = before.get(person, "")
        found += bool(place and last and place != last)
        before[person] = place
    return found


def _hire(job: CalendarJob, need: HireNeed, stretches: dict[int, Placed], days: Sequence[dt.date]) -> HireCost | None:
    wanted = [
        stretches[stretch].days[day]
        for stretch, day in need.days
        if stretch in stretches and day < len(stretches[stretch].days)
    ]
    if not wanted:
        return None
    held = sum(min(wanted) <= day <= max(wanted) for day in days)
    paid = max(float(held), need.min_days)
    minor = None if need.day_minor is None else round(paid * need.day_minor)
    return HireCost(job.id, need.number, need.kind, held, minor, job.currency)


def _idle(asked: CalendarAsked, days: Iterable[dt.date], placed: Sequence[Placed]) -> dict[str, int]:
    """Return for each person the days without work, from the first day until the last one of any work."""
    busy = {(person, day) for each in placed for day, crew in zip(each.days, each.crew, strict=True) for person in crew}
    last = max((each.days[-1] for each in placed), default=asked.first - dt.timedelta(days=1))
    return {
        one.id: sum(one.works_on(day) and (one.id, day) not in busy for day in days if day <= last)
        for one in asked.people
    }


def _late(job: CalendarJob, stretches: dict[int, Placed]) -> int:
    last = stretches.get(len(job.stretches) - 1)
    return 0 if last is None or job.promised is None else max(0, (last.days[-1] - job.promised).days)


def _rain(job: CalendarJob, each: Placed) -> float:
    needs = job.stretches[each.stretch].days
    return sum(job.wet_share.get(day.month, 0.0) for need, day in zip(needs, each.days, strict=False) if need.rain)
