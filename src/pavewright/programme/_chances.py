"""The programme drawn many times: its tasks as pieces of the chance of the finish."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.programme._finish_chance import Piece, finish_chance, stopped_share
from pavewright.programme._keys import priced

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._finish_chance import FinishChance
    from pavewright.programme._keys import StepKey
    from pavewright.programme._placing import Means, Placed
    from pavewright.rules import Rulebook

_WHOLE = 100.0
_SECONDS_PER_MINUTE = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR


def chance_of_finish(
    job: Job,
    labour: Sequence[LabourTask],
    best: Sequence[Placed],
    means: Means,
    planned: dt.date,
    figures: ProgrammeFigures,
    rules: Rulebook,
) -> FinishChance | None:
    """Return when the work ends with its chance; None where no weather of any month is known."""
    stopped, whole = _stopped(job)
    if not stopped or not best:
        return None
    first = means.begin.date()
    return finish_chance(
        _pieces(labour, best, means, first),
        means.clock,
        first,
        planned,
        stopped,
        figures.weather_correlation.value,
        rules.value("chance.output_correlation"),
        whole,
    )


def _stopped(job: Job) -> tuple[dict[int, float], frozenset[int]]:
    """Return the chance that a day is stopped by month, and the months of which all is known."""
    start = job.calendar.start
    year = start.year if start is not None else dt.date.max.year
    found: dict[int, float] = {}
    whole = set()
    for row in job.calendar.weather:
        days = (row.wet_days, row.frost_days, row.hot_days)
        if any(each is not None for each in days):
            found[row.month] = stopped_share(row.month, year, *(each or 0.0 for each in days))
        if all(each is not None for each in days):
            whole.add(row.month)
    return found, frozenset(whole)


def _pieces(labour: Sequence[LabourTask], best: Sequence[Placed], means: Means, first: dt.date) -> tuple[Piece, ...]:
    ends: dict[object, tuple[float, float]] = {task.key: _ends(task) for task in labour}
    order = _in_turn(best)
    place = {each.step.key: number for number, each in enumerate(order)}
    leads: dict[StepKey, int] = {}
    found = []
    for number, each in enumerate(order):
        piece = _piece(each, place, ends, means, first)
        if piece.high > piece.low:
            # layers of one task are as quick or slow as each other
            lead = leads.setdefault(priced(each.step.key), number)
            piece = replace(piece, alike=None if lead == number else lead)
        found.append(piece)
    return tuple(found)


def _in_turn(best: Sequence[Placed]) -> list[Placed]:
    """Return steps so that each stands behind all that it waits for."""
    left, found, done = sorted(best, key=lambda each: each.start), [], set[object]()
    while left:
        now = [each for each in left if all(key in done for key in (*each.step.after, *each.turns))]
        found += now
        done |= {each.step.key for each in now}
        left = [each for each in left if each.step.key not in done]
    return found


def _ends(task: LabourTask) -> tuple[float, float]:
    if task.person_hours <= 0.0:
        return 1.0, 1.0
    return min(1.0, task.low_hours / task.person_hours), max(1.0, task.high_hours / task.person_hours)


def _piece(
    each: Placed,
    place: Mapping[StepKey, int],
    ends: Mapping[object, tuple[float, float]],
    means: Means,
    first: dt.date,
) -> Piece:
    step = each.step
    if means.shown.is_done(step.key):
        return Piece(0.0, 1.0, 1.0, (), weather=False, wait=True)
    low, high = (1.0, 1.0) if step.wait else ends.get(priced(step.key), (1.0, 1.0))
    if step.wait:
        minutes = (each.finish - each.start).total_seconds() / _SECONDS_PER_MINUTE
    else:
        minutes = each.minutes / (1.0 + step.lost_percent / _WHOLE)
    held = [moment for moment in (means.shown.resumes, means.shown.not_before(step.key)) if moment is not None]
    midnight = dt.datetime.combine(first, dt.time())
    earliest = max(((moment - midnight).total_seconds() / _SECONDS_PER_MINUTE for moment in held), default=0.0)
    after = tuple(dict.fromkeys(place[key] for key in (*step.after, *each.turns)))
    return Piece(minutes, low, high, after, weather=step.weather, wait=step.wait, earliest_min=max(0.0, earliest))
