"""Places of paving read again, against fixed marks."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid.movement._chances import RISK, f_limit, normal_limit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray


class DatumState(StrEnum):
    """What two visits are compared by."""

    HELD = "held"
    UNSURE = "unsure"
    NONE = "none"


@dataclass(frozen=True)
class Datum:
    """What two visits are compared by.

    Attributes:
        state: Marks that agree, marks that do not, or none that was read on both visits.
        marks: Fixed marks that agree with each other.
        apart: Fixed marks that moved against the others.
        shift_mm: By how much the second visit reads higher on what did not move. [mm]
        shift_sd_mm: Standard deviation of that. [mm]
    """

    state: DatumState
    marks: tuple[str, ...]
    apart: tuple[str, ...]
    shift_mm: float
    shift_sd_mm: float


@dataclass(frozen=True)
class Moved:
    """Movement of places between two visits.

    Attributes:
        moved_mm: How far each rose, in turn. [mm]
        sd_mm: Standard deviation of each movement. [mm]
        t: Each movement over its standard deviation, in turn. [-]
        each_limit: What chance alone exceeds at one place or another once in twenty visits. [-]
        joint_f: All movements together; None where nothing was read again. [-]
        joint_limit: What chance alone exceeds once in twenty; None likewise. [-]
    """

    moved_mm: tuple[float, ...]
    sd_mm: float
    t: tuple[float, ...]
    each_limit: float
    joint_f: float | None
    joint_limit: float | None

    @property
    def seen_from_mm(self) -> float:
        """The smallest movement of one place that would be told from scatter. [mm]."""
        return self.each_limit * self.sd_mm

    @property
    def is_more_than_scatter(self) -> bool:
        """Whether all together moved more than the readings scatter."""
        return self.joint_f is not None and self.joint_limit is not None and self.joint_f > self.joint_limit


def datum_between(first_mm: Mapping[str, float], second_mm: Mapping[str, float], change_sd_mm: float) -> Datum:
    """Return what two visits are compared by: the marks read on both that agree with each other.

    Of three or more, the one that disagrees most is put aside while they do not agree; of two that disagree nobody can
    tell which one moved.

    Args:
        first_mm: Levels of marks on the first visit, by name. [mm]
        second_mm: Levels of marks on the second visit, by name. [mm]
        change_sd_mm: Standard deviation of the difference of two readings, one of each visit. [mm]

    Source: definition, chi-squared of the differences about their mean
    """
    names = [name for name in first_mm if name in second_mm]
    rises = {name: second_mm[name] - first_mm[name] for name in names}
    apart: list[str] = []
    while len(names) > 1:
        mean = sum(rises[name] for name in names) / len(names)
        square = sum((rises[name] - mean) ** 2 for name in names) / change_sd_mm**2
        if square / (len(names) - 1) <= f_limit(len(names) - 1, None):
            break
        if len(names) == _PAIR:
            return Datum(DatumState.UNSURE, tuple(names), tuple(apart), mean, change_sd_mm / math.sqrt(_PAIR))
        middle = sorted(rises[name] for name in names)[len(names) // 2]
        worst = max(names, key=lambda name: abs(rises[name] - middle))
        names.remove(worst)
        apart.append(worst)
    if not names:
        return Datum(DatumState.NONE, (), (), 0.0, 0.0)
    shift = sum(rises[name] for name in names) / len(names)
    return Datum(DatumState.HELD, tuple(names), tuple(apart), shift, change_sd_mm / math.sqrt(len(names)))


_PAIR = 2


def moved_since(rises_mm: NDArray[np.float64], change_sd_mm: float, datum: Datum, risk: float = RISK) -> Moved:
    """Return how far places moved between two visits, each and all together.

    Without fixed marks the middle of all rises is taken for what did not move: then only movement of places against
    each other is told.

    Args:
        rises_mm: Second reading less first, shape (n,), float64. [mm]
        change_sd_mm: Standard deviation of such a difference. [mm]
        datum: What the visits are compared by.
        risk: How often chance alone may be taken for movement, at any place, and for all together. [-]

    Source: definition; all places together by F with what the marks add to every one of them, each at 1/n of the risk
    """
    count = len(rises_mm)
    if count == 0:
        return Moved((), change_sd_mm, (), normal_limit(risk), None, None)
    by_marks = datum.state is not DatumState.NONE
    shift = datum.shift_mm if by_marks else float(np.median(rises_mm))
    moved = rises_mm - shift
    own = change_sd_mm**2
    common = datum.shift_sd_mm**2 if by_marks else 0.0
    # one part of the scatter is common to all places: (own I + common 11')^-1 by its closed form
    about = moved if by_marks else rises_mm - rises_mm.mean()
    total = float((about @ about) / own - common * about.sum() ** 2 / (own * (own + count * common)))
    sd = math.sqrt(own + common) if by_marks else change_sd_mm * math.sqrt(1.0 + _MEDIAN_SHARE / count)
    many = count if by_marks else count - 1
    return Moved(
        moved_mm=tuple(float(each) for each in moved),
        sd_mm=sd,
        t=tuple(float(each) / sd for each in moved),
        each_limit=normal_limit(risk / count),
        joint_f=total / many if many else None,
        joint_limit=f_limit(many, None, risk) if many else None,
    )


_MEDIAN_SHARE = math.pi / 2.0
"""Variance of the median of many over that of their mean. [-]"""
