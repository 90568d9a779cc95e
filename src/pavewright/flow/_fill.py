"""Filling: the surface that water would have if every hollow were full to its brim."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.flow._kernels import kernel

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow._grid import Grid
    from pavewright.geometry import XY

NEIGHBOURS = (4, 8)
"""Over sides only, or over corners too."""


@dataclass(frozen=True, eq=False)
class Filled:
    """A grid with every hollow full to its brim.

    Attributes:
        grid: The grid.
        neighbours: 8 where water passes over the corners of cells too, 4 where it does not.
        levels_mm: Level of the water or of the dry surface, shape (rows, columns), float64; infinite where no exit can
            be reached, not a number outside. [mm]
        receivers: Cell from which the flood came, counted row by row, or -1, shape (rows, columns), int32. Following
            it leads to an exit.
        order: Cells in the order in which the flood took them, counted row by row, int32.
        labels: Outlet from which the flood came, or -1, shape (rows, columns), int32. It is not the catchment.
    """

    grid: Grid
    neighbours: int
    levels_mm: NDArray[np.float64]
    receivers: NDArray[np.int32]
    order: NDArray[np.int32]
    labels: NDArray[np.int32]

    @property
    def depth_mm(self) -> NDArray[np.float64]:
        """Depth of standing water; infinite where no exit can be reached, zero outside. [mm]."""
        depth = np.zeros(self.levels_mm.shape)
        inside = self.grid.inside
        depth[inside] = self.levels_mm[inside] - self.grid.levels_mm[inside]
        return depth

    @property
    def unreached(self) -> NDArray[np.bool_]:
        """Cells inside from which no exit can be reached: water there stands without limit."""
        return self.grid.inside & (self.labels < 0)

    @property
    def unreached_m2(self) -> float:
        """Area from which no exit can be reached. [m²]."""
        return float(np.count_nonzero(self.unreached)) * self.grid.cell_m2


def fill(grid: Grid, neighbours: int = 8) -> Filled:
    """Return a grid with every hollow filled to the lowest path to an exit.

    Only exits let water go. The rim of the paving without exits is a wall, so that water stands against it.

    Args:
        grid: Levels, paving and exits.
        neighbours: 8, or 4 where a kerb one cell thick must hold at its corners.

    Raises:
        ValueError: neighbours is neither 4 nor 8.

    Source: barnes_2014, priority-flood with labels
    """
    if neighbours not in NEIGHBOURS:
        message = "water passes to 4 or to 8 neighbours"
        raise ValueError(message)
    shape = grid.inside.shape
    levels, receivers, order, labels = kernel("fill_kernel", "flood")(
        np.ascontiguousarray(grid.levels_mm, dtype=np.float64).ravel(),
        np.ascontiguousarray(grid.inside).ravel(),
        np.ascontiguousarray(grid.exits, dtype=np.int32).ravel(),
        shape[1],
        neighbours,
    )
    filled = levels.reshape(shape)
    filled[~grid.inside] = np.nan
    return Filled(grid, neighbours, filled, receivers.reshape(shape), order, labels.reshape(shape))


@dataclass(frozen=True, slots=True)
class Puddle:
    """Water that stands in a hollow.

    Attributes:
        at_mm: Its deepest place. [mm]
        centre_mm: Middle of its area. [mm]
        area_m2: Area under water. [m²]
        volume_l: Water in it. [l]
        deepest_mm: Greatest depth. [mm]
        level_mm: Level of its surface. [mm]
        outlet: Outlet to which it spills.
    """

    at_mm: XY
    centre_mm: XY
    area_m2: float
    volume_l: float
    deepest_mm: float
    level_mm: float
    outlet: str


def stands(filled: Filled, min_depth_mm: float = 0.0) -> tuple[Puddle, ...]:
    """Return the puddles that are somewhere deeper than a least depth, deepest first.

    Where no exit can be reached no depth is known; see ``Filled.unreached``.

    Args:
        filled: A filled grid.
        min_depth_mm: Puddles nowhere deeper than this are left out. [mm]
    """
    grid, depth = filled.grid, filled.depth_mm
    depth[filled.unreached] = 0.0
    patches, count = kernel("fill_kernel", "connected")((depth > 0.0).ravel(), depth.shape[1], filled.neighbours)
    wet = np.flatnonzero(patches >= 0)
    numbers, depths = patches[wet], depth.ravel()[wet]
    cells = np.bincount(numbers, minlength=count)
    held = np.bincount(numbers, weights=depths, minlength=count)
    rows, columns = np.divmod(wet, depth.shape[1])
    mid_row = np.bincount(numbers, weights=rows, minlength=count)
    mid_column = np.bincount(numbers, weights=columns, minlength=count)
    by_depth = wet[np.lexsort((wet, -depths))]
    _, first = np.unique(patches[by_depth], return_index=True)
    found = []
    for number, start in enumerate(first):
        row, column = divmod(int(by_depth[start]), depth.shape[1])
        deepest = float(depth[row, column])
        if deepest > min_depth_mm:
            size = int(cells[number])
            x, y = grid.centre(0, 0)
            middle = (x + mid_column[number] / size * grid.cell_mm, y + mid_row[number] / size * grid.cell_mm)
            found.append(
                Puddle(
                    grid.centre(row, column),
                    (float(middle[0]), float(middle[1])),
                    size * grid.cell_m2,
                    float(held[number]) * grid.cell_m2,  # a millimetre over a square metre is a litre
                    deepest,
                    float(filled.levels_mm[row, column]),
                    grid.outlets[int(filled.labels[row, column])],
                )
            )
    return tuple(sorted(found, key=lambda each: (-each.deepest_mm, each.at_mm)))


def standing_l(filled: Filled) -> float:
    """Return the water in all hollows from which an exit can be reached. [l].

    A millimetre over a square metre is a litre.
    """
    depth = filled.depth_mm[filled.grid.inside & ~filled.unreached]
    return float(depth.sum()) * filled.grid.cell_m2
