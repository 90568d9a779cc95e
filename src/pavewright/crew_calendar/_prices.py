"""What no arrangement weighs less than, by prices of days: each job then looks for its own cheapest days."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from pavewright.crew_calendar._days import Board
    from pavewright.crew_calendar._types import CalendarJob

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

MAX_PRICINGS = 800
"""How often prices are changed."""
_TOLD_EACH = 50
"""After how many changes it is told how far it is."""
_PATIENCE = 15
"""Changes without a better bound after which they become smaller."""
_FIRST_STEP, _LAST_STEP = 1.6, 1e-3
"""Share of the way to the best weight that a change goes, at first and at last. [-]"""
_DIGITS = 9
"""Digits of a price: what machines round differently is rounded away."""


@dataclass(frozen=True, slots=True)
class Priced:
    """How far prices have come.

    Attributes:
        bound: No arrangement of the jobs weighs less. [job-days]
        turn: The jobs in the order in which they would be done at these prices.
    """

    bound: float
    turn: tuple[CalendarJob, ...]


class _Chain:
    """A stretch in the row of all choices, with up to which choice of the one before each choice waits."""

    def __init__(self, board: Board, job: CalendarJob, stretch: int, begin: int) -> None:
        starts, taken = board.in_order[job.id, stretch]
        self.begin, self.end = begin, begin + len(starts)
        self.allowed: Ints | None = None
        if not stretch:
            return
        days = board.days
        own_starts, own_taken = board.in_order[job.id, stretch - 1]
        upto = np.full(len(starts), len(own_starts), dtype=np.int64)
        for other, at, own, apart in board.links[job.id][stretch]:
            if other == stretch - 1:
                done = [days[each[at]] + dt.timedelta(days=apart) for each in own_taken]
                counts = [bisect_left(done, days[each[own]] + dt.timedelta(days=1)) for each in taken]
                upto = np.minimum(upto, np.array(counts, dtype=np.int64))
        self.allowed = upto


class _Pricing:
    """All choices of all jobs, and what they use of each limit of each day."""

    def __init__(self, board: Board, jobs: Sequence[CalendarJob]) -> None:
        limits = board.limits
        self.jobs = jobs
        self.chains: list[list[_Chain]] = []
        self.days = len(board.days)
        count = 0
        for job in jobs:
            row = []
            for stretch in range(len(job.stretches)):
                row.append(_Chain(board, job, stretch, count))
                count = row[-1].end
            self.chains.append(row)
        longest = max(len(stretch.days) for job in jobs for stretch in job.stretches)
        kinds = len(limits.hands)
        none = kinds * self.days  # a place whose price is zero
        self.uses_at = np.full((count, longest), none, dtype=np.int64)
        self.weight, self.ends = np.zeros(count), np.zeros(count)
        for job, row in zip(jobs, self.chains, strict=True):
            for stretch, chain in enumerate(row):
                own = limits.kinds[job.id, stretch]
                for at, taken in enumerate(board.in_order[job.id, stretch][1], chain.begin):
                    self.weight[at], self.ends[at] = board.weight(job, stretch, taken), taken[-1]
                    self.uses_at[at, : len(own)] = [
                        kind * self.days + day for kind, day in zip(own, taken, strict=True)
                    ]
        rows = max(len(limits.limits(day)) for day in range(self.days))
        self.uses = np.zeros((self.days, rows, kinds))
        self.most: Floats = np.zeros((self.days, rows))
        for day in range(self.days):
            for row_number, (uses, most) in enumerate(limits.limits(day)):
                self.uses[day, row_number], self.most[day, row_number] = uses, most

    def cheapest(self, prices: Floats) -> tuple[float, list[int], Floats]:
        """Return what all jobs weigh at prices, the choice of each stretch, and how far each limit is passed."""
        by_kind = np.einsum("dr,drk->kd", prices, self.uses).ravel()
        cost = self.weight + np.append(by_kind, 0.0)[self.uses_at].sum(axis=1)
        total, chosen = 0.0, []
        for row in self.chains:
            weight, own = _cheapest_of(row, cost)
            total += weight
            chosen += own
        used = np.bincount(self.uses_at[chosen].ravel(), minlength=len(by_kind) + 1)[:-1]
        used = used.reshape(-1, self.days)
        over = np.einsum("drk,kd->dr", self.uses, used) - self.most
        return total - float((prices * self.most).sum()), chosen, over


def _cheapest_of(row: Sequence[_Chain], cost: Floats) -> tuple[float, list[int]]:
    """Return the cheapest days of one job, each stretch in reach of the one before."""
    best: list[Floats] = []
    for chain in row:
        own = cost[chain.begin : chain.end]
        if chain.allowed is not None:
            lowest = np.append(np.inf, np.minimum.accumulate(best[-1]))
            own = own + lowest[chain.allowed]
        best.append(own)
    at = int(best[-1].argmin())
    weight, chosen = float(best[-1][at]), [row[-1].begin + at]
    for number in range(len(row) - 1, 0, -1):
        allowed = row[number].allowed
        assert allowed is not None  # noqa: S101 - every stretch but the first has one
        at = int(best[number - 1][: allowed[at]].argmin())
        chosen.append(row[number - 1].begin + at)
    return weight, chosen[::-1]


def priced(board: Board, jobs: Sequence[CalendarJob], weight: float, most: int = MAX_PRICINGS) -> Iterator[Priced]:
    """Give better and better bounds: where a limit of a day is passed its price rises, where it is not it falls.

    At any prices of zero or more, what the jobs weigh each at its cheapest days, less what is paid for all that there
    is, is no more than any arrangement weighs: an arrangement keeps every limit. Waits between stretches that do not
    follow each other are not asked for here, which makes the bound lower, never wrong.

    Args:
        board: What is asked.
        jobs: The jobs that have a place.
        weight: What the best arrangement so far weighs. [job-days]
        most: How often prices are changed: a number, not a time.

    Source: definition, Lagrangian relaxation with subgradient steps
    """
    pricing = _Pricing(board, jobs)
    prices: Floats = np.zeros(pricing.most.shape)
    kept, bound, step, quiet = prices, -np.inf, _FIRST_STEP, 0
    mean = np.zeros(len(jobs))
    lasts = np.cumsum([len(row) for row in pricing.chains]) - 1
    for number in range(1, most + 1):
        found, chosen, over = pricing.cheapest(prices)
        ends = pricing.ends[np.array(chosen)[lasts]]
        mean = ends if number == 1 else 0.95 * mean + 0.05 * ends
        quiet = 0 if found > bound + 1e-6 * abs(bound) else quiet + 1
        if found > bound:
            bound, kept = found, prices
        if quiet > _PATIENCE:
            step, quiet, prices = step / 2.0, 0, kept
            _, _, over = pricing.cheapest(prices)
        slack = float((np.where((prices > 0.0) | (over > 0.0), over, 0.0) ** 2).sum())
        if number % _TOLD_EACH == 0:
            yield Priced(bound, _by(jobs, mean))
        if slack <= 0.0 or step < _LAST_STEP or weight <= bound:
            break
        moved: Floats = prices + step * (weight - found) / slack * over
        prices = np.asarray(np.round(np.maximum(0.0, moved), _DIGITS), dtype=np.float64)
    yield Priced(bound, _by(jobs, mean))


def _by(jobs: Sequence[CalendarJob], mean: Floats) -> tuple[CalendarJob, ...]:
    order = sorted(range(len(jobs)), key=lambda at: (round(float(mean[at]), 3), jobs[at].id))
    return tuple(jobs[at] for at in order)
