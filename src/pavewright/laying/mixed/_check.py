"""A check of a layout of mixed sizes, apart from the search: every unit and every point, in plain steps."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from pavewright.laying.mixed._types import MixRule

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    import numpy as np

    from pavewright.laying.mixed._types import MixedUnit, MixRules, Pack, Spread

    Cell = tuple[int, int]
    Grid = dict[Cell, int]


@dataclass(frozen=True, slots=True, order=True)
class MixFault:
    """A rule that a layout breaks, and where.

    Attributes:
        rule: The rule.
        row: Row of cells; of a band, its number.
        column: Column of cells; of a band, its number.
        words: What is wrong.
    """

    rule: MixRule
    row: int
    column: int
    words: str


def band_max(count: int, part: float, spread: Spread) -> int:
    """Return how many units of a size a band may take: so many times its share, and some more.

    Args:
        count: Units of the size for the whole bay.
        part: Part of the whole that the band is. [-]
        spread: How evenly sizes are to be spread.

    Source: common practice, sizes spread evenly over the whole

    >>> from pavewright.laying.mixed import Spread
    >>> band_max(16, 0.5, Spread(8, 1.5, 2))
    14
    """
    return math.floor(spread.share * count * part) + spread.more_units


def mix_faults(
    bay: np.ndarray, pack: Pack, rules: MixRules, placed: Sequence[MixedUnit], had: Sequence[int]
) -> tuple[MixFault, ...]:
    """Return every rule that a layout breaks.

    Args:
        bay: Whether each cell is to be covered, shape (rows, columns), bool.
        pack: Its sizes.
        rules: The rules.
        placed: Every unit.
        had: Units of each size that there were, those down before among them.
    """
    wanted = {(row, column) for row, line in enumerate(bay.tolist()) for column, is_in in enumerate(line) if is_in}
    found = [*_size_faults(pack, placed, had), *_cover_faults(wanted, placed)]
    grid = _grid(placed)
    if rules.longest_joint_cells:
        found += [
            MixFault(MixRule.LONGEST_JOINT, row, column, f"a straight joint runs {run} cells")
            for row, column, run in _runs(grid)
            if run > rules.longest_joint_cells
        ]
    if rules.no_four_way:
        found += [MixFault(MixRule.FOUR_WAY, row, column, "four units meet") for row, column in _four_ways(grid)]
    if rules.smallest_apart:
        found += _smallest_faults(pack, placed, grid)
    if rules.oblongs_apart:
        found += _oblong_faults(placed)
    if rules.even_spread is not None:
        found += _spread_faults(wanted, pack, rules.even_spread, placed, had)
    return tuple(sorted(found))


def longest_joint(placed: Sequence[MixedUnit], movement: Sequence[tuple[int, int, int, int]] = ()) -> int:
    """Return the longest straight joint, in cells; one that runs on through a movement joint counts in full.

    Args:
        placed: Every unit.
        movement: Movement joints, which are no joints of the pattern: row and column of either end, in corners of
            cells.
    """
    return max((run for _, _, run in _runs(_grid(placed), movement)), default=0)


def _cells(unit: MixedUnit) -> Iterator[Cell]:
    for row in range(unit.row, unit.row + unit.deep_cells):
        for column in range(unit.column, unit.column + unit.wide_cells):
            yield row, column


def _grid(placed: Sequence[MixedUnit]) -> Grid:
    return {cell: number for number, unit in enumerate(placed) for cell in _cells(unit)}


def _size_faults(pack: Pack, placed: Sequence[MixedUnit], had: Sequence[int]) -> Iterator[MixFault]:
    used = Counter(unit.size for unit in placed)
    for number, size in enumerate(pack.sizes):
        if used[number] > had[number]:
            words = f"{used[number]} of {size.name} laid, {had[number]} there"
            yield MixFault(MixRule.UNITS, 0, 0, words)
    for unit in placed:
        size = pack.sizes[unit.size]
        if sorted((unit.deep_cells, unit.wide_cells)) != sorted((size.length_cells, size.width_cells)):
            yield MixFault(MixRule.UNITS, unit.row, unit.column, f"not the size of {size.name}")


def _cover_faults(wanted: set[Cell], placed: Sequence[MixedUnit]) -> Iterator[MixFault]:
    covered = Counter(cell for unit in placed for cell in _cells(unit))
    for row, column in sorted(wanted - set(covered)):
        yield MixFault(MixRule.COVER, row, column, "not covered")
    for (row, column), times in sorted(covered.items()):
        if (row, column) not in wanted:
            yield MixFault(MixRule.COVER, row, column, "outside the bay")
        if times > 1:
            yield MixFault(MixRule.COVER, row, column, f"covered {times} times")


def _runs(grid: Grid, movement: Sequence[tuple[int, int, int, int]] = ()) -> Iterator[tuple[int, int, int]]:
    """Give first cell and length of every straight joint that is no movement joint, those along rows first."""
    lying = {
        (row, column) for row, column in grid if grid[row, column] != grid.get((row - 1, column), grid[row, column])
    }
    upright = {
        (column, row) for row, column in grid if grid[row, column] != grid.get((row, column - 1), grid[row, column])
    }
    for row, column, last_row, last_column in movement:
        lying -= {(row, along) for along in range(column, last_column)}
        upright -= {(column, along) for along in range(row, last_row)}
    for sides, turned in ((lying, False), (upright, True)):
        numbered = enumerate(sorted(sides))
        for (line, _), run in groupby(numbered, key=lambda each: (each[1][0], each[1][1] - each[0])):
            cells = [along for _, (_, along) in run]
            yield (cells[0], line, len(cells)) if turned else (line, cells[0], len(cells))


def _four_ways(grid: Grid) -> Iterator[Cell]:
    for row, column in grid:
        around = {grid.get((row - up, column - left)) for up in (0, 1) for left in (0, 1)}
        if len(around) == 4 and None not in around:  # noqa: PLR2004 - four units
            yield row, column


def _smallest_faults(pack: Pack, placed: Sequence[MixedUnit], grid: Grid) -> Iterator[MixFault]:
    least = min(size.cells for size in pack.sizes)
    for number, unit in enumerate(placed):
        if pack.sizes[unit.size].cells != least:
            continue
        near = {
            grid.get((row, column))
            for row in range(unit.row - 1, unit.row + unit.deep_cells + 1)
            for column in range(unit.column - 1, unit.column + unit.wide_cells + 1)
        }
        for other in sorted(each for each in near if each is not None and each != number):
            if pack.sizes[placed[other].size].cells == least:
                yield MixFault(MixRule.SMALLEST_APART, unit.row, unit.column, "two of the smallest touch")
                break


def _oblong_faults(placed: Sequence[MixedUnit]) -> Iterator[MixFault]:
    places = {(unit.row, unit.column): unit for unit in placed}
    for unit in placed:
        if unit.deep_cells == unit.wide_cells:
            continue
        lying = unit.wide_cells > unit.deep_cells
        beyond = (unit.row + unit.deep_cells, unit.column) if lying else (unit.row, unit.column + unit.wide_cells)
        other = places.get(beyond)
        if other is not None and (other.size, other.deep_cells) == (unit.size, unit.deep_cells):
            yield MixFault(MixRule.OBLONGS_APART, unit.row, unit.column, "two equal oblong units side by side")


def _spread_faults(
    wanted: set[Cell], pack: Pack, spread: Spread, placed: Sequence[MixedUnit], had: Sequence[int]
) -> Iterator[MixFault]:
    total = sum(count * size.cells for count, size in zip(had, pack.sizes, strict=True))
    for axis in (0, 1):
        cells = Counter(cell[axis] // spread.band_cells for cell in wanted)
        used = Counter(((unit.row, unit.column)[axis] // spread.band_cells, unit.size) for unit in placed)
        for (band, size), count in sorted(used.items()):
            if count > band_max(had[size], cells[band] / total, spread):
                place = (band, -1) if axis == 0 else (-1, band)
                words = f"{count} of {pack.sizes[size].name} in one band"
                yield MixFault(MixRule.EVEN_SPREAD, *place, words)
