"""Sums of planes and lines through readings of which a few may be wrong."""

from __future__ import annotations

import numpy as np

from pavewright import units
from pavewright.as_laid.planes._robust import centred_plane, median_plane, robust_line, robust_plane
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_FEWEST = 3
_MOST = 2000
"""More readings than this are no sum for a screen."""


def plane_despite_mistakes(
    eastings_m: tuple[float, ...], northings_m: tuple[float, ...], levels_mm: tuple[float, ...], sd_mm: float
) -> dict[str, Value]:
    """Return the plane through readings without those that most of the others contradict.

    Source: lms_1984
    """
    if (
        not len(eastings_m) == len(northings_m) == len(levels_mm)
        or not _FEWEST <= len(levels_mm) <= _MOST
        or sd_mm < 0.0
    ):
        message = (
            f"Give {_FEWEST} to {_MOST} readings, each with east, north and level, and a scatter not less than zero."
        )
        raise SumRefusedError(message)
    array = np.column_stack([np.array(eastings_m), np.array(northings_m), np.array(levels_mm)])
    try:
        most, fit = median_plane(array), robust_plane(array, sd_mm)
        plain, _ = centred_plane(array)
    except ValueError as problem:
        message = "The readings stand on one line: read the staff to the side of it."
        raise SumRefusedError(message) from problem
    off = array[:, 2] - fit.plane.levels_at(array[:, 0], array[:, 1])
    return {
        "plain_east_mm_per_m": plain.slope_x,
        "plain_north_mm_per_m": plain.slope_y,
        "plain_level_mm": plain.level_at((0.0, 0.0)),
        "median_east_mm_per_m": most.plane.slope_x,
        "median_north_mm_per_m": most.plane.slope_y,
        "median_level_mm": most.plane.level_at((0.0, 0.0)),
        "median_square_mm2": most.median_square_mm2,
        "scale_mm": most.scale_mm,
        "out": tuple(float(number + 1) for number in fit.out),
        "out_by_mm": tuple(float(off[number]) for number in fit.out),
        "east_mm_per_m": fit.plane.slope_x,
        "north_mm_per_m": fit.plane.slope_y,
        "level_mm": fit.plane.level_at((0.0, 0.0)),
        "scatter_mm": fit.sd_mm,
        "fall_mm_per_m": fit.plane.fall,
        "one_in": units.fall_to_one_in_n(units.mm_to_m(fit.plane.fall)) if fit.plane.fall else 0.0,
    }


def line_despite_mistakes(along: tuple[float, ...], read: tuple[float, ...]) -> dict[str, Value]:
    """Return the line that most points agree with, beside that by least squares.

    Source: lms_1984
    """
    if len(along) != len(read) or not _FEWEST <= len(along) <= _MOST:
        message = f"Give {_FEWEST} to {_MOST} places, each with what was read there."
        raise SumRefusedError(message)
    try:
        slope, level, square = robust_line(along, read)
    except ValueError as problem:
        message = "All readings stand at one place: a line needs two."
        raise SumRefusedError(message) from problem
    x, y = np.array(along) - np.mean(along), np.array(read)
    plain = float(x @ y / (x @ x))
    return {
        "slope": slope,
        "level": level,
        "median_square": square,
        "plain_slope": plain,
        "plain_level": float(y.mean() - plain * np.mean(along)),
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "plane-despite-mistakes",
        "Find the plane through levels of which a few may be wrong, and which those are",
        (
            Quantity("eastings_m", "m", "east of each reading", "numbers"),
            Quantity("northings_m", "m", "north of each", "numbers"),
            Quantity("levels_mm", "mm", "level of each", "numbers"),
            Quantity("sd_mm", "mm", "standard deviation of one reading; zero where it is not known", default=0.0),
        ),
        (
            Quantity("plain_east_mm_per_m", "mm/m", "rise to the east of the plane by least squares through all"),
            Quantity("plain_north_mm_per_m", "mm/m", "rise to the north of that plane"),
            Quantity("plain_level_mm", "mm", "its level where east and north are zero"),
            Quantity("median_east_mm_per_m", "mm/m", "rise to the east of the plane that most agree with"),
            Quantity("median_north_mm_per_m", "mm/m", "rise to the north of that plane"),
            Quantity("median_level_mm", "mm", "its level where east and north are zero"),
            Quantity("median_square_mm2", "mm2", "median of the squares of what is left over"),
            Quantity("scale_mm", "mm", "standard deviation that this stands for"),
            Quantity("out", "", "numbers of the readings put aside, from 1", "numbers"),
            Quantity("out_by_mm", "mm", "how far each of them lies above the plane of the others", "numbers"),
            Quantity("east_mm_per_m", "mm/m", "rise to the east through the others"),
            Quantity("north_mm_per_m", "mm/m", "rise to the north through the others"),
            Quantity("level_mm", "mm", "level where east and north are zero"),
            Quantity("scatter_mm", "mm", "standard deviation of one of the others"),
            Quantity("fall_mm_per_m", "mm/m", "steepest fall"),
            Quantity("one_in", "1 in n", "the same as a run for each unit of drop; zero on the level"),
        ),
        "smallest median of r² over planes through three; beyond 2.5 · 1.4826 (1 + 5/(n − 3)) √median put aside; "
        "the rest by least squares",
        "lms_1984",
        plane_despite_mistakes,
    ),
    Sum(
        "line-despite-mistakes",
        "Find the line through readings of which nearly half may be wrong",
        (
            Quantity("along", "", "places along", "numbers"),
            Quantity("read", "", "what was read at each", "numbers"),
        ),
        (
            Quantity("slope", "", "slope of the line that most agree with"),
            Quantity("level", "", "its height where along is zero"),
            Quantity("median_square", "", "square of half the shortest interval with over half of what is left"),
            Quantity("plain_slope", "", "slope by least squares through all"),
            Quantity("plain_level", "", "its height where along is zero"),
        ),
        "slopes through pairs; middle of the shortest half of what is left over",
        "lms_1984",
        line_despite_mistakes,
    ),
)
"""Sums of this room."""
