"""Sums of movement between two visits."""

from __future__ import annotations

from pavewright.as_laid.movement._lines import LevelledLine, lines_moved
from pavewright.as_laid.movement._twice import two_visits
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_MOVED, _SCATTER = "moved", "within scatter"


def movement_of_a_place(first_read_mm: tuple[float, ...], second_read_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return how far a place moved between two visits, and whether that is more than scatter.

    Source: definition
    """
    try:
        found = two_visits(first_read_mm, second_read_mm)
    except ValueError as problem:
        raise SumRefusedError(str(problem)) from problem
    return {
        "moved_mm": found.moved_mm,
        "reading_sd_mm": found.reading_sd_mm,
        "moved_sd_mm": found.moved_sd_mm,
        "t": found.t,
        "t_limit": found.t_limit,
        "verdict": _MOVED if found.is_more_than_scatter else _SCATTER,
    }


def movement_of_marks(
    starts: tuple[str, ...],
    ends: tuple[str, ...],
    first_read_mm: tuple[float, ...],
    second_read_mm: tuple[float, ...],
    lengths_m: tuple[float, ...],
    held: str,
    mm_per_root_km: float,
) -> dict[str, Value]:
    """Return how far marks moved that were levelled to each other on two visits.

    Source: deformation_symposium
    """
    rows = {len(starts), len(ends), len(first_read_mm), len(second_read_mm), len(lengths_m)}
    if len(rows) != 1 or not starts or mm_per_root_km <= 0.0 or min(lengths_m) <= 0.0:
        message = "Give each line its two marks, both rises and its length, and a scatter that is more than zero."
        raise SumRefusedError(message)
    lines = [LevelledLine(*line) for line in zip(starts, ends, first_read_mm, second_read_mm, lengths_m, strict=True)]
    try:
        found = lines_moved(lines, held, mm_per_root_km)
    except ValueError as problem:
        raise SumRefusedError(str(problem)) from problem
    spare = found.scatter is not None
    return {
        "marks": found.marks,
        "moved_mm": found.moved_mm,
        "sd_mm": found.sd_mm,
        "t": tuple(moved / sd for moved, sd in zip(found.moved_mm, found.sd_mm, strict=True)),
        "joint_f": found.joint_f,
        "joint_limit": found.joint_limit,
        "scatter": found.scatter if spare and found.scatter is not None else -1.0,
        "scatter_f": found.scatter_f if spare and found.scatter_f is not None else -1.0,
        "scatter_limit": found.scatter_limit if spare and found.scatter_limit is not None else -1.0,
        "suspects": found.suspects,
    }


SUMS: tuple[Sum, ...] = (
    Sum(
        "movement-of-a-place",
        "Find whether a place moved between two visits on each of which it was read several times",
        (
            Quantity("first_read_mm", "mm", "readings of the first visit", "numbers"),
            Quantity("second_read_mm", "mm", "readings of the second visit", "numbers"),
        ),
        (
            Quantity("moved_mm", "mm", "mean of the second less that of the first"),
            Quantity("reading_sd_mm", "mm", "standard deviation of one reading"),
            Quantity("moved_sd_mm", "mm", "standard deviation of the movement"),
            Quantity("t", "", "movement over its standard deviation"),
            Quantity("t_limit", "", "what chance alone exceeds once in twenty"),
            Quantity("verdict", "", "whether it moved", kind="word"),
        ),
        "t = (mean2 − mean1) / (s √(1/n1 + 1/n2)), s from both visits",
        "definition",
        movement_of_a_place,
    ),
    Sum(
        "movement-of-marks",
        "Find which marks moved that were levelled to each other on two visits",
        (
            Quantity("starts", "", "mark from which each line runs", "words"),
            Quantity("ends", "", "mark to which it runs", "words"),
            Quantity("first_read_mm", "mm", "rise of each line on the first visit", "numbers"),
            Quantity("second_read_mm", "mm", "rise on the second visit", "numbers"),
            Quantity("lengths_m", "m", "length of each line", "numbers"),
            Quantity("held", "", "mark that is held", kind="word"),
            Quantity("mm_per_root_km", "mm", "standard deviation of a line of one kilometre"),
        ),
        (
            Quantity("marks", "", "the other marks", "words"),
            Quantity("moved_mm", "mm", "how far each rose", "numbers"),
            Quantity("sd_mm", "mm", "standard deviation of each", "numbers"),
            Quantity("t", "", "each movement over its standard deviation", "numbers"),
            Quantity("joint_f", "", "all together, for the scatter that was stated"),
            Quantity("joint_limit", "", "what chance alone exceeds once in twenty"),
            Quantity("scatter", "", "square of the scatter found over that stated; -1 without lines to spare"),
            Quantity("scatter_f", "", "all together, for the scatter found; -1 likewise"),
            Quantity("scatter_limit", "", "what chance alone exceeds once in twenty; -1 likewise"),
            Quantity("suspects", "", "marks that moved against the rest, the worst first", "words"),
        ),
        "least squares of the changes, weights 1/length; F = m' N m / u; the mark without which the rest agree",
        "deformation_symposium",
        movement_of_marks,
    ),
)
"""Sums of this room."""
