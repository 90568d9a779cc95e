"""When finished paving may be walked on, driven on, cleaned and sealed: dates from completion or from the programme."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Bedding, Use
from pavewright.papers.handover._words import WORDS
from pavewright.programme import cure_times
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Area
    from pavewright.pipeline import Plan
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class CareFigures:
    """The figures of care; a field is the figure of its name, with its unit."""

    furniture_days: Figure
    wash_days: Figure
    seal_days: Figure
    top_up_days: Figure
    look_days: Figure
    walk_on_h: Figure
    drive_on_mortar_h: Figure


def care_figures(rules: Rulebook) -> CareFigures:
    """Return the figures of care; how long joints harden is that of the programme."""
    return read_figures(
        CareFigures,
        rules,
        "handover",
        walk_on_h=rules.figure("programme.walk_on_h"),
        drive_on_mortar_h=rules.figure("programme.drive_on_mortar_h"),
    )


@dataclass(frozen=True, slots=True)
class CareDate:
    """When something may be done.

    Attributes:
        words: What.
        first: Not before the evening of this day; None where it is too cold to say.
        safe: By the longest that is published; None where there is no more than one figure.
        figure: What decided; None where nothing has to harden.
    """

    words: str
    first: dt.date | None
    safe: dt.date | None
    figure: Figure | None


@dataclass(frozen=True, slots=True)
class Care:
    """Dates of care.

    Attributes:
        counted_from: The day from which they count.
        completed: Whether that is the day of completion as entered, and not one of the programme.
        dates: In the order in which they come about.
        on_foot: Names of areas on which no car may stand.
    """

    counted_from: dt.date
    completed: bool
    dates: tuple[CareDate, ...]
    on_foot: tuple[str, ...]


def care_of(plan: Plan, rules: Rulebook) -> Care:
    """Return when the paving of a plan may be used, cleaned and sealed."""
    told, figures = plan.job.handed_over, care_figures(rules)
    entered = None if told is None else told.completed_on
    begins = plan.programme.finish if entered is None else entered
    mortar = any(_in_mortar(area) for area in plan.job.areas)
    sand = not all(_in_mortar(area) for area in plan.job.areas)
    later = [
        *([(WORDS.furniture, figures.furniture_days), (WORDS.wash, figures.wash_days)] if mortar else []),
        (WORDS.seal, figures.seal_days),
        *([(WORDS.top_up, figures.top_up_days)] if sand else []),
        *([(WORDS.look, figures.look_days)] if mortar else []),
    ]
    dates = [*_hardening(plan, rules, figures, begins), *(_on(words, figure, begins) for words, figure in later)]
    on_foot = tuple(area.name for area in plan.job.areas if area.use is Use.FOOT)
    return Care(begins, entered is not None, tuple(dates), on_foot)


def _in_mortar(area: Area) -> bool:
    return area.laying.bedding is not Bedding.SAND_ON_SUB_BASE


def _on(words: str, figure: Figure, begins: dt.date) -> CareDate:
    first = begins + dt.timedelta(days=math.ceil(figure.value))
    high = figure.high
    return CareDate(words, first, None if high is None else begins + dt.timedelta(days=math.ceil(high)), figure)


def _hardening(plan: Plan, rules: Rulebook, figures: CareFigures, begins: dt.date) -> Iterator[CareDate]:
    """Give when each area may be walked on, then driven on: joints of mortar harden by the temperature of the place."""
    driven = [(number, area) for number, area in enumerate(plan.job.areas) if area.use is not Use.FOOT]
    setting = _Setting(plan, rules, begins)
    for number, area in enumerate(plan.job.areas):
        words = WORDS.walk if _in_mortar(area) else WORDS.walk_at_once
        yield setting.ready(words(area=area.name), number, figures.walk_on_h, plan.programme.foot_ready)
    for number, area in driven:
        words = WORDS.drive if _in_mortar(area) else WORDS.drive_at_once
        ready = plan.programme.car_ready or begins
        yield setting.ready(words(area=area.name), number, figures.drive_on_mortar_h, ready)


class _Setting:
    """When the joints of areas have set: by the day of completion, or by the programme where none was entered."""

    def __init__(self, plan: Plan, rules: Rulebook, begins: dt.date) -> None:
        told = plan.job.handed_over
        self._by_programme = told is None or told.completed_on is None
        self._areas, self._begins, self._times = plan.job.areas, begins, cure_times(plan.job, rules)

    def ready(self, words: str, number: int, rule: Figure, planned: dt.date) -> CareDate:
        """Return when an area is ready: not before the fixed time, later where cold makes it later."""
        if not _in_mortar(self._areas[number]):
            return CareDate(words, planned if self._by_programme else self._begins, None, None)
        # nobody knows the hour: the last joint was filled on that day, by its evening at the latest
        time = self._times(rule, number, dt.datetime.combine(self._begins, dt.time()))
        if not time.ends:
            return CareDate(words, None, None, time.deciding)
        first = planned if self._by_programme else self._begins + _whole_days(time.hours)
        safe = None if rule.high is None else max(first, self._begins + _whole_days(rule.high))
        return CareDate(words, first, safe, time.deciding)


def _whole_days(hours: float) -> dt.timedelta:
    return dt.timedelta(days=math.ceil(hours / units.HOURS_PER_DAY))
