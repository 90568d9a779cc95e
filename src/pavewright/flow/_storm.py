"""A storm on the paving: films, flows at the outlets, and how soon it is clear again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.flow._kernels import kernel

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from pavewright.flow._grid import Grid

QUICK_FROUDE = 0.9
"""Above this Froude number the form used here loses its hold. [-]"""
NINE_TENTHS = 0.9
"""Share of the water whose time is reported. [-]"""


@dataclass(frozen=True, eq=False)
class Storm:
    """What a storm did.

    Attributes:
        outlets: Names of the outlets.
        interval_s: Length of an interval. [s]
        flow_l_s: Mean flow at each outlet over each interval, shape (outlets, intervals), float64. [l/s]
        held_l: Water on the paving at the end of each interval, shape (intervals,), float64. [l]
        peak_l_s: Greatest mean flow over an interval at each outlet. [l/s]
        volume_l: Water that left by each outlet. [l]
        greatest_depth_mm: Greatest depth in each cell, shape (rows, columns), float64; not a number outside. [mm]
        depth_mm: Depth at the end in each cell, likewise. [mm]
        deepest_mm: Greatest depth anywhere. [mm]
        fallen_l: Rain that fell. [l]
        drained_l: Water that left. [l]
        stored_l: Water on the paving at the end. [l]
        full_flow_after_s: From the start of the rain until nine tenths of it leave as it falls; not a number if never.
            [s]
        clears_after_s: From the end of the rain until nine tenths of what then leaves has left; not a number if
            nothing does. [s]
        froude: Greatest Froude number away from the exits. [-]
        steps: Steps taken.
        cautions: Why not to trust it, in words; empty if nothing speaks against it.
        depths_mm: Depth in each cell at even times, the last at the end, shape (times, rows, columns), float64; not a
            number outside. [mm]
    """

    outlets: tuple[str, ...]
    interval_s: float
    flow_l_s: NDArray[np.float64]
    held_l: NDArray[np.float64]
    peak_l_s: tuple[float, ...]
    volume_l: tuple[float, ...]
    greatest_depth_mm: NDArray[np.float64]
    depth_mm: NDArray[np.float64]
    deepest_mm: float
    fallen_l: float
    drained_l: float
    stored_l: float
    full_flow_after_s: float
    clears_after_s: float
    froude: float
    steps: int
    cautions: tuple[str, ...]
    depths_mm: NDArray[np.float64]

    @property
    def lost_share(self) -> float:
        """Rain less what left less what is stored, as share of the rain. [-]."""
        return (self.fallen_l - self.drained_l - self.stored_l) / self.fallen_l if self.fallen_l else 0.0


def storm(
    grid: Grid,
    rain_mm_per_h: float,
    rain_min: float,
    watched_min: float,
    manning_n: float | NDArray[np.float64] = 0.02,
    interval_s: float = 10.0,
    falls_beyond: Mapping[str, float] | None = None,
    times: int = 0,
) -> Storm:
    """Return what steady rain does on a grid: the local inertial form of the shallow water equations.

    Walls let nothing through. From an exit cell water drops freely over one side: at critical depth, or as fast as it
    runs in where that is faster. Where the fall beyond an outlet is given it runs on at normal depth instead.

    Args:
        grid: Levels, paving and exits.
        rain_mm_per_h: Rain. [mm/h]
        rain_min: How long it rains. [min]
        watched_min: How long the water is watched from the start of the rain. [min]
        manning_n: Manning's n, one for all or one for each cell, shape (rows, columns). [s/m^(1/3)]
        interval_s: Interval of the output; flows are means over it. [s]
        falls_beyond: Fall of what an outlet runs on over, rise over run, by name. [rise over run]
        times: At how many even times depths are kept at most; each is the end of an interval.

    Raises:
        ValueError: rain, times or n are not what they can be.

    Valid for: films with a Froude number below about 0.9; see ``Storm.cautions``.
    Source: bates_2010, inertial form; mass closes to rounding
    """
    rain_s = rain_min * _SECONDS
    intervals = _intervals(rain_mm_per_h, rain_min, watched_min, manning_n, interval_s)
    exits = grid.exits[grid.inside]
    given = np.zeros((len(grid.outlets), intervals))
    held, greatest = np.zeros(intervals), np.zeros(exits.size)
    kept = np.zeros((_even_times(times, intervals), exits.size))
    depth, froude, steps, fallen = kernel("storm_kernel", "rain_on")(
        units.mm_to_m(grid.cell_mm),
        *_cells(grid, manning_n, falls_beyond or {}),
        units.mm_to_m(rain_mm_per_h) / units.SECONDS_PER_HOUR,
        rain_s,
        interval_s,
        given,
        held,
        greatest,
        kept,
    )
    litres = grid.cell_m2 * units.LITRES_PER_M3
    left = given * litres
    deepest = units.m_to_mm(float(greatest.max(initial=0.0)))
    return Storm(
        outlets=grid.outlets,
        interval_s=interval_s,
        flow_l_s=left / interval_s,
        held_l=held * litres,
        peak_l_s=tuple(float(each.max()) / interval_s for each in left),
        volume_l=tuple(float(each.sum()) for each in left),
        greatest_depth_mm=_on_grid(grid, greatest),
        depth_mm=_on_grid(grid, depth),
        deepest_mm=deepest,
        fallen_l=fallen * exits.size * litres,
        drained_l=float(left.sum()),
        stored_l=float(depth.sum()) * litres,
        full_flow_after_s=_full_flow_after(left.sum(axis=0), interval_s, rain_mm_per_h * grid.area_m2),
        clears_after_s=_clears_after(left.sum(axis=0), interval_s, rain_s),
        froude=froude,
        steps=steps,
        cautions=_cautions(grid, froude, deepest),
        depths_mm=np.array([_on_grid(grid, each) for each in kept]).reshape(-1, *grid.inside.shape),
    )


def _intervals(
    rain_mm_per_h: float,
    rain_min: float,
    watched_min: float,
    manning_n: float | NDArray[np.float64],
    interval_s: float,
) -> int:
    """Return how many intervals the water is watched for; refuse rain, times and n that are not what they can be."""
    intervals = math.ceil(watched_min * _SECONDS / interval_s - _ROUNDING) if interval_s > 0.0 else 0
    if rain_mm_per_h < 0.0 or rain_min < 0.0 or intervals < 1 or not (np.asarray(manning_n) > 0.0).all():
        message = "rain is not less than zero; times and Manning's n are more than zero"
        raise ValueError(message)
    return intervals


def _even_times(at_most: int, intervals: int) -> int:
    """Return at how many even times depths are kept: the most that part the intervals without a rest."""
    return max((each for each in range(1, min(at_most, intervals) + 1) if intervals % each == 0), default=0)


_SECONDS = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR
_ROUNDING = 1e-9
"""A time that is a whole number of intervals but for rounding gets no further one. [intervals]"""


def _cells(
    grid: Grid, manning_n: float | NDArray[np.float64], falls_beyond: Mapping[str, float]
) -> tuple[NDArray[np.generic], ...]:
    """Return what the kernel needs of the cells inside: beds, n, sides between cells, and exits."""
    inside = grid.inside
    numbers = np.full(inside.shape, -1, np.int64)
    numbers[inside] = np.arange(np.count_nonzero(inside))
    pairs = [(numbers[:, :-1], numbers[:, 1:]), (numbers[:-1], numbers[1:])]
    low, high = (np.concatenate([pair[which][(pair[0] >= 0) & (pair[1] >= 0)] for pair in pairs]) for which in (0, 1))
    exits, levels = grid.exits[inside], grid.levels_mm[inside]
    bed = (levels - levels.min(initial=np.inf)) / units.MM_PER_M
    n = np.broadcast_to(np.asarray(manning_n, dtype=np.float64), inside.shape)[inside]
    leaving = np.flatnonzero(exits >= 0)
    inward = np.zeros(bed.size)  # greatest fall from a neighbour
    np.maximum.at(inward, low, (bed[high] - bed[low]) / units.mm_to_m(grid.cell_mm))
    np.maximum.at(inward, high, (bed[low] - bed[high]) / units.mm_to_m(grid.cell_mm))
    given = np.array([falls_beyond.get(name, math.nan) for name in grid.outlets])
    falls = given[exits[leaving]] if leaving.size else np.zeros(0)
    drop = np.isnan(falls)
    pull = np.sqrt(np.where(drop, inward[leaving], falls)) / n[leaving]
    watched = (exits[low] < 0) & (exits[high] < 0)
    return bed, n * n, low, high, watched, leaving, exits[leaving], pull, drop


def _on_grid(grid: Grid, depth_m: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return depths of cells inside on the whole grid. [mm]."""
    depths = np.full(grid.inside.shape, np.nan)
    depths[grid.inside] = depth_m * units.MM_PER_M
    return depths


def _full_flow_after(left_l: NDArray[np.float64], interval_s: float, rain_l_per_h: float) -> float:
    """Return the end of the first interval in which nine tenths of the rain leaves as it falls. [s]."""
    wanted = NINE_TENTHS * rain_l_per_h / units.SECONDS_PER_HOUR * interval_s
    enough = np.flatnonzero(left_l >= wanted) if wanted > 0.0 else np.zeros(0, np.intp)
    return float(enough[0] + 1) * interval_s if enough.size else math.nan


def _clears_after(left_l: NDArray[np.float64], interval_s: float, rain_s: float) -> float:
    """Return when nine tenths of what leaves after the rain has left, counted from its end. [s]."""
    times = np.arange(left_l.size + 1) * interval_s
    gone = np.concatenate([[0.0], np.cumsum(left_l)])
    before = float(np.interp(rain_s, times, gone))
    if not gone[-1] > before:
        return math.nan
    wanted = before + NINE_TENTHS * (float(gone[-1]) - before)
    return float(np.interp(wanted, gone, times)) - rain_s


def _cautions(grid: Grid, froude: float, deepest_mm: float) -> tuple[str, ...]:
    """Return in words why the answer may be off."""
    found = []
    if froude > QUICK_FROUDE:
        found.append(
            f"Water runs faster than waves in it (Froude number {froude:.2f}): flows are sound, depths are rough."
        )
    if deepest_mm > grid.cell_mm:
        found.append("Water is deeper than a cell is wide: it no longer runs as a sheet.")
    if (grid.exits < 0).all() and grid.inside.any():
        found.append("There is no exit: all rain stays.")
    return tuple(found)
