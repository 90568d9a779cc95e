"""When the work ends, with its chance: days that weather stops and outputs that differ, drawn many times."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.chance import Triangle, chance_of, even_draws, leaning

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from pavewright.programme._clock import WorkingTime

REPLICATES = 4
DRAWS_EACH = 256
CHANCES = (0.5, 0.8, 0.9)
_SEED = 1
_MAX_DAILY = 440
"""Days that are drawn evenly; later ones are drawn plainly."""
_LONGEST = 3600
_MIN_OF_DAY = units.HOURS_PER_DAY * units.MINUTES_PER_HOUR
_TINY = 1e-6
_NEVER_FREE = 0.95
_SPARE = 60


@dataclass(frozen=True, slots=True)
class Piece:
    """A task or a wait, in the order in which the programme has them.

    Attributes:
        minutes: Length: work without time added for weather, or a wait. [min]
        low: Shortest over likely. [-]
        high: Longest over likely. [-]
        after: Places of the pieces that end first, those that the same people do before it among them.
        weather: Whether bad weather stops it.
        wait: Whether it runs on through nights and days off.
        earliest_min: When it may begin, after the first midnight. [min]
        alike: Place of an earlier piece of the same work, which is as quick or slow; None where there is none.
    """

    minutes: float
    low: float
    high: float
    after: tuple[int, ...]
    weather: bool
    wait: bool
    earliest_min: float = 0.0
    alike: int | None = None


@dataclass(frozen=True, slots=True)
class DateChance:
    """A day and the chance that the work has ended with it.

    Attributes:
        on: The day.
        chance: The chance. [-]
    """

    on: dt.date
    chance: float


@dataclass(frozen=True, slots=True)
class FinishChance:
    """When the work ends, with its chance.

    Attributes:
        ends: For a chance of 50, 80 and 90 per cent the first day that has it; the chance is the one asked for.
        planned: The day of the programme, and its chance.
        error: Standard error of that chance, from independent draws. [-]
        spread: Every day on which the work may end, with the chance that it has ended by then.
        unknown_months: Months of the work of which not all bad days are known; what is not known stops no day.
        mean_lost_days: Working days that weather stops before the work ends, in the mean.
        draws: How many draws.
    """

    ends: tuple[DateChance, ...]
    planned: DateChance
    error: float
    spread: tuple[DateChance, ...]
    unknown_months: tuple[int, ...]
    mean_lost_days: float
    draws: int

    def by(self, day: dt.date) -> float:
        """Return the chance that the work has ended with a day. [-]."""
        return max((each.chance for each in self.spread if each.on <= day), default=0.0)


def stopped_share(month: int, year: int, wet_days: float, frost_days: float, hot_days: float) -> float:
    """Return the chance that a day of a month is wet, frosty or too hot, the three taken as independent. [-].

    Args:
        month: The month, January 1.
        year: The year.
        wet_days: Wet days of the month. [days]
        frost_days: Days with frost. [days]
        hot_days: Days too hot. [days]

    Source: definition

    >>> round(stopped_share(4, 2026, 6.0, 3.0, 0.0), 2)
    0.28
    """
    length = calendar.monthrange(year, month)[1]
    free = 1.0
    for days in (wet_days, frost_days, hot_days):
        free *= 1.0 - min(1.0, days / length)
    return 1.0 - free


def finish_chance(
    pieces: tuple[Piece, ...],
    clock: WorkingTime,
    start: dt.date,
    planned: dt.date,
    stopped: Mapping[int, float],
    days_alike: float,
    work_alike: float,
    known: frozenset[int] | None = None,
) -> FinishChance:
    """Return when the work ends, with its chance.

    The order of work is kept. A day that weather stops gives no time to work that weather stops. Waits keep the length
    that they have in the programme.

    Args:
        pieces: Tasks and waits in order.
        clock: When the crew works.
        start: First day of the calendar.
        planned: Last day of work in the programme.
        stopped: Chance that a day is stopped, by month, January 1; a month that is not known is left out. [-]
        days_alike: Correlation of days of one month. [-]
        work_alike: Correlation of the outputs of two tasks. [-]
        known: Months of which all is known; those of ``stopped`` where left out.

    Source: scrambled_sobol
    """
    days = _horizon(start, planned, stopped)
    works = np.array([clock.works_on(day) for day in days])
    share = np.array([stopped.get(day.month, 0.0) for day in days])
    ends, lost = [], []
    for replicate in range(REPLICATES):
        stops, lengths = _drawn(pieces, days, works, share, (days_alike, work_alike), _SEED + replicate)
        finish = _finishes(pieces, clock, works, stops, lengths)
        found = np.minimum((finish - _TINY) // _MIN_OF_DAY, len(days) - 1).astype(np.int64)
        ends.append(found)
        gone = np.arange(len(days))[None, :] <= found[:, None]
        lost.append(float((stops & works[None, :] & gone).sum(axis=1).mean()))
    return _summed(ends, days, planned, frozenset(stopped) if known is None else known, float(np.mean(lost)))


def _horizon(start: dt.date, planned: dt.date, stopped: Mapping[int, float]) -> tuple[dt.date, ...]:
    """Return the days that are drawn: far enough for nearly every draw to end within them."""
    worst = min(max(stopped.values(), default=0.0), _NEVER_FREE)
    length = int(((planned - start).days + 1) * 2.0 / (1.0 - worst)) + _SPARE
    return tuple(start + dt.timedelta(days=number) for number in range(min(length, _LONGEST)))


def _drawn(
    pieces: tuple[Piece, ...],
    days: tuple[dt.date, ...],
    works: NDArray[np.bool_],
    share: NDArray[np.float64],
    alike: tuple[float, float],
    seed: int,
) -> tuple[NDArray[np.bool_], NDArray[np.float64]]:
    """Return for each draw the days that are stopped, and the length of each piece."""
    months = sorted({(day.year, day.month) for day in days})[:12]
    every = [number for number, piece in enumerate(pieces) if piece.high > piece.low and piece.alike is None]
    vague = every[: _MAX_DAILY // 4]
    daily = np.flatnonzero(works & (share > 0.0))
    even = daily[: _MAX_DAILY - len(vague)]
    rows = even_draws(DRAWS_EACH, len(months) + 1 + len(vague) + len(even) + 1, seed)
    column = iter(rows.T)
    by_month = {month: next(column) for month in months}
    crew = next(column)
    lengths = np.tile(np.array([piece.minutes for piece in pieces]), (DRAWS_EACH, 1))
    factors = {}
    for number in vague:
        piece = pieces[number]
        factors[number] = Triangle(piece.low, 1.0, piece.high).at(leaning(next(column), crew, alike[1]))
    for number, piece in enumerate(pieces):
        lengths[:, number] *= factors.get(number if piece.alike is None else piece.alike, 1.0)
    plain = np.random.default_rng(seed)
    stops = np.zeros((DRAWS_EACH, len(days)), dtype=np.bool_)
    for place, day in enumerate(daily):
        own = next(column) if place < len(even) else plain.random(DRAWS_EACH)
        shared = by_month.get((days[day].year, days[day].month))
        drawn = own if shared is None or alike[0] <= 0.0 else leaning(own, shared, alike[0])
        stops[:, day] = drawn < share[day]
    return stops, lengths


def _finishes(
    pieces: tuple[Piece, ...],
    clock: WorkingTime,
    works: NDArray[np.bool_],
    stops: NDArray[np.bool_],
    lengths: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Return for each draw when the last work ends. [min after the first midnight]."""
    dry = _Axis(clock, np.where(works[None, :] & ~stops, clock.day_min, 0.0))
    any_weather = _Axis(clock, np.broadcast_to(np.where(works, clock.day_min, 0.0), stops.shape))
    done: list[NDArray[np.float64]] = []
    last = np.zeros(len(stops))
    for number, piece in enumerate(pieces):
        begins = np.max([np.full(len(stops), piece.earliest_min), *(done[each] for each in piece.after)], axis=0)
        if piece.wait:
            done.append(begins + lengths[:, number])
            continue
        done.append((dry if piece.weather else any_weather).after(begins, lengths[:, number]))
        last = np.maximum(last, done[-1])
    return last


class _Axis:
    """Minutes that can be worked, day by day, in every draw at once."""

    def __init__(self, clock: WorkingTime, minutes: NDArray[np.float64]) -> None:
        """Take the minutes of each day, shape (draws, days)."""
        self._opens, self._day = clock.day_starts_min, minutes
        self._before = np.concatenate([np.zeros((len(minutes), 1)), np.cumsum(minutes, axis=1)], axis=1)
        self._far = float(self._before.max()) + 2.0 * _MIN_OF_DAY
        offsets = self._far * np.arange(len(minutes))
        self._flat = (self._before[:, 1:] + offsets[:, None]).ravel()
        self._offsets, self._row = offsets, np.arange(len(minutes))

    def after(self, begins: NDArray[np.float64], work: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return when so much work that begins at a moment is done; past the last day where it is not done by then."""
        count = self._day.shape[1]
        day = np.minimum((begins // _MIN_OF_DAY).astype(np.int64), count - 1)
        today = self._day[self._row, day]
        gone = np.clip(begins - day * _MIN_OF_DAY - self._opens, 0.0, today)
        wanted = np.maximum(self._before[self._row, day] + gone + work, 2.0 * _TINY)
        ends = np.searchsorted(self._flat, np.minimum(wanted, self._far - _MIN_OF_DAY) + self._offsets - _TINY)
        ends = ends - self._row * count
        late, ends = ends >= count, np.minimum(ends, count - 1)
        moment = ends * _MIN_OF_DAY + self._opens + (wanted - self._before[self._row, ends])
        return np.asarray(np.where(late, count * _MIN_OF_DAY, np.maximum(moment, begins)), dtype=np.float64)


def _summed(
    ends: list[NDArray[np.int64]],
    days: tuple[dt.date, ...],
    planned: dt.date,
    known: frozenset[int],
    lost: float,
) -> FinishChance:
    every = np.concatenate(ends)
    counts = np.cumsum(np.bincount(every, minlength=len(days))) / len(every)
    # whatever has not ended on the last day that was drawn has no chance of its own
    spread = [DateChance(days[place], float(counts[place])) for place in np.unique(every) if place < len(days) - 1]
    at = (planned - days[0]).days
    in_time = chance_of([found <= at for found in ends])
    wanted = [next((each.on for each in spread if each.chance >= chance - _TINY), None) for chance in CHANCES]
    months = sorted({day.month for day in days[: int(every.max()) + 1]})
    return FinishChance(
        ends=tuple(DateChance(on, chance) for on, chance in zip(wanted, CHANCES, strict=True) if on is not None),
        planned=DateChance(planned, in_time.value),
        error=in_time.error,
        spread=tuple(spread),
        unknown_months=tuple(month for month in months if month not in known),
        mean_lost_days=lost,
        draws=len(every),
    )
