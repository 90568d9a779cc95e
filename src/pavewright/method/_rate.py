"""How often units are lifted, on the day on which most are laid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import TaskKind
from pavewright.earthworks import Spread
from pavewright.method._days import by_day
from pavewright.method._lifting import lift_way, rate_kg
from pavewright.method._types import LiftRate, LiftWay
from pavewright.sums import Working

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import Job
    from pavewright.laying import LaidArea, LayingPlan
    from pavewright.method._days import DayOfTask
    from pavewright.method._figures import MethodFigures
    from pavewright.programme import Programme

_LAYING = frozenset({TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE})


@dataclass(slots=True)
class _Day:
    """What falls on a day.

    Attributes:
        pieces: Pieces laid. [-]
        kg: Their mass. [kg]
        hands: Pairs of hands that they take, two for each heavy one. [-]
        heaviest_kg: The heaviest of them. [kg]
        person_h: Time of those who lay. [h]
        people: Most hands on one task. [-]
    """

    pieces: float = 0.0
    kg: float = 0.0
    hands: float = 0.0
    heaviest_kg: float = 0.0
    person_h: float = 0.0
    people: int = 0


def lift_rate(job: Job, laying: LayingPlan, programme: Programme, figures: MethodFigures) -> LiftRate | None:
    """Return how often units are lifted on the day on which most are laid; None where no day of laying is known."""
    days: dict[dt.date, _Day] = {}
    number = {area.name: place for place, area in enumerate(job.areas)}
    for laid in laying.areas:
        _add(days, laid, by_day(job, programme, _LAYING, number.get(laid.area)), figures)
    if not days:
        return None
    on = max(days, key=lambda day: (days[day].hands / days[day].person_h, day))
    day, each = days[on], figures.lifts_each
    few = each.value if each.low is None else each.low
    many = each.value if each.high is None else each.high
    per_h = day.hands * each.value / day.person_h
    hands = "" if day.hands == day.pieces else f" ({day.hands:.0f} pairs of hands: the heavy ones take two)"
    words = f"{day.pieces:.0f} pieces{hands} × {each.value:g} lifts / {day.person_h:.1f} person-hours"
    return LiftRate(
        on=on,
        pieces=day.pieces,
        kg=day.kg,
        heaviest_kg=day.heaviest_kg,
        people=day.people,
        lifts=Spread(day.pieces * few, day.pieces * each.value, day.pieces * many),
        per_person_h=Working(words, per_h, "1/h", (each,), "units of an area spread evenly over its time of laying"),
        one_kg=rate_kg(per_h, figures),
    )


def _add(days: dict[dt.date, _Day], laid: LaidArea, worked: tuple[DayOfTask, ...], figures: MethodFigures) -> None:
    """Add the pieces of an area to the days on which it is laid."""
    whole = sum(each.minutes for each in worked)
    pieces = len(laid.pieces)
    if not whole or not pieces:
        return
    kg = sum(piece.kg for piece in laid.pieces)
    hands = sum(1 if lift_way(piece.kg, figures) is LiftWay.ONE else 2 for piece in laid.pieces)
    heaviest = max(piece.kg for piece in laid.pieces)
    for each in worked:
        share = each.minutes / whole
        day = days.setdefault(each.on, _Day())
        day.pieces += pieces * share
        day.kg += kg * share
        day.hands += hands * share
        day.heaviest_kg = max(day.heaviest_kg, heaviest)
        day.person_h += each.task.people * each.minutes / units.MINUTES_PER_HOUR
        day.people = max(day.people, each.task.people)
