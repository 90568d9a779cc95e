"""How long concrete and mortar harden in a bay: by the temperature of its months, or by one that somebody read."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.programme._elapsed import later, minutes_between
from pavewright.programme._maturity import speed_by_datum, speed_by_en_form, speed_by_energy

if TYPE_CHECKING:
    from pavewright.programme._figures import ProgrammeFigures
    from pavewright.programme._keys import WaitKey
    from pavewright.rules import Figure, Rulebook

_FIRST_OF_A_YEAR = 12
Speed = Callable[[float], float]
"""How quickly cement hardens at a temperature [°C], against the temperature of reference [-]."""


@dataclass(frozen=True, slots=True)
class Regime:
    """One published way to say how quickly cement hardens.

    Attributes:
        figure: The figure that it rests on, with its source and status.
        speed: Speed at a temperature.
    """

    figure: Figure
    speed: Speed


@dataclass(frozen=True, slots=True)
class Temperatures:
    """How warm a bay is while it hardens.

    Attributes:
        typed_c: What somebody read or expects; None where nobody did. [°C]
        months_c: Mean of each month that is known, January 1. [°C]
    """

    typed_c: float | None = None
    months_c: Mapping[int, float] = field(default_factory=dict)

    def at(self, day: dt.date) -> float | None:
        """Return the temperature on a day; none where it is not known. [°C]."""
        return self.typed_c if self.typed_c is not None else self.months_c.get(day.month)


@dataclass(frozen=True, slots=True)
class RegimeTime:
    """How long one regime says that it takes.

    Attributes:
        figure: The figure that the regime rests on.
        hours: How long; None where it has no end in sight. [h]
    """

    figure: Figure
    hours: float | None


@dataclass(frozen=True, slots=True)
class CureTime:
    """How long a bay hardens from a moment.

    Attributes:
        rule: The fixed time of the rulebook; nothing is shorter.
        reference_c: Temperature at which that time is taken to hold. [°C]
        hours: How long it is. [h]
        from_c: Temperature as it begins; None where it is not known. [°C]
        known: Whether the temperature is known all the time.
        regimes: What each regime says, longest first; empty where no temperature is known.
        ends: Whether every regime comes to an end.
    """

    rule: Figure
    reference_c: float
    hours: float
    from_c: float | None
    known: bool
    regimes: tuple[RegimeTime, ...]
    ends: bool

    @property
    def deciding(self) -> Figure:
        """Return the figure that decided: the rule's own where nothing is longer."""
        longest = self.regimes[0] if self.regimes else None
        if longest is None or (longest.hours is not None and longest.hours <= self.rule.value):
            return self.rule
        return longest.figure


@dataclass(frozen=True, slots=True)
class BayCure:
    """A wait of the programme with the clock of its bay.

    Attributes:
        key: Key of the wait; None where the whole job waits for somebody to walk or drive on it.
        description: In words.
        begins: When it begins to harden.
        ends: When it has hardened.
        time: How long it takes.
    """

    key: WaitKey | None
    description: str
    begins: dt.datetime
    ends: dt.datetime
    time: CureTime


def regimes_of(rules: Rulebook, figures: ProgrammeFigures) -> tuple[Regime, ...]:
    """Return all regimes of the rulebook: by activation energy, by a datum, and the form of EN 1992 from memory."""
    reference, found = figures.cure_reference_c.value, []
    energies = rules.table("programme.activation_energy")
    for row in energies.rows:
        figure = energies.figure(row.key, "energy_kj_per_mol")
        found.append(Regime(figure, _by_energy(reference, figure.value)))
    datums = rules.table("programme.maturity_datum")
    for row in datums.rows:
        figure = datums.figure(row.key, "datum_c")
        found.append(Regime(figure, _by_datum(reference, figure.value)))
    slope, constant = figures.en_slope_k, figures.en_constant
    at_reference = speed_by_en_form(reference, slope.value, constant.value)
    found.append(Regime(slope, lambda warm_c: speed_by_en_form(warm_c, slope.value, constant.value) / at_reference))
    return tuple(found)


def _by_energy(reference_c: float, energy_kj_per_mol: float) -> Speed:
    return lambda warm_c: speed_by_energy(warm_c, reference_c, energy_kj_per_mol)


def _by_datum(reference_c: float, datum_c: float) -> Speed:
    return lambda warm_c: speed_by_datum(warm_c, reference_c, datum_c)


def cure_time(
    start: dt.datetime,
    rule: Figure,
    warm: Temperatures,
    regimes: tuple[Regime, ...],
    figures: ProgrammeFigures,
    zone: dt.tzinfo | None = None,
) -> CureTime:
    """Return how long a bay hardens from a moment: the longest of all regimes, never shorter than the rule.

    A later start never ends earlier: every regime adds up what is behind it hour by hour. Where the temperature of a
    month is not known the clock of the rule runs on, and ``known`` says so.

    Args:
        start: When it begins to harden.
        rule: Fixed time of the rulebook, in hours.
        warm: Temperatures of the bay.
        regimes: What is compared.
        figures: Figures of the programme.
        zone: Time zone of the site; None where it is not known.

    Source: nurse_saul; arrhenius_maturity
    """
    from_c = warm.at(start.date())
    freezing_c, reference_c = figures.cure_freezing_c.value, figures.cure_reference_c.value
    longest_h = figures.cure_longest_days.value * units.HOURS_PER_DAY
    if warm.typed_c is None and not warm.months_c:
        return CureTime(rule, reference_c, rule.value, None, known=False, regimes=(), ends=True)
    times = []
    for regime in regimes:

        def speed(day: dt.date, own: Speed = regime.speed) -> float:
            celsius = warm.at(day)
            return 1.0 if celsius is None else 0.0 if celsius <= freezing_c else own(celsius)

        times.append(RegimeTime(regime.figure, _hours_until(start, rule.value, speed, longest_h, zone)))
    ordered = tuple(sorted(times, key=lambda each: -(longest_h if each.hours is None else each.hours)))
    hours = max(rule.value, *(longest_h if each.hours is None else each.hours for each in ordered))
    known = _known(start, hours, warm, zone)
    return CureTime(
        rule, reference_c, hours, from_c, known, ordered, ends=all(each.hours is not None for each in ordered)
    )


def _hours_until(
    start: dt.datetime,
    needed_h: float,
    speed: Callable[[dt.date], float],
    longest_h: float,
    zone: dt.tzinfo | None,
) -> float | None:
    """Return after how many hours so many hours of the reference are behind; none where that takes too long."""
    moment, left, gone = start, needed_h, 0.0
    while gone < longest_h:
        ends = _next_month(moment)
        piece = minutes_between(moment, ends, zone) / units.MINUTES_PER_HOUR
        now = speed(moment.date())
        if now > 0.0 and left <= now * piece:
            found = gone + left / now
            return found if found <= longest_h else None
        left -= now * piece
        gone += piece
        moment = ends
    return None


def _known(start: dt.datetime, hours: float, warm: Temperatures, zone: dt.tzinfo | None) -> bool:
    moment, last = start, later(start, hours * units.MINUTES_PER_HOUR, zone)
    while moment < last:
        if warm.at(moment.date()) is None:
            return False
        moment = _next_month(moment)
    return True


def _next_month(moment: dt.datetime) -> dt.datetime:
    year, month = (moment.year + 1, 1) if moment.month == _FIRST_OF_A_YEAR else (moment.year, moment.month + 1)
    return dt.datetime(year, month, 1)  # noqa: DTZ001 - local time, as the whole programme
