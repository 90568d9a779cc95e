"""The season of a job: how warm its bays are, and what work falls outside what mortar, concrete and joints stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import TaskKey
from pavewright.findings import Finding, Severity
from pavewright.job import Bedding
from pavewright.programme import _season_words as words
from pavewright.programme._codes import Code
from pavewright.programme._cure_clock import Temperatures
from pavewright.programme._gates import Gate, gate_limits, gates_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.job import Job
    from pavewright.programme._cure_clock import BayCure
    from pavewright.programme._gates import GateLimits
    from pavewright.programme._keys import StepKey
    from pavewright.programme._types import Task
    from pavewright.rules import Rulebook


def temperatures_of(job: Job, area: int | None) -> Temperatures:
    """Return how warm a bay is: as typed for its area, else the means of the months that are known."""
    typed = None
    if area is not None:
        name = job.areas[area].name
        typed = next((each.temperature_c for each in job.calendar.bay_temperatures if each.area == name), None)
    months = {each.month: each.mean_c for each in job.calendar.weather if each.mean_c is not None}
    return Temperatures(typed, months)


def season_notices(job: Job, tasks: Sequence[Task], cures: Sequence[BayCure], rules: Rulebook) -> Iterator[Finding]:
    """Give work at temperatures that a source does not allow, frost on fresh mortar or concrete, endless waits."""
    for gate in Gate:
        found = _worst(job, tasks, gate_limits(rules, gate))
        if found is not None:
            yield found
    yield from _frost(job, tasks)
    if cures and rules.zone_in(job.identity.region) is None:
        said, options = words.clock_changes()
        yield Finding(Code.CLOCK_CHANGES, Severity.NOTE, "programme", said, options=options)
    for cure in cures:
        if not cure.time.ends:
            said, options = words.no_hardening(cure.time)
            yield Finding(
                *(Code.NO_HARDENING, Severity.STOP, cure.description, said, cure.time.from_c, None, "°C"),
                cure.time.deciding,
                options=options,
            )


def _gates(job: Job, task: Task) -> tuple[Gate, ...]:
    return _gates_of(job, task.key)


def _gates_of(job: Job, key: StepKey) -> tuple[Gate, ...]:
    if not isinstance(key, TaskKey):
        return ()
    mortar = key.area is not None and job.areas[key.area].laying.bedding is not Bedding.SAND_ON_SUB_BASE
    return gates_of(key.kind, mortar=mortar)


def _worst(job: Job, tasks: Sequence[Task], limits: GateLimits) -> Finding | None:
    """Return the work that a gate stops most; a mean of a month only asks to look, as single days differ from it."""
    met = []
    for task in tasks:
        if limits.gate in _gates(job, task):
            warm = temperatures_of(job, task.key.area)
            for moment in (task.start, task.finish):
                celsius = warm.at(moment.date())
                if celsius is not None and limits.broken_by(celsius):
                    met.append((celsius, task, warm.typed_c is not None))
    if not met:
        return None
    celsius, task, typed = (min if limits.gate.cold else max)(met, key=lambda each: each[0])
    every = len(limits.broken_by(celsius)) == len(limits.limits)
    severity = Severity.STOP if typed and every else Severity.CHECK
    said, options = words.gate_met(limits, celsius, typed=typed, others=len({id(each[1]) for each in met}) - 1)
    deciding = limits.deciding
    return Finding(
        *(Code.WEATHER_GATE, severity, task.description, said, celsius, deciding.value, "°C", deciding),
        options=options,
    )


def _frost(job: Job, tasks: Sequence[Task]) -> Iterator[Finding]:
    days = {each.month: each.frost_days for each in job.calendar.weather if each.frost_days}
    fresh = [
        (days[task.start.month], task)
        for task in tasks
        if task.start.month in days and {Gate.MORTAR_COLD, Gate.CONCRETE_COLD} & set(_gates(job, task))
    ]
    if fresh:
        count, task = max(fresh, key=lambda each: each[0])
        said, options = words.frost_days(count)
        yield Finding(Code.FROST_DAYS, Severity.CHECK, task.description, said, count, 0.0, "days", options=options)


def shut_months(job: Job, key: StepKey, rules: Rulebook) -> tuple[int, ...]:
    """Return the months whose mean temperature a gate of a task asks to look at, of the months that are known.

    Args:
        job: The job, with the weather of its months.
        key: The task; a wait has no gates.
        rules: Rulebook with the limits.
    """
    found = set()
    for gate in _gates_of(job, key):
        limits = gate_limits(rules, gate)
        found |= {
            each.month for each in job.calendar.weather if each.mean_c is not None and limits.broken_by(each.mean_c)
        }
    return tuple(sorted(found))
