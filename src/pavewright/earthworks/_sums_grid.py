"""The sum of a grid of levels."""

from __future__ import annotations

import itertools

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_TWO = 2


def grid_volume(
    levels_mm: tuple[float, ...],
    columns: float,
    spacing_along_mm: float,
    spacing_across_mm: float,
    formation_mm: float,
    row_counts: tuple[float, ...] = (),
) -> dict[str, Value]:
    """Return the net volume between a grid of levels and a level formation, corners weighted by the cells they share.

    Rows of different length make a stepped site: all rows begin in the first column, and a cell counts where all four
    of its corners are there.

    Valid for: net volume; gross cut and fill need triangles and the line where the two meet.
    Source: definition, V = (a·b / 4)·(Σh1 + 2Σh2 + 3Σh3 + 4Σh4)

    >>> found = grid_volume((1000.0,) * 5, 3.0, 10_000.0, 10_000.0, 0.0, (3.0, 2.0))
    >>> found["net_m3"], found["mean_mm"]
    (100.0, 1000.0)
    """
    rows = _rows_of(levels_mm, columns, row_counts)
    if min(spacing_along_mm, spacing_across_mm) <= 0.0:
        message = "The spacing of the grid is more than zero both ways."
        raise SumRefusedError(message)
    total, cells = 0.0, 0
    for near, far in itertools.pairwise(rows):
        for column in range(min(len(near), len(far)) - 1):
            corners = (near[column], near[column + 1], far[column], far[column + 1])
            total += sum(level - formation_mm for level in corners)
            cells += 1
    area = spacing_along_mm * spacing_across_mm
    return {
        "weighted_sum_mm": total,
        "net_m3": units.mm3_to_m3(area / 4.0 * total),
        "mean_mm": total / (4.0 * cells),
    }


def _rows_of(
    levels_mm: tuple[float, ...], columns: float, row_counts: tuple[float, ...]
) -> tuple[tuple[float, ...], ...]:
    """Return the levels row by row, as many in each as columns says or as is given row by row."""
    wide = round(columns)
    if wide < _TWO or (not row_counts and len(levels_mm) % wide):
        message = "Give the levels row by row: as many in each row as columns says, two rows or more."
        raise SumRefusedError(message)
    counts = [round(each) for each in row_counts] or [wide] * (len(levels_mm) // wide)
    if len(counts) < _TWO or min(counts) < _TWO or max(counts) > wide or sum(counts) != len(levels_mm):
        message = (
            "Give two rows or more with two levels or more in each, none longer than columns says, and as many levels "
            "in all as the rows hold."
        )
        raise SumRefusedError(message)
    ends = list(itertools.accumulate(counts, initial=0))
    return tuple(levels_mm[start:end] for start, end in itertools.pairwise(ends))


GRID_SUM = Sum(
    "grid-volume",
    "Find the net volume between a grid of levels and a level formation",
    (
        Quantity("levels_mm", "mm", "levels row by row", kind="numbers"),
        Quantity("columns", "", "levels in each row, in the longest where they differ"),
        Quantity("spacing_along_mm", "mm", "distance between columns"),
        Quantity("spacing_across_mm", "mm", "distance between rows"),
        Quantity("formation_mm", "mm", "level of the formation"),
        Quantity("row_counts", "", "levels in each row, where rows are not of one length", "numbers", ()),
    ),
    (
        Quantity("weighted_sum_mm", "mm", "heights over formation, weighted by the cells that share them"),
        Quantity("net_m3", "m3", "cut less fill; negative where fill is more"),
        Quantity("mean_mm", "mm", "mean height over formation"),
    ),
    "V = (a·b / 4)·(Σh1 + 2Σh2 + 3Σh3 + 4Σh4)",
    "definition",
    grid_volume,
)
