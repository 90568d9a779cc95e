"""Tools that shake hands and deafen: minutes, points, and how long each may run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import HireKey, TaskKey
from pavewright.earthworks import Spread
from pavewright.job import PlantKind
from pavewright.method._days import tasks_by_day
from pavewright.method._noise import noise_day
from pavewright.method._types import ToolUse, ToolVerdict
from pavewright.method._vibration import exposure, points, until_h
from pavewright.sums import Working

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.cost import LabourTask
    from pavewright.job import Job, PlantHire
    from pavewright.method._figures import MethodFigures
    from pavewright.method._types import Dust
    from pavewright.programme import Programme

_SHAKING = (PlantKind.SAW, PlantKind.PLATE, PlantKind.BREAKER)
"""Tools that a person holds or walks behind."""
_NEEDED = frozenset({PlantKind.SAW, PlantKind.PLATE})
"""Those without which the work that they serve cannot be done: used even where nobody listed one."""


def tools(
    job: Job, labour: Iterable[LabourTask], programme: Programme, dust: Dust | None, figures: MethodFigures
) -> tuple[ToolUse, ...]:
    """Return the tools that shake hands or deafen: listed ones, and those that the work needs."""
    used = _minutes(job, labour, programme, dust)
    found = []
    for kind in _SHAKING:
        listed = [(number, each) for number, each in enumerate(job.rates.plant) if each.key is kind]
        bound = kind is not PlantKind.SAW and kind in used
        found += [_use(kind, HireKey(kind, n), each, used.get(kind), figures, bound=bound) for n, each in listed]
        if not listed and kind in used and kind in _NEEDED:
            found.append(_use(kind, None, None, used[kind], figures, bound=bound))
    return tuple(found)


def _minutes(
    job: Job, labour: Iterable[LabourTask], programme: Programme, dust: Dust | None
) -> dict[PlantKind, Spread]:
    """Return how long each tool is used on its busiest day: a saw by its metres, others at most all of the work."""
    found: dict[PlantKind, Spread] = {}
    if dust is not None:
        found[PlantKind.SAW] = dust.busiest_min
    plant = {each.key: each.plant for each in labour}
    day_min = job.crew.hours_per_day * units.MINUTES_PER_HOUR
    for kind in _SHAKING:
        if kind is PlantKind.SAW:
            continue
        served = [
            task for task in programme.tasks if isinstance(task.key, TaskKey) and kind in plant.get(task.key.priced, ())
        ]
        of_day: dict[dt.date, float] = {}
        for each in tasks_by_day(job, served):
            of_day[each.on] = of_day.get(each.on, 0.0) + each.minutes
        if of_day:
            most = min(max(of_day.values()), day_min)
            found[kind] = Spread(most, most, most)
    return found


def _use(
    kind: PlantKind,
    key: HireKey | None,
    hire: PlantHire | None,
    minutes: Spread | None,
    figures: MethodFigures,
    *,
    bound: bool,
) -> ToolUse:
    shakes = None if hire is None else hire.vibration_m_per_s2
    loud = None if hire is None else hire.noise_db
    action, limit = figures.vibration_action_m_per_s2, figures.vibration_limit_m_per_s2
    until = [
        None if shakes is None else until_h(each.value, shakes) * units.MINUTES_PER_HOUR for each in (action, limit)
    ]
    scored = None if shakes is None or minutes is None else _points(shakes, minutes, action.value)
    day_db = None if loud is None or minutes is None else noise_day([loud], [minutes.high / units.MINUTES_PER_HOUR])
    return ToolUse(
        kind=kind,
        key=key,
        minutes=minutes,
        bound=bound,
        vibration_m_per_s2=shakes,
        points=scored,
        to_action_min=until[0],
        to_limit_min=until[1],
        vibration=_shaken(shakes, minutes, action.value, limit.value),
        noise_db=loud,
        noise_day_db=day_db,
        noise=_deafened(day_db, figures),
        workings=_workings(shakes, minutes, scored, loud, day_db, figures),
    )


def _until_min(value_m_s2: float, shakes: float | None) -> float | None:
    """Return how long a tool may run alone to a value of the day. [min]."""
    return None if shakes is None else until_h(value_m_s2, shakes) * units.MINUTES_PER_HOUR


def _points(shakes: float, minutes: Spread, action: float) -> Spread:
    low, likely, high = (
        points(shakes, each / units.MINUTES_PER_HOUR, action) for each in (minutes.low, minutes.likely, minutes.high)
    )
    return Spread(low, likely, high)


def _shaken(shakes: float | None, minutes: Spread | None, action: float, limit: float) -> ToolVerdict:
    """Return how a day stands by its longest time."""
    if shakes is None or minutes is None:
        return ToolVerdict.NOT_KNOWN
    day = exposure(shakes, minutes.high / units.MINUTES_PER_HOUR)
    if day > limit:
        return ToolVerdict.OVER_LIMIT
    return ToolVerdict.OVER_ACTION if day >= action else ToolVerdict.BELOW_ACTION


def _deafened(day_db: float | None, figures: MethodFigures) -> ToolVerdict:
    if day_db is None:
        return ToolVerdict.NOT_KNOWN
    if day_db > figures.noise_limit_db.value:
        return ToolVerdict.OVER_LIMIT
    return ToolVerdict.OVER_ACTION if day_db >= figures.noise_lower_db.value else ToolVerdict.BELOW_ACTION


def _workings(
    shakes: float | None,
    minutes: Spread | None,
    scored: Spread | None,
    loud: float | None,
    day_db: float | None,
    figures: MethodFigures,
) -> tuple[Working, ...]:
    found = []
    hours = 0.0 if minutes is None else minutes.high / units.MINUTES_PER_HOUR
    if shakes is not None and scored is not None:
        action = figures.vibration_action_m_per_s2
        words = f"100 × ({shakes:g} / {action.value:g})² × {hours:.2f} h / 8 h"
        found.append(Working(words, scored.high, "points", (action,), "at the longest time"))
    if loud is not None and day_db is not None:
        words = f"{loud:g} dB(A) + 10 log ({hours:.2f} h / 8 h)"
        figures_in = (figures.noise_lower_db, figures.noise_upper_db, figures.noise_limit_db)
        found.append(Working(words, day_db, "dB(A)", figures_in, "at the longest time"))
    return tuple(found)
