"""Where water stands on simulated surfaces, how deep, how far and how often."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy import ndimage

from pavewright.as_laid.standing._types import Pond, Span, WaterState
from pavewright.flow import fill

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow import Grid

_WET_MM = 1.0
"""A film no deeper than this is not under water: it dries before anybody minds. [mm]"""
_MOST = 8
"""So many ponds are told at most."""
_AROUND_MM = 1000.0
"""What is wet within this distance of the likeliest place belongs to the same pond. [mm]"""
_TIE = 1e-6
"""Of places that are wet as often the one with the deeper water goes first. [1/mm]"""
_PART = 0.34
"""A pond reaches as far as its chance is this part of that at its likeliest place. [-]"""


@dataclass(frozen=True, eq=False)
class Flooded:
    """Water on every simulated surface.

    Attributes:
        depth_mm: Depth where a counted puddle stands, shape (runs, rows, columns), float32; zero elsewhere. [mm]
        planned_mm: Depth on the surface as designed, shape (rows, columns), float64. [mm]
        cell_m2: Paving that a cell stands for. [m²]
    """

    depth_mm: NDArray[np.float32]
    planned_mm: NDArray[np.float64]
    cell_m2: float

    @property
    def wet(self) -> NDArray[np.bool_]:
        """Whether a cell is under water on each surface, shape (runs, rows, columns), bool."""
        return np.asarray(self.depth_mm > _WET_MM)

    @property
    def chances(self) -> NDArray[np.float64]:
        """Share of the surfaces on which a cell is under water, shape (rows, columns), float64. [-]."""
        return np.asarray(self.wet.mean(axis=0), dtype=np.float64)


def flooded(
    grid: Grid, paved: NDArray[np.bool_], off_mm: NDArray[np.float64], counted_mm: float, cell_m2: float
) -> Flooded:
    """Return the water that stands on each of many surfaces over one grid.

    Args:
        grid: The surface as designed, with its exits.
        paved: Cells that are paving, shape (rows, columns), bool.
        off_mm: Levels against the design, shape (runs, rows, columns), float64. [mm]
        counted_mm: Puddles nowhere deeper than this are left out. [mm]
        cell_m2: Paving that a cell stands for. [m²]
    """
    depths = np.zeros(off_mm.shape, dtype=np.float32)
    for number, off in enumerate(off_mm):
        depths[number] = _water(replace(grid, levels_mm=grid.levels_mm + off), paved, counted_mm)
    planned = _water(grid, paved, counted_mm)
    return Flooded(depths, planned, cell_m2)


def _water(grid: Grid, paved: NDArray[np.bool_], counted_mm: float) -> NDArray[np.float64]:
    """Return the depth of water in puddles that are somewhere deep enough to count."""
    filled = fill(grid)
    depth = np.where(paved & ~filled.unreached, filled.depth_mm, 0.0)
    if depth.max(initial=0.0) <= counted_mm:
        return np.zeros(depth.shape)
    patches, _ = ndimage.label(depth > 0.0, structure=np.ones((3, 3)))
    deepest = np.zeros(patches.max() + 1)
    np.maximum.at(deepest, patches.ravel(), depth.ravel())
    return np.where(deepest[patches] > counted_mm, depth, 0.0)


def ponds(
    found: Flooded,
    grid: Grid,
    places: NDArray[np.float64],
    sure: float,
    clear: float,
    told_from: float,
    counted_mm: float,
) -> tuple[Pond, ...]:
    """Return where water may stand, the likeliest first.

    Args:
        found: Water on every surface.
        grid: The cells.
        places: Where was read, shape (readings, 2), float64. [mm]
        sure: Chance from which water is taken to stand. [-]
        clear: Chance below which it is taken to clear. [-]
        told_from: Smaller chances are not told. [-]
        counted_mm: A place counts where the water there is deeper than this. [mm]
    """
    left = found.chances + _TIE * found.depth_mm.mean(axis=0)
    x, y = grid.centres()
    told: list[Pond] = []
    while len(told) < _MOST:
        row, column = np.unravel_index(int(left.argmax()), left.shape)
        best = float(left[row, column])
        if best < told_from:
            break
        near = np.hypot(x - x[row, column], y - y[row, column]) <= _AROUND_MM
        patches, _ = ndimage.label(near & (left >= _PART * best), structure=np.ones((3, 3)))
        zone = patches == patches[row, column]
        at = (float(x[row, column]), float(y[row, column]))
        pond = _pond(found, zone, at, places, (sure, clear), counted_mm)
        if pond.chance >= told_from:
            told.append(pond)
        left[ndimage.binary_dilation(zone, np.ones((3, 3), dtype=np.bool_), iterations=2)] = 0.0
    told.sort(key=lambda each: (-each.chance, -each.depth_mm.middle, each.at))
    return tuple(replace(each, number=number) for number, each in enumerate(told, start=1))


def _pond(
    found: Flooded,
    zone: NDArray[np.bool_],
    at: tuple[float, float],
    places: NDArray[np.float64],
    limits: tuple[float, float],
    counted_mm: float,
) -> Pond:
    """Return one pond over the cells of its zone."""
    inside = found.depth_mm[:, zone]
    deepest = inside.max(axis=1)
    wet = deepest > counted_mm
    chance = float(wet.mean())
    areas = (inside > _WET_MM).sum(axis=1) * found.cell_m2
    litres = inside.sum(axis=1) * found.cell_m2
    return Pond(
        number=0,
        at=at,
        chance=chance,
        state=state_of(chance, *limits),
        depth_mm=span(deepest[wet]),
        area_m2=span(areas[wet]),
        volume_l=span(litres[wet]),
        planned_mm=float(found.planned_mm[zone].max()),
        nearest_mm=float(np.hypot(*(places - np.array(at)).T).min()),
    )


def state_of(chance: float, sure: float, clear: float) -> WaterState:
    """Return what a chance comes to.

    Args:
        chance: Chance that water stands. [-]
        sure: Chance from which it is taken to stand. [-]
        clear: Chance below which it is taken to clear. [-]

    >>> [state_of(chance, 0.95, 0.025).value for chance in (0.99, 0.4, 0.02)]
    ['stands', 'undecided', 'clears']
    """
    if chance >= sure:
        return WaterState.STANDS
    return WaterState.CLEARS if chance < clear else WaterState.UNDECIDED


def span(values: NDArray[np.float32] | NDArray[np.float64]) -> Span:
    """Return the span that holds nine tenths of some values; zero where there are none.

    Args:
        values: Any values, shape (values,), float64. [in their own unit]
    """
    if not len(values):
        return Span(0.0, 0.0, 0.0)
    low, middle, high = (float(each) for each in np.quantile(values, (0.05, 0.5, 0.95)))
    return Span(low, middle, high)
