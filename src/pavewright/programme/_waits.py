"""How long a wait takes from the moment at which it begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.programme._cure_clock import cure_time, regimes_of
from pavewright.programme._figures import programme_figures
from pavewright.programme._keys import WaitKey
from pavewright.programme._season import temperatures_of
from pavewright.sums import Working

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.job import Job
    from pavewright.programme._cure_clock import CureTime
    from pavewright.programme._steps import Step
    from pavewright.rules import Figure, Rulebook

WaitTimes = Callable[["Step", "dt.datetime"], "Step"]
"""Takes a wait and the moment at which it begins, returns it with its length and the sum behind that.

What begins later never ends earlier.
"""
CureTimes = Callable[["Figure", "int | None", "dt.datetime"], "CureTime"]
"""Takes the fixed time of the rulebook, the area and the moment at which it begins to harden."""


def cure_times(job: Job, rules: Rulebook) -> CureTimes:
    """Return what says how long a bay hardens: by its temperature, and where none is known as the rule says."""
    figures = programme_figures(rules)
    regimes, zone = regimes_of(rules, figures), rules.zone_in(job.identity.region)

    def timed(rule: Figure, area: int | None, begins: dt.datetime) -> CureTime:
        return cure_time(begins, rule, temperatures_of(job, area), regimes, figures, zone)

    return timed


def wait_times(job: Job, rules: Rulebook) -> WaitTimes:
    """Return what says how long each wait takes; points at which somebody looks keep the time that is entered."""
    times = cure_times(job, rules)

    def timed(step: Step, begins: dt.datetime) -> Step:
        if not isinstance(step.key, WaitKey) or step.hold or not step.working.figures:
            return step
        found = times(step.working.figures[0], step.key.area, begins)
        if not found.regimes:
            return step
        minutes = found.hours * units.MINUTES_PER_HOUR
        return replace(step, minutes=minutes, working=cure_working(found))

    return timed


def cure_working(found: CureTime) -> Working:
    """Return the sum behind a wait that its temperature decides, with every regime beside it."""
    at = "temperature not known as it begins" if found.from_c is None else f"{found.from_c:g} °C as it begins"
    every = "; ".join(
        f"{each.figure.label} {'no end' if each.hours is None else f'{each.hours:.0f} h'}" for each in found.regimes
    )
    gap = "" if found.known else "; some of its months have no temperature: the rule's clock runs there"
    figures = (found.rule,) if found.deciding is found.rule else (found.rule, found.deciding)
    return Working(
        f"wait = {found.hours:.0f} h; {found.rule.value:g} h at {found.reference_c:g} °C, {at}",
        found.hours * units.MINUTES_PER_HOUR,
        "min",
        figures,
        f"{found.deciding.label} decides, the longest, and never shorter than the rule ({every}){gap}",
    )
