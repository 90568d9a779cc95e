"""What the calendar needs of one job: its stretches of work with their waits, from the programme of its plan."""

from __future__ import annotations

import calendar as months
import datetime as dt
import json
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from pavewright import rulebook, units
from pavewright.cost import TaskKey
from pavewright.crew_calendar import DayNeed, DeliveryNeed, HireNeed, Stretch, WaitLink
from pavewright.desk._plain import plain
from pavewright.findings import MoneyCode, Severity
from pavewright.job import Skill, load_document
from pavewright.order_book import facts_of, state_of
from pavewright.programme import comes_on, shut_months, skill_for, stretches
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.job import PlantKind
    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.programme import Programme, Task

_CAUTIONS = 6
_SOME_YEAR = 2027
"""A year without a leap day. [-]"""


def with_a_start(document: bytes, day: dt.date) -> tuple[bytes, bool]:
    """Return a job document that begins on a day where it says none, and whether that is assumed."""
    job = load_document(document)
    calendar = job.get("calendar")
    if calendar is not None and not isinstance(calendar, dict):
        return document, False
    if calendar and calendar.get("start"):
        return document, False
    job["calendar"] = (calendar or {}) | {"start": day.isoformat()}
    return json.dumps(job).encode(), True


def needs_of(made: PlanSoFar, today: dt.date, *, start_assumed: bool) -> dict[str, Any]:
    """Return what the calendar takes of a job; where its programme is not known it says what is missing.

    Args:
        made: Its plan, as far as it goes.
        today: The day on which what is not ordered yet can be ordered.
        start_assumed: Whether the first day of work is assumed, as the job says none.
    """
    who = made.job.identity
    head: dict[str, Any] = {
        "title": who.title,
        "number": who.job,
        "address": who.address,
        "currency": who.currency,
        "start": None if start_assumed or made.job.calendar.start is None else made.job.calendar.start.isoformat(),
        "start_assumed": start_assumed,
        "state": state_of(facts_of(made.job))[0].value,
    }
    whole = made.whole
    if whole is None:
        return head | {"known": False, "missing": [each.words for each in made.missing[:3]]}
    return head | {"known": True} | _Taking(whole, today).told()


class _Taking:
    """A plan as it is taken apart into days and stretches."""

    def __init__(self, plan: Plan, today: dt.date) -> None:
        self.plan, self.job, self.today = plan, plan.job, today
        self.programme: Programme = plan.programme
        self.rules = rulebook.load(plan.edition)
        self.plant = {task.key: task.plant for task in plan.cost.labour}
        self.hired = {each.key for each in self.job.rates.plant if not each.owned}
        self.on = self._by_day()
        self.days = sorted(self.on)
        self.waits = self._waits()
        self.places = self._places()

    def _by_day(self) -> dict[dt.date, list[Task]]:
        """Return the work that is left on each day."""
        found: dict[dt.date, list[Task]] = {}
        done = self.programme.done_up_to
        for task in self.programme.tasks:
            if task.wait or task.done_percent >= units.ALL_PERCENT:
                continue
            for part in stretches(self.job, task):
                day = part.start.date()
                if done is None or day > done:
                    found.setdefault(day, []).append(task)
        return found

    def _waits(self) -> list[tuple[dt.date, dt.date, int, Task]]:
        """Return waits that outlast a night: the day before, the day that waits, days between, which wait."""
        tasks = {task.key: task for task in self.programme.tasks}
        first = {task.key: day for day in reversed(self.days) for task in self.on[day]}
        found = []
        for task in self.programme.tasks:
            if task.key not in first:
                continue
            for wait in _waits_before(task, tasks):
                begins, apart = wait.start.date(), self._days_of(wait)
                if begins in self.on and begins < first[task.key] and apart > 1:
                    found.append((begins, first[task.key], apart, wait))
        return found

    def _days_of(self, wait: Task) -> int:
        """Return after how many days work may go on: the next day where a wait ends after the hours of work."""
        calendar, crew = self.job.calendar, self.job.crew
        closes = calendar.day_starts_min + crew.hours_per_day * units.MINUTES_PER_HOUR
        ends = wait.finish.hour * units.MINUTES_PER_HOUR + wait.finish.minute
        return (wait.finish.date() - wait.start.date()).days + (ends >= closes)

    def _places(self) -> dict[dt.date, tuple[int, int]]:
        """Return stretch and place in it of each day: a stretch ends before a day off site, and before a wait."""
        number = {day: place for place, day in enumerate(self.days)}
        cut = {after for before, after, apart, _ in self.waits if apart > number[after] - number[before]}
        found: dict[dt.date, tuple[int, int]] = {}
        stretch, place = -1, 0
        for day in self.days:
            if not found or day in cut or not self._follows(day):
                stretch, place = stretch + 1, 0
            found[day] = (stretch, place)
            place += 1
        return found

    def _follows(self, day: dt.date) -> bool:
        """Return whether there was work on the working day before."""
        calendar = self.job.calendar
        before = day - dt.timedelta(days=1)
        while before > self.days[0]:
            if before.weekday() in calendar.weekdays and before not in calendar.days_off:
                break
            before -= dt.timedelta(days=1)
        return before in self.on

    def need(self, day: dt.date) -> DayNeed:
        tasks = self.on[day]
        gangs = {task.gang for task in tasks if task.gang is not None}
        machines = {kind for task in tasks for kind in self._machines(task)} - self.hired
        return DayNeed(
            hands=sum(self.programme.gangs[gang].people for gang in gangs),
            skills=tuple(sorted({skill_for(self.job, task.key) for task in tasks} - {Skill.ANY})),
            machines=tuple(sorted(machines)),
            rain=any(task.weather for task in tasks),
            shut_months=tuple(sorted({m for task in tasks for m in shut_months(self.job, task.key, self.rules)})),
        )

    def _machines(self, task: Task) -> tuple[PlantKind, ...]:
        return self.plant.get(task.key.priced, ()) if isinstance(task.key, TaskKey) else ()

    def told(self) -> dict[str, Any]:
        """Return everything as JSON holds it."""
        calendar, weather = self.job.calendar, self.job.calendar.weather
        return {
            "stretches": [asdict(Stretch(tuple(self.need(day) for day in each))) for each in self._stretches()],
            "links": [plain(each) for each in self._links()],
            "deliveries": [plain(each) for each in self._not_before()],
            "hires": [plain(each) for each in self._hires()],
            "weekdays": list(calendar.weekdays),
            "shut": [day.isoformat() for day in calendar.days_off],
            "wet_share": {
                str(each.month): each.wet_days / months.monthrange(_SOME_YEAR, each.month)[1]
                for each in weather
                if each.wet_days is not None
            },
            "weather_known": bool(weather),
            "hours_per_day": self.job.crew.hours_per_day,
            "day_starts_min": calendar.day_starts_min,
            "sheet": [self._sheet(day) for day in self.days],
            "cautions": self._cautions(),
        }

    def _stretches(self) -> list[list[dt.date]]:
        found: list[list[dt.date]] = []
        for day in self.days:
            if self.places[day][1] == 0:
                found.append([])
            found[-1].append(day)
        return found

    def _links(self) -> Iterable[WaitLink]:
        for before, after, apart, wait in self.waits:
            if self.places[before][0] != self.places[after][0]:
                yield WaitLink(self.places[before], self.places[after], apart, wait.key.text, wait.hold)

    def _not_before(self) -> Iterable[DeliveryNeed]:
        """Give what has to come before a day of work, and days before which work is not to begin, as entered."""
        for each in self.programme.deliveries:
            day = next((day for day in self.days if day > each.on), None)
            if day is None or each.begun:
                continue
            lead = each.lead_days
            earliest = None if lead is None else comes_on(self.job, self.today, lead) + dt.timedelta(days=1)
            yield DeliveryNeed(self.places[day], f"{each.group.value}.{each.number + 1}", earliest)
        seen = set()
        for day in self.days:
            for task in self.on[day]:
                if task.pinned_on is not None and task.key not in seen:
                    yield DeliveryNeed(self.places[day], task.key.text, task.pinned_on, pinned=True)
                seen.add(task.key)

    def _hires(self) -> Iterable[HireNeed]:
        for number, entry in enumerate(self.job.rates.plant):
            days = [day for day in self.days if any(entry.key in self._machines(task) for task in self.on[day])]
            if days and not entry.owned:
                places = tuple(self.places[day] for day in days)
                yield HireNeed(number, entry.key, places, entry.day_price_minor, entry.min_days or 0.0)

    def _sheet(self, day: dt.date) -> dict[str, Any]:
        """Return what stands on the sheet of a day: work, holds, machines, what is to be there; no money."""
        tasks = sorted(self.on[day], key=lambda task: (task.start, task.key.text))
        holds = [task for task in self.programme.tasks if task.hold and task.start.date() == day]
        due = [each for each in self.programme.deliveries if self._first_after(each.on) == day]
        return {
            "at": list(self.places[day]),
            "tasks": [{"key": task.key.text, "words": told(task.description), "rain": task.weather} for task in tasks],
            "holds": [{"key": task.key.text, "words": told(task.description)} for task in holds],
            "machines": sorted({kind.value for task in tasks for kind in self._machines(task)}),
            "materials": [told(f"{item.ordered_words}: {item.description}") for each in due for item in each.items],
        }

    def _first_after(self, on: dt.date) -> dt.date | None:
        return next((day for day in self.days if day > on), None)

    def _cautions(self) -> list[str]:
        """Return what says stop or asks to look on site; what is about the price alone is not for a sheet."""
        found = [
            each
            for each in self.plan.findings
            if each.severity in {Severity.STOP, Severity.CHECK} and not isinstance(each.code, MoneyCode)
        ]
        return [told(f"{each.place}: {each.message}") for each in found[:_CAUTIONS]]


def _waits_before(task: Task, tasks: dict[Any, Task]) -> Sequence[Task]:
    """Return the waits between a task and the work before it, one after another too."""
    found: list[Task] = []
    looking = [key for key in task.after if key in tasks and tasks[key].wait]
    while looking:
        wait = tasks[looking.pop()]
        if wait not in found:
            found.append(wait)
            looking += [key for key in wait.after if key in tasks and tasks[key].wait]
    return found
