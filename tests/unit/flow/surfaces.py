"""Small surfaces for the tests of flow."""

from __future__ import annotations

import numpy as np
from shapely.geometry import LineString, box

from pavewright.flow import Grid, rasterise, with_exit_line


def grid_of(levels, exits, cell_mm=1000.0, inside=None, outlets=None):
    levels = np.asarray(levels, dtype=np.float64)
    exits = np.asarray(exits, dtype=np.int32)
    inside = np.ones(levels.shape, dtype=bool) if inside is None else np.asarray(inside, dtype=bool)
    names = tuple(f"outlet {k}" for k in range(exits.max(initial=-1) + 1)) if outlets is None else outlets
    return Grid(0.0, 0.0, cell_mm, levels, inside, exits, names)


def plane(bearing_deg, cell_mm=10.0, one_in=60.0, wide_mm=5400.0, deep_mm=4200.0):
    """A plane that falls at an angle to the x axis; water leaves over the right side and the upper side."""
    turn = np.radians(bearing_deg)
    grid = rasterise(
        box(0.0, 0.0, wide_mm, deep_mm), cell_mm, lambda x, y: 100.0 - (x * np.cos(turn) + y * np.sin(turn)) / one_in
    )
    grid = with_exit_line(grid, "right", LineString([(wide_mm, 0.0), (wide_mm, deep_mm)]))
    return with_exit_line(grid, "upper", LineString([(0.0, deep_mm), (wide_mm, deep_mm)]))


def strip(run_mm, cell_mm, one_in, wide_cells=1):
    """A strip of paving that falls to the right and is free there."""
    wide = wide_cells * cell_mm
    grid = rasterise(box(0.0, 0.0, run_mm, wide), cell_mm, lambda x, y: 1000.0 - x / one_in)
    return with_exit_line(grid, "end", LineString([(run_mm, 0.0), (run_mm, wide)]))
