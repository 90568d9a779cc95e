"""The tapes that prove a step: of those that reach, the one or the two that show a slip best."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry import distance
from pavewright.setting_out.errors._expected import check_limit_mm, in_share
from pavewright.setting_out.errors._spread import between_spread
from pavewright.setting_out.errors._types import StepCheck

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from pavewright.setting_out.errors._expected import Stationed
    from pavewright.setting_out.errors._spread import Readings

_MOST_LIKELY = NormalDist().inv_cdf(0.8)
"""A slip that a check shows four times in five lies so many standard deviations past its limit. [-]"""
_SHOWN = 0.1
"""A shift of which a check shows less than this share is not proved by it. [-]"""
_WORTH = 2.0
"""A second tape is pulled where it shows slips so many times smaller. [-]"""


@dataclass(frozen=True)
class _Tape:
    """A tape that could prove a place, with how far out each of the last readings has to bring it to show. [mm]."""

    check: StepCheck
    shows_mm: NDArray[np.float64]


def best_checks(
    readings: Readings, fresh: Stationed, others: Sequence[Stationed], percent: float
) -> tuple[tuple[StepCheck, ...], float | None]:
    """Return the tape that proves a place best, or two where one alone proves little, and what they find. [mm].

    The limit holds what every reading behind both ends brings with it. What is found is the smallest shift of the place
    by one wrong reading, of those that fixed it, that passes a limit four times in five; None where one may not show.

    Args:
        readings: The readings so far; the checks add none.
        fresh: The place.
        others: Places that are fixed already, from which a tape reaches.
        percent: Share of checks without a slip that lie within the limit. [%]

    Source: definition
    """
    tapes = [_tape(readings.copy(), fresh, other, percent) for other in others]
    if not tapes:
        return (), None
    one = min(tapes, key=lambda tape: float(np.max(tape.shows_mm)))
    finds = float(np.max(one.shows_mm))
    chosen: tuple[_Tape, ...] = (one,)
    for pair in itertools.combinations(tapes, 2):
        both = float(np.max(np.minimum(pair[0].shows_mm, pair[1].shows_mm)))
        if both * (_WORTH if len(chosen) == 1 else 1.0) < finds:
            chosen, finds = pair, both
    return tuple(tape.check for tape in chosen), finds if math.isfinite(finds) else None


def _tape(readings: Readings, fresh: Stationed, other: Stationed, percent: float) -> _Tape:
    off = between_spread(readings, other.spread, fresh.spread)
    sd = float(np.linalg.norm(off))
    own = list(fresh.spread.last)
    moved = np.hypot(fresh.spread.by[0, own], fresh.spread.by[1, own])
    shares = np.divide(np.abs(off[own]), moved, out=np.ones_like(moved), where=moved > 0.0)
    least = (in_share(percent) + _MOST_LIKELY) * sd
    shows = np.divide(least, shares, out=np.full_like(shares, math.inf), where=shares >= _SHOWN)
    check = StepCheck(
        start=other.name,
        end=fresh.name,
        start_at=other.spread.at,
        end_at=fresh.spread.at,
        expected_mm=distance(other.spread.at, fresh.spread.at),
        limit_mm=check_limit_mm(sd, percent),
    )
    return _Tape(check, np.where(moved > 0.0, shows, 0.0))
