"""Dust: how long a blade is in the stone, over the job and on the day on which most is cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import TaskKind
from pavewright.earthworks import Spread
from pavewright.method._days import by_day
from pavewright.method._types import Dust
from pavewright.sums import Working

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.method._figures import MethodFigures
    from pavewright.programme import Programme
    from pavewright.rules import Figure


def blade_min(saw_m: float, saw_m_per_min: float) -> float:
    """Return how long a blade is in the stone. [min].

    Args:
        saw_m: Length of all saw cuts. [m]
        saw_m_per_min: Cut through a unit in a minute. [m/min]

    Valid for: one pass through the whole thickness.
    Source: common practice

    >>> blade_min(30.0, 0.5)
    60.0
    """
    return saw_m / saw_m_per_min


def water_l(minutes: float, water_l_per_min: float) -> float:
    """Return the water that a blade takes. [l].

    Args:
        minutes: The blade in the stone. [min]
        water_l_per_min: Flow on the blade. [l/min]

    Source: construction_sheet_54
    """
    return minutes * water_l_per_min


def dust(job: Job, laying: LayingPlan, programme: Programme, figures: MethodFigures) -> Dust | None:
    """Return how long the blade is in the stone; None where nothing is cut."""
    saw_m = laying.saw_m
    if saw_m <= 0.0:
        return None
    speed, flow = figures.saw_m_per_min, figures.water_l_per_min
    minutes = _minutes(saw_m, speed)
    of_day = _metres_by_day(job, laying, programme)
    dated = sum(of_day.values())
    # what no date is known for may fall on the busiest day
    busiest = max(of_day.values(), default=0.0) + max(0.0, saw_m - dated)
    litres = water_l(minutes.likely, flow.value)
    return Dust(
        cuts=sum(laid.cuts for laid in laying.areas),
        saw_m=saw_m,
        minutes=minutes,
        days=len(of_day),
        busiest_min=_minutes(busiest, speed),
        water_l=litres,
        working=Working(
            f"{saw_m:.1f} m / {speed.value:g} m/min",
            minutes.likely,
            "min",
            (speed,),
            f"{minutes.low:.0f} to {minutes.high:.0f} min, by thickness, stone and blade",
        ),
        water=Working(f"{minutes.likely:.0f} min × {flow.value:g} l/min", litres, "l", (flow,)),
    )


def _minutes(saw_m: float, speed: Figure) -> Spread:
    slow = speed.value if speed.low is None else speed.low
    fast = speed.value if speed.high is None else speed.high
    return Spread(blade_min(saw_m, fast), blade_min(saw_m, speed.value), blade_min(saw_m, slow))


def _metres_by_day(job: Job, laying: LayingPlan, programme: Programme) -> dict[dt.date, float]:
    """Return the metres of sawing that fall on each day, those of an area spread evenly over its time of cutting."""
    found: dict[dt.date, float] = {}
    number = {area.name: place for place, area in enumerate(job.areas)}
    for laid in laying.areas:
        worked = by_day(job, programme, {TaskKind.CUT}, number.get(laid.area))
        whole = sum(each.minutes for each in worked)
        for each in worked:
            part = laid.saw_with_folds_m * each.minutes / whole if whole else 0.0
            found[each.on] = found.get(each.on, 0.0) + part
    return {on: metres for on, metres in found.items() if metres > 0.0}
