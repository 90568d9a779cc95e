"""Real sizes: how measured sizes of units differ from their work size, and what that does to the longest run."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import Through
from pavewright.laying._types import PieceKind
from pavewright.laying._types_sheets import RunGrowth, Way

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Pattern, PavingUnit
    from pavewright.laying._types import Piece


@dataclass(frozen=True, slots=True)
class MeasuredSizes:
    """Units that were measured, in one direction.

    Attributes:
        measured: How many.
        mean_mm: Mean size. [mm]
        spread_mm: Standard deviation of one unit; nothing where only one was measured. [mm]
        min_mm: Smallest. [mm]
        max_mm: Largest. [mm]
    """

    measured: int
    mean_mm: float
    spread_mm: float
    min_mm: float
    max_mm: float


def measured_sizes(sizes_mm: Sequence[float]) -> MeasuredSizes:
    """Return mean and spread of measured units.

    Valid for: one size or more.
    Source: definition

    >>> measured_sizes((600.0, 602.0, 604.0)).mean_mm
    602.0
    """
    many = len(sizes_mm)
    mean = math.fsum(sizes_mm) / many
    squares = math.fsum((size - mean) ** 2 for size in sizes_mm)
    spread = math.sqrt(squares / (many - 1)) if many > 1 else 0.0
    return MeasuredSizes(many, mean, spread, min(sizes_mm), max(sizes_mm))


def growth_mm(whole: int, mean_mm: float, work_mm: float) -> float:
    """Return how far a run of whole units grows when they are laid with the joint of the plan. [mm].

    Source: definition

    >>> growth_mm(20, 605.0, 600.0)
    100.0
    """
    return whole * (mean_mm - work_mm)


def joint_that_absorbs_mm(joint_mm: float, growth: float, joints: int) -> float:
    """Return the joint with which the run ends where it was planned. [mm].

    Args:
        joint_mm: Joint as planned. [mm]
        growth: How much longer the run is than planned, by its real units. [mm]
        joints: Number of joints in the run.

    Valid for: joints ≥ 1. Less than zero means that the units alone are longer than the run.
    Source: definition
    """
    return joint_mm - growth / joints


def run_growths(
    pattern: Pattern, joint_mm: float, sold: Sequence[PavingUnit], pieces: Sequence[Piece]
) -> tuple[RunGrowth, ...]:
    """Return the growth of the longest run of each measured unit of an area, along the courses and across them.

    Cut pieces are cut to fit and do not grow. Across the courses the units of one kind only are taken, and only where
    no other unit lies in the field.
    """
    if pattern.traits.through is Through.NONE:
        return ()
    field = [piece for piece in pieces if not piece.border]
    alone = len({piece.unit for piece in field}) == 1
    found: list[RunGrowth] = []
    for unit in sold:
        mine = [piece for piece in field if piece.unit == unit.name]
        if unit.measured_lengths_mm and mine:
            whole, laid = _longest_course(mine)
            found.append(_grown(unit, Way.ALONG, unit.length_mm, unit.measured_lengths_mm, whole, laid, joint_mm))
        if unit.measured_widths_mm and mine and alone:
            whole = len({piece.course for piece in mine if piece.kind is PieceKind.WHOLE})
            laid = len({piece.course for piece in mine})
            found.append(_grown(unit, Way.ACROSS, unit.width_mm, unit.measured_widths_mm, whole, laid, joint_mm))
    return tuple(found)


def _longest_course(pieces: Sequence[Piece]) -> tuple[int, int]:
    """Return whole units and all pieces of the course with most whole units."""
    courses: dict[int, list[Piece]] = {}
    for piece in pieces:
        courses.setdefault(piece.course, []).append(piece)
    return max((sum(each.kind is PieceKind.WHOLE for each in course), len(course)) for course in courses.values())


def _grown(
    unit: PavingUnit, way: Way, work_mm: float, sizes_mm: Sequence[float], whole: int, laid: int, joint_mm: float
) -> RunGrowth:
    real = measured_sizes(sizes_mm)
    growth = growth_mm(whole, real.mean_mm, work_mm)
    # the mean of the units measured is itself known to so much: twice its standard error
    doubt = whole * 2.0 * real.spread_mm / math.sqrt(real.measured)
    return RunGrowth(
        unit=unit.name,
        way=way,
        measured=real.measured,
        work_mm=work_mm,
        mean_mm=real.mean_mm,
        spread_mm=real.spread_mm,
        units_in_run=whole,
        growth_mm=growth,
        doubt_mm=doubt,
        joint_mm=joint_mm,
        absorbing_joint_mm=joint_that_absorbs_mm(joint_mm, growth, laid - 1) if laid > 1 else joint_mm,
    )
