"""The tape that fixes most points of a sketch, and fixes them well."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.survey._types_tapes import NextTape, TapeGain
from pavewright.survey.sketch._placing import LOOSE, axes_of, spread_of
from pavewright.survey.tapes import tape_deviation_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Array
    from pavewright.survey.sketch._hints import SoftlySettled
    from pavewright.survey.sketch._pairs import Drawn, Pair
    from pavewright.survey.sketch._placing import Placed

_GOOD = 3.0
"""A point is fixed well within so many times the deviation from which on a taped point counts as weak. [-]"""


def next_to_fix(placed: Placed, pairs: Sequence[Pair], figures: SurveyFigures) -> NextTape | None:
    """Return the tape that fixes most points well, sides before diagonals; None where none fixes anything.

    A tape adds one row a to the equations, so that the cofactors Q become Q − Q a aᵀ Q / (σ² + aᵀ Q a).

    Args:
        placed: The points as they are.
        pairs: Between which points a tape can be pulled.
        figures: Figures of the survey.

    Source: definition, inverse of a matrix with one row more
    """
    soft = placed.soft
    if soft is None:
        return None
    before = {name: each.missing for name, each in placed.fixing.items() if each.missing}
    spreads = {name: spread_of(soft, name) for name in before}
    best: tuple[tuple[float, ...], tuple[str, ...], NextTape] | None = None
    for pair in pairs:
        tried = _tried(pair, placed, soft, (before, spreads), figures)
        if tried is None:
            continue
        rank, tape = tried
        key = rank, tuple(sorted((pair.start, pair.end)))
        if best is None or key < best[:2]:
            best = (*key, tape)
    return None if best is None else best[2]


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


def _tried(
    pair: Pair,
    placed: Placed,
    soft: SoftlySettled,
    now: tuple[dict[str, int], dict[str, Array]],
    figures: SurveyFigures,
) -> tuple[tuple[float, ...], NextTape] | None:
    """Return how good one tape is, smallest best, and the tape; None where it holds nothing that is free."""
    (ax, ay), (bx, by) = placed.places[pair.start], placed.places[pair.end]
    length = math.hypot(bx - ax, by - ay)
    sd = tape_deviation_mm(length, figures.tape_sd_fixed_mm.value, figures.tape_sd_growing_mm_per_m.value)
    away = (bx - ax) / length, (by - ay) / length
    row = np.array(
        [
            (away[0] * x + away[1] * y) * ((name == pair.end) - (name == pair.start)) / sd
            for name, (x, y) in soft.unknowns
        ]
    )
    pulled = soft.cofactors @ row
    over = 1.0 + float(row @ pulled)
    if over * sd * sd < LOOSE**2:
        return None
    before, spreads = now
    fixes: list[str] = []
    poor: list[str] = []
    drop, worst = 0, 0.0
    for name, missing in before.items():
        own = [number for number, (point, _) in enumerate(soft.unknowns) if point == name]
        moved = np.array([soft.unknowns[number][1] for number in own]).T @ pulled[own]
        axes = axes_of(spreads[name] - np.outer(moved, moved) / over)
        after = int(axes.major_mm > LOOSE) + int(axes.minor_mm > LOOSE)
        drop += missing - after
        if after == 0:
            (fixes if axes.major_mm <= _GOOD * figures.weak_point_mm.value else poor).append(name)
            worst = max(worst, axes.major_mm)
    firm = sum(placed.fixing[name].missing == 0 for name in (pair.start, pair.end))
    rank = (-len(fixes), -drop, -firm, 0 if pair.is_side else 1, len(poor), round(worst), round(length))
    whole = float(sum(before.values()))
    fixed = (*fixes, *poor)
    return rank, NextTape(pair.start, pair.end, length, TapeGain.FIX, "", whole, whole - drop, fixed)
