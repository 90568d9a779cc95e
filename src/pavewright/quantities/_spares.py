"""Spares: how many more units than are laid, so that breakages seldom leave the job short."""

from __future__ import annotations

import math
from dataclasses import dataclass

MAX_SPARES = 100_000
"""So many spares are looked at; no order has more."""


@dataclass(frozen=True, slots=True)
class Spares:
    """Spares and what they are good for.

    Attributes:
        spares: Units more than are laid.
        short_percent: Chance of running short with them. [%]
        short_one_less_percent: Chance of running short with one spare less; 100 where none is needed. [%]
    """

    spares: int
    short_percent: float
    short_one_less_percent: float


def spares_for(sound: int, breakage_percent: float, max_short_percent: float) -> Spares:
    """Return the fewest spares with which the chance of running short is no more than one will take.

    Each unit breaks or not by itself, spares too. With s spares the job runs short when more than s of the
    ``sound`` + s units break. That is the tail of a binomial distribution, and the same as more than s breaking before
    ``sound`` of them are laid, which is summed here term by term: the term of k + 1 is that of k times
    p · (sound + k) / (k + 1).

    Args:
        sound: Units to be laid, all of them sound.
        breakage_percent: Chance that one unit breaks. [%]
        max_short_percent: Chance of running short that one will take. [%]

    Valid for: sound ≥ 1; 0 ≤ breakage_percent ≤ 50; max_short_percent > 0.
    Source: binomial_table

    >>> spares_for(5, 5.0, 1.0).spares
    2
    """
    broken, limit = breakage_percent / 100.0, max_short_percent / 100.0
    if broken == 0.0:
        return Spares(0, 0.0, 100.0)
    # terms start far below what a float can hold on a large job: kept as logarithms, compensated sum
    log_term = sound * math.log1p(-broken)
    total = carried = 0.0
    before = 1.0
    for spares in range(MAX_SPARES):
        step = math.exp(log_term) - carried
        grown = total + step
        carried = (grown - total) - step
        total = grown
        short = max(1.0 - total, 0.0)
        if short <= limit:
            return Spares(spares, 100.0 * short, 100.0 * before)
        before = short
        log_term += math.log(broken * (sound + spares) / (spares + 1))
    return Spares(MAX_SPARES, 100.0 * before, 100.0 * before)
