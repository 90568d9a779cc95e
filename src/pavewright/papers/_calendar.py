"""The programme as a calendar for phones: the same names from one revision to the next, so that entries move."""

from __future__ import annotations

import datetime as dt
import math
from collections import Counter
from typing import TYPE_CHECKING
from urllib.parse import quote
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from pavewright import rulebook
from pavewright.cost import TaskKey
from pavewright.papers._cost_words import CALENDAR as SAID
from pavewright.papers._supply_words import lead_words, load_words
from pavewright.papers._words import day, hour
from pavewright.programme import stretches
from pavewright.quantities import ItemGroup
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost import Cost
    from pavewright.pipeline import Plan
    from pavewright.programme import Delivery, Task

_CHANGES_A_REVISION = 1000
_MOST_DAYS = 60
_LOADS_CANCELLED = 6
_SUPPLIERS_CANCELLED = 2


def programme_calendar(plan: Plan) -> bytes:
    """Return the programme as a calendar: work in working hours only, waits and deliveries as whole days.

    Names of events stay the same from one revision to the next, and what is no longer there is cancelled; the place is
    the address of the job. Hours are those of the clock on the wall at the site, whatever the season.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//pavewright//programme//EN")
    calendar.add("version", "2.0")
    zone = rulebook.zone_of(plan.edition, plan.job.identity.region)
    for task in plan.programme.tasks:
        for event in _of_wait(plan, task) if task.wait else _of_work(plan, task, zone):
            calendar.add_component(event)
    for event in _gone_wholes(plan):
        calendar.add_component(event)
    for delivery in plan.programme.deliveries:
        for event in _of_delivery(plan, delivery):
            calendar.add_component(event)
    for event in (*_gone_deliveries(plan), *_of_hires(plan), *_of_loads(plan)):
        calendar.add_component(event)
    if zone:
        year = dt.timedelta(days=366)
        calendar.add_missing_timezones(plan.programme.start - year, plan.programme.finish + year)
    return bytes(calendar.to_ical())


def _of_work(plan: Plan, task: Task, zone: str) -> Iterator[Event]:
    """Give one event for each day of a task, and the cancelling of days that an earlier issue may have held."""
    parts = stretches(plan.job, task)
    place = ZoneInfo(zone) if zone else None
    for number, part in enumerate(parts, start=1):
        turn = f", day {number} of {len(parts)}" if len(parts) > 1 else ""
        event = _event(plan, f"{task.key.text}.{number}", f"{task.description}{turn}")
        event.add("dtstart", part.start.replace(tzinfo=place))
        event.add("dtend", part.finish.replace(tzinfo=place))
        event.add("transp", "OPAQUE")
        yield event
    for number in range(len(parts) + 1, _days_before(plan, task) + 1):
        event = _event(plan, f"{task.key.text}.{number}", task.description)
        _whole_days(event, task.finish.date(), task.finish.date())
        event.add("status", "CANCELLED")
        yield event


def _days_before(plan: Plan, task: Task) -> int:
    """Return how many days an earlier issue may have held of a task: those of one person; none in the first issue."""
    if _sequence(plan) == 0:
        return 0
    whole = task.key.priced if isinstance(task.key, TaskKey) else task.key
    cost: Cost | None = plan.cost
    if cost is None:  # a job without prices has its hours elsewhere: as many as there can be are cancelled
        return _MOST_DAYS
    hours = next(each.person_hours for each in cost.labour if each.key == whole)
    return min(math.ceil(hours / plan.job.crew.hours_per_day) + 1, _MOST_DAYS)


def _gone_wholes(plan: Plan) -> Iterator[Event]:
    """Cancel work that an earlier issue may have held as a whole, and that is planned layer by layer now."""
    if not _sequence(plan):
        return
    wholes = {
        each.key.priced: each
        for each in plan.programme.tasks
        if isinstance(each.key, TaskKey) and each.key.priced != each.key
    }
    for key, task in wholes.items():
        for number in range(1, _days_before(plan, task) + 1):
            event = _event(plan, f"{key.text}.{number}", task.description)
            _whole_days(event, task.finish.date(), task.finish.date())
            event.add("status", "CANCELLED")
            yield event


def _of_wait(plan: Plan, task: Task) -> Iterator[Event]:
    begin = SAID.stop_until_somebody_has if task.hold else SAID.wait_nobody_site
    event = _event(plan, task.key.text, f"{begin}: {task.description}")
    _whole_days(event, task.start.date(), task.finish.date())
    event.add("description", f"{hour(task.start)} to {hour(task.finish)}")
    yield event


def _of_delivery(plan: Plan, delivery: Delivery) -> Iterator[Event]:
    """Give the day on which materials are to be there, and the last day on which to order them."""
    name = _delivery_name(delivery.group, delivery.number)
    who = f" of {delivery.supplier}" if delivery.supplier else ""
    ordered = [f"{item.ordered_words}: {item.description}" for item in delivery.items]
    lead = lead_words(delivery.lead_days, known=delivery.lead_known)
    yield _on(
        plan, f"delivery.{name}", SAID.delivery_today(group=delivery.group.value, who=who), delivery.on, *ordered, lead
    )
    if delivery.order_by is not None:
        words = SAID.order_today(group=delivery.group.value, who=who)
        yield _on(plan, f"order.{name}", words, delivery.order_by, *ordered, lead)


def _delivery_name(group: ItemGroup, number: int) -> str:
    return f"{group.value}.{number + 1}" if number else group.value


def _gone_deliveries(plan: Plan) -> Iterator[Event]:
    """Cancel deliveries that an earlier issue may have held: of further suppliers, and of what is no longer bought."""
    if not _sequence(plan):
        return
    counts = Counter(each.group for each in plan.programme.deliveries)
    for group in ItemGroup:
        for number in range(counts[group], counts[group] + _SUPPLIERS_CANCELLED):
            for kind in ("delivery", "order"):
                event = _on(plan, f"{kind}.{_delivery_name(group, number)}", "Delivery", plan.programme.start)
                event.add("status", "CANCELLED")
                yield event


def _of_hires(plan: Plan) -> Iterator[Event]:
    """Give the days on which each machine comes on hire, is called off, and is to be ordered."""
    for hire in plan.programme.hires:
        if hire.on is None or hire.off is None:
            continue
        entry = plan.job.rates.plant[hire.key.number]
        name = entry.name or hire.key.kind.value
        until = [] if hire.paid_until is None else [f"Paid until {day(hire.paid_until)}"]
        yield _on(plan, f"{hire.key.text}.on", SAID.hire_from_today(name=name), hire.on, *until)
        yield _on(plan, f"{hire.key.text}.off", SAID.call_off_hire_end(name=name), hire.off, *until)
        if hire.order_by is not None:
            yield _on(plan, f"{hire.key.text}.order", SAID.order_today_2(name=name), hire.order_by)


def _of_loads(plan: Plan) -> Iterator[Event]:
    """Give the days on which spoil leaves, and cancel those that an earlier issue may have held."""
    loads = plan.programme.loads
    for number, load in enumerate(loads, start=1):
        yield _on(plan, f"load.{number}", load_words(load), load.on)
    if _sequence(plan):
        for number in range(len(loads) + 1, len(loads) + _LOADS_CANCELLED + 1):
            event = _on(plan, f"load.{number}", "Spoil leaves", plan.programme.finish)
            event.add("status", "CANCELLED")
            yield event


def _on(plan: Plan, key: str, summary: str, on: dt.date, *lines: str) -> Event:
    """Return an event that stands on a day."""
    event = _event(plan, key, summary)
    _whole_days(event, on, on)
    if lines:
        event.add("description", told("\n".join(lines)))
    return event


def _sequence(plan: Plan) -> int:
    """Return the number of an issue: a later one is higher, by its revision and by what was shown as done since."""
    shown = len(plan.job.done) + len(plan.job.pins)
    return plan.job.identity.revision * _CHANGES_A_REVISION + min(shown, _CHANGES_A_REVISION - 1)


def _event(plan: Plan, key: str, summary: str) -> Event:
    """Return an event of a job with its name, its place and what it is."""
    who = plan.job.identity
    event = Event()
    event.add("uid", f"{quote(who.job, safe='')}-{key}@pavewright.invalid")
    event.add("sequence", _sequence(plan))
    stamp = max(who.date, plan.programme.done_up_to or who.date)
    event.add("dtstamp", dt.datetime.combine(stamp, dt.time(), tzinfo=dt.UTC))
    event.add("summary", f"{who.job}: {told(summary)}")
    if who.address:
        event.add("location", who.address)
    return event


def _whole_days(event: Event, first: dt.date, last: dt.date) -> None:
    """Give an event whole days, on which nobody is taken up."""
    event.add("dtstart", first)
    event.add("dtend", last + dt.timedelta(days=1))
    event.add("transp", "TRANSPARENT")
