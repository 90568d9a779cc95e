"""Simulation tied down by readings: surfaces that pass as near to every reading as its error lets them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.as_laid.standing._dips import dips_on
from pavewright.as_laid.standing._free import free_surfaces
from pavewright.as_laid.standing._kriging import sloping
from pavewright.as_laid.standing._learning import Learnt, learnt

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.rules import Figure


@dataclass(frozen=True, slots=True)
class Cells:
    """Cells over which surfaces are simulated.

    Attributes:
        x0_mm: Left side of the first column. [mm]
        y0_mm: Lower side of the first row. [mm]
        cell_mm: Side of a cell. [mm]
        shape: Rows and columns.
    """

    x0_mm: float
    y0_mm: float
    cell_mm: float
    shape: tuple[int, int]

    def centres(self) -> NDArray[np.float64]:
        """Return the centres row by row, shape (cells, 2), float64. [mm]."""
        rows, columns = self.shape
        x = self.x0_mm + (np.arange(columns) + 0.5) * self.cell_mm
        y = self.y0_mm + (np.arange(rows) + 0.5) * self.cell_mm
        return np.column_stack([np.tile(x, rows), np.repeat(y, columns)])

    def of(self, places: NDArray[np.float64]) -> NDArray[np.intp]:
        """Return the nearest cell to each place, counted row by row, shape (places,), intp.

        Args:
            places: Plan places, shape (places, 2), float64. [mm]
        """
        rows, columns = self.shape
        across = np.clip(((places[:, 0] - self.x0_mm) // self.cell_mm).astype(int), 0, columns - 1)
        up = np.clip(((places[:, 1] - self.y0_mm) // self.cell_mm).astype(int), 0, rows - 1)
        return np.asarray(up * columns + across, dtype=np.intp)


@dataclass(frozen=True, eq=False)
class Simulated:
    """Surfaces that the readings leave possible, as levels against the plan.

    Attributes:
        off_mm: Simulated levels against the plan, shape (runs, rows, columns), float64. [mm]
        mean_mm: The likeliest, shape (rows, columns), float64. [mm]
        sd_mm: Standard deviation, same shape, float64. [mm]
        learnt: How uneven the paving was taken to be.
    """

    off_mm: NDArray[np.float64]
    mean_mm: NDArray[np.float64]
    sd_mm: NDArray[np.float64]
    learnt: Learnt


@dataclass(frozen=True, slots=True)
class Common:
    """What is common of paving between readings.

    Attributes:
        unevenness: Unevenness, standard deviation.
        reach: How far it reaches.
        dips: Single dips and humps to a square metre.
        dip_depth: Standard deviation of their depths.
        dip_radius: Their radius.
    """

    unevenness: Figure
    reach: Figure
    dips: Figure
    dip_depth: Figure
    dip_radius: Figure


def simulated(
    cells: Cells,
    inside: NDArray[np.bool_],
    read: NDArray[np.float64],
    reading_sd_mm: float,
    common: Common,
    runs: int,
    seed: int,
) -> Simulated:
    """Return surfaces that the readings leave possible: simulated freely, then led to the readings.

    Each is a free surface, with the dips drawn for it, plus what kriging makes of the readings less that surface at
    their places, read with a simulated error. So each is as rough as the paving and as near to the readings as their
    error lets it be.

    Args:
        cells: The cells.
        inside: Cells for which it is wanted, shape (rows, columns), bool; elsewhere it is zero.
        read: East, north and level against the design, shape (readings, 3), float64. [mm]
        reading_sd_mm: Standard deviation of a reading. [mm]
        common: What is common of paving between readings.
        runs: How many surfaces.
        seed: Begins the row of draws.

    Raises:
        ValueError: two readings at one place contradict each other, or too few for the trend.

    Source: chiles_delfiner_conditioning, conditioning by kriging of the differences
    """
    off_mm, about = read[:, 2], read[:, :2].mean(axis=0)
    scale = max(float(np.abs(read[:, :2] - about).max()), 1.0)
    middle = (float(about[0]), float(about[1]))
    wanted = np.flatnonzero(inside.ravel())
    centres = cells.centres()
    own = cells.of(read[:, :2])
    read_at = centres[own]  # a reading belongs to its cell, so that surface and reading meet in one place
    area_m2 = units.mm2_to_m2(len(wanted) * cells.cell_mm**2)
    dips = dips_on(centres[wanted], read_at, area_m2, common.dips, common.dip_depth, common.dip_radius)
    trend = sloping(read_at, middle, scale)
    found = learnt(read_at, off_mm, trend, reading_sd_mm, common.unevenness, common.reach, dips)
    trend = sloping(centres[wanted], middle, scale)
    chance = np.random.default_rng(seed)
    surfaces = np.zeros((runs, len(centres)))
    done = 0
    for kind, count in zip(found.kinds, _shared_out(found.chances, runs), strict=True):
        if not count:
            continue
        weights, _ = kind.weights(centres[wanted], trend)
        free = free_surfaces(kind.roughness, cells.shape, cells.cell_mm, count, chance).reshape(count, -1)
        for run, lying in enumerate(dips.drawn(kind.projected, off_mm, count, chance)):
            for dip, depth in lying:
                free[run, wanted] += depth * dips.at(centres[wanted], dip)
        errors = reading_sd_mm * chance.standard_normal((count, len(read)))
        surfaces[done : done + count, wanted] = free[:, wanted] + (off_mm - free[:, own] - errors) @ weights.T
        done += count
    made = surfaces.reshape(runs, *cells.shape)
    return Simulated(made, made.mean(axis=0), made.std(axis=0), found)


def _shared_out(chances: NDArray[np.float64], runs: int) -> list[int]:
    """Return how many runs each kind gets: even marks along all chances laid end to end."""
    marks = (np.arange(runs) + 0.5) / runs
    kind = np.minimum(np.searchsorted(np.cumsum(chances), marks), len(chances) - 1)
    return [int(each) for each in np.bincount(kind, minlength=len(chances))]
