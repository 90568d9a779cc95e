"""The tape that fixes most points of a sketch, and fixes them well."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.survey._types_tapes import NextTape, TapeGain
from pavewright.survey.sketch._placing import LOOSE
from pavewright.survey.tapes import tape_deviation_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Array
    from pavewright.survey.sketch._hints import SoftlySettled
    from pavewright.survey.sketch._known import Placed
    from pavewright.survey.sketch._pairs import Drawn, Pair

_GOOD = 3.0
"""A point is fixed well within so many times the deviation from which on a taped point counts as weak. [-]"""


def next_to_fix(placed: Placed, pairs: Sequence[Pair], drawn: Drawn, figures: SurveyFigures) -> NextTape | None:
    """Return the tape that fixes most points well, sides before diagonals; None where none fixes anything.

    A tape adds one row a to the equations, so that the cofactors Q become Q − Q a aᵀ Q / (σ² + aᵀ Q a).

    Args:
        placed: The points as they are.
        pairs: Between which points a tape can be pulled.
        drawn: Walls and outlines: their points have to be measured.
        figures: Figures of the survey.

    Source: definition, inverse of a matrix with one row more
    """
    if placed.soft is None:
        return None
    look = _Look(placed, placed.soft, drawn, figures)
    tried = ((*found, pair) for pair in pairs if (found := look.at(pair)) is not None)
    best = min(tried, key=lambda each: (each[0], tuple(sorted((each[2].start, each[2].end)))), default=None)
    return None if best is None else best[1]


def first_tape(placed: Placed, pairs: Sequence[Pair], drawn: Drawn) -> NextTape | None:
    """Return the base line to be taped first: the longest wall, or else the longest side of the sketch."""
    walls = {frozenset(wall) for wall in drawn.walls}
    sides = [(math.dist(placed.places[each.start], placed.places[each.end]), each) for each in pairs if each.is_side]
    along = [(length, each) for length, each in sides if frozenset((each.start, each.end)) in walls]
    if not sides:
        return None
    length, best = max(along or sides, key=lambda each: each[0])
    missing = float(sum(each.missing for each in placed.fixing.values()))
    return NextTape(best.start, best.end, length, TapeGain.BASE, "", missing, missing)


class _Look:
    """What one tape more would fix."""

    def __init__(self, placed: Placed, soft: SoftlySettled, drawn: Drawn, figures: SurveyFigures) -> None:
        self._placed = placed
        self._soft = soft
        self._figures = figures
        self._open = [name for name, each in placed.fixing.items() if each.missing and drawn.wants(name, placed.tied)]
        self._missing = np.array([placed.fixing[name].missing for name in self._open])
        self._own: dict[str, list[int]] = {}
        for number, (name, _) in enumerate(soft.unknowns):
            self._own.setdefault(name, []).append(number)
        # how every unknown moves the open points, so that variances of all come from one product
        self._ways = np.zeros((2, len(self._open), len(soft.unknowns)))
        for row, name in enumerate(self._open):
            for number in self._own[name]:
                self._ways[:, row, number] = soft.unknowns[number][1]
        spread = np.einsum("aki,ij,bkj->abk", self._ways, soft.cofactors, self._ways)
        self._xx, self._xy, self._yy = spread[0, 0], spread[0, 1], spread[1, 1]

    def at(self, pair: Pair) -> tuple[tuple[float, ...], NextTape] | None:
        """Return how good one tape is, smallest best, and the tape; None where it holds nothing that is free."""
        placed, figures = self._placed, self._figures
        (ax, ay), (bx, by) = placed.places[pair.start], placed.places[pair.end]
        length = math.hypot(bx - ax, by - ay)
        sd = tape_deviation_mm(length, figures.tape_sd_fixed_mm.value, figures.tape_sd_growing_mm_per_m.value)
        row = np.zeros(len(self._soft.unknowns))
        for name, sign in ((pair.start, -1.0), (pair.end, 1.0)):
            for number in self._own.get(name, ()):
                x, y = self._soft.unknowns[number][1]
                row[number] = sign * ((bx - ax) * x + (by - ay) * y) / (length * sd)
        pulled = self._soft.cofactors @ row
        over = 1.0 + float(row @ pulled)
        if over * sd * sd < LOOSE**2:
            return None
        major, minor = self._axes(pulled, over)
        after = (major > LOOSE).astype(int) + (minor > LOOSE)
        drop = int((self._missing - after).sum())
        good = major <= _GOOD * figures.weak_point_mm.value
        fixes = [name for name, left, well in zip(self._open, after, good, strict=True) if not left and well]
        poor = [name for name, left, well in zip(self._open, after, good, strict=True) if not left and not well]
        worst = float(major[after == 0].max(initial=0.0))
        firm = sum(placed.fixing[name].missing == 0 for name in (pair.start, pair.end))
        rank = (-len(fixes), -drop, -firm, 0 if pair.is_side else 1, len(poor), round(worst), round(length))
        whole = float(self._missing.sum())
        return rank, NextTape(pair.start, pair.end, length, TapeGain.FIX, "", whole, whole - drop, (*fixes, *poor))

    def _axes(self, pulled: Array, over: float) -> tuple[Array, Array]:
        """Return the half-axes of the open points with one row more. [mm]."""
        x, y = self._ways @ pulled
        xx, xy, yy = self._xx - x * x / over, self._xy - x * y / over, self._yy - y * y / over
        middle, half = (xx + yy) / 2.0, np.hypot((xx - yy) / 2.0, xy)
        return np.sqrt(np.maximum(middle + half, 0.0)), np.sqrt(np.maximum(middle - half, 0.0))
