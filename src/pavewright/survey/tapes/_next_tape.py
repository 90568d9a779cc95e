"""The one tape more that helps a network most: worked out for every pair of points, not guessed."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from pavewright.survey._types_tapes import NextTape, TapeGain

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.survey.networks import Adjustment, Array, Observation

PairRank = Mapping[frozenset[str], int]
"""Pairs of points between which a tape can be pulled, and which comes first among equals."""
_MAX_POINTS = 60
"""Pairs are tried among so many points; in larger plans among those nearest to what is weak."""
_CHECKED = 1e-9


def next_tape(
    adjustment: Adjustment,
    observations: Sequence[Observation],
    deviation_mm: Callable[[float], float],
    *,
    alike: Sequence[int] = (),
    min_redundancy: float = 0.0,
    rank: PairRank | None = None,
) -> NextTape | None:
    """Return the tape that helps most; None where every pair of points is taped already or none helps.

    A tape adds one row a to the equations, so that the cofactors Q become Q − Q a aᵀ Q / (σ² + aᵀ Q a). For every pair
    of points that is not taped yet this tells, without measuring, how firm each point and how well checked each reading
    would be. Readings that look alike come first, then readings that nothing checks, then the weakest point.

    Args:
        adjustment: The network as it is.
        observations: Its observations.
        deviation_mm: Standard deviation of a tape of a given length. [mm]
        alike: Places of readings that cannot be told apart.
        min_redundancy: Below this a reading counts as unchecked. [-]
        rank: For pairs that can be taped, which comes first among equals, smallest first; any pair where it is None.

    Source: definition, inverse of a matrix with one row more
    """
    pairs = [pair for pair in _pairs(adjustment, observations) if rank is None or frozenset(pair) in rank]
    tried = ((pair, _row(adjustment, pair, deviation_mm)) for pair in pairs)
    rows = [(pair, *found) for pair, found in tried if found is not None]
    if not rows or not len(adjustment.cofactors):
        return None
    look = _Look(adjustment, tuple(alike), min_redundancy)
    before, gain, point = look.now()
    orders = {pair: (0, pair) if rank is None else (rank[frozenset(pair)], tuple(sorted(pair))) for pair, *_ in rows}
    best = min(rows, key=lambda each: (round(look.measure(each[2], gain), 9), orders[each[0]]))
    after = look.measure(best[2], gain)
    if after >= before - _CHECKED:
        return None
    return NextTape(*best[0], best[1], gain, point, before, after)


def _pairs(adjustment: Adjustment, observations: Sequence[Observation]) -> list[tuple[str, str]]:
    """Return the pairs of points that no tape joins yet."""
    taped = {frozenset(each.points) for each in observations if len(each.points) == _ENDS}
    names = list(adjustment.places)
    if len(names) > _MAX_POINTS:
        firmness = {name: float(np.trace(spread)) for name, spread in adjustment.spreads.items()}
        weakest = max(firmness, key=lambda name: firmness[name])
        at = adjustment.places[weakest]
        names = sorted(names, key=lambda name: math.dist(adjustment.places[name], at))[:_MAX_POINTS]
    return [pair for pair in itertools.combinations(names, 2) if frozenset(pair) not in taped]


_ENDS = 2


def _row(
    adjustment: Adjustment, pair: tuple[str, str], deviation_mm: Callable[[float], float]
) -> tuple[float, Array] | None:
    """Return the length of a tape and its weighted row of the equations; None where it moves nothing."""
    (ax, ay), (bx, by) = adjustment.places[pair[0]], adjustment.places[pair[1]]
    length = math.hypot(bx - ax, by - ay)
    if length == 0.0:
        return None
    away = (bx - ax) / length, (by - ay) / length
    row = np.array(
        [(away[0] * x + away[1] * y) * ((name == pair[1]) - (name == pair[0])) for name, (x, y) in adjustment.unknowns]
    )
    return (length, row / deviation_mm(length)) if row.any() else None


class _Look:
    """What is weakest in a network, now and with one tape more."""

    def __init__(self, adjustment: Adjustment, alike: tuple[int, ...], least: float) -> None:
        self._adjustment = adjustment
        self._alike = alike
        self._least = least
        owners: dict[str, list[int]] = {}
        for number, (name, _) in enumerate(adjustment.unknowns):
            owners.setdefault(name, []).append(number)
        self._names = tuple(owners)
        self._first = np.array([own[0] for own in owners.values()], dtype=np.intp)
        self._second = np.array([own[-1] for own in owners.values()], dtype=np.intp)
        self._seen = adjustment.slopes.table @ adjustment.cofactors

    def now(self) -> tuple[float, TapeGain, str]:
        """Return the measure of what is weakest, what it is, and the weakest point."""
        nothing = np.zeros(len(self._adjustment.cofactors))
        if len(self._alike) > 1:
            return self.measure(nothing, TapeGain.PLACE), TapeGain.PLACE, ""
        if self.measure(nothing, TapeGain.CHECK) > _CHECKED:
            return self.measure(nothing, TapeGain.CHECK), TapeGain.CHECK, ""
        spreads = self._spreads(nothing)
        return float(spreads.max()), TapeGain.POINT, self._names[int(spreads.argmax())]

    def measure(self, row: Array, gain: TapeGain) -> float:
        """Return what is to be made small, with one row more."""
        if gain is TapeGain.POINT:
            return float(self._spreads(row).max())
        pulled = self._seen @ row
        over = 1.0 + float(row @ self._adjustment.cofactors @ row)
        parts = np.array(self._adjustment.redundancy) + pulled**2 / over
        if gain is TapeGain.CHECK:
            return float(np.maximum(self._least - parts, 0.0).sum())
        own = list(self._alike)
        mixed = -self._seen[own] @ self._adjustment.slopes.table[own].T + np.outer(pulled[own], pulled[own]) / over
        likeness = [
            abs(float(mixed[i, j])) / math.sqrt(parts[own[i]] * parts[own[j]])
            for i, j in itertools.combinations(range(len(own)), 2)
        ]
        return math.fsum(likeness) / len(likeness)

    def _spreads(self, row: Array) -> Array:
        """Return the larger standard deviation of every point that may move. [mm]."""
        cofactors, first, second = self._adjustment.cofactors, self._first, self._second
        pulled = cofactors @ row
        over = 1.0 + float(row @ pulled)
        single = first == second
        xx = cofactors[first, first] - pulled[first] ** 2 / over
        yy = np.where(single, 0.0, cofactors[second, second] - pulled[second] ** 2 / over)
        xy = np.where(single, 0.0, cofactors[first, second] - pulled[first] * pulled[second] / over)
        larger: Array = (xx + yy) / 2.0 + np.hypot((xx - yy) / 2.0, xy)
        return np.sqrt(np.maximum(larger, 0.0))
