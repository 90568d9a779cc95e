"""Kernel: a film of water over cells, step by step."""

from __future__ import annotations

import math

import numpy as np

from pavewright.compiled import called_with, compiled

G = 9.81
"""Acceleration of gravity. [m/s²]"""
DRY_M = 1e-7
"""A film thinner than this does not move. [m]"""
FILM_M = 2e-4
"""Froude numbers are looked at in films thicker than this. [m]"""
CALM = 0.54
"""Froude number up to which inertia counts in full: water must not outrun its waves, with a tenth to spare. [-]"""
COURANT = 0.6
"""Part of the time in which a wave crosses a cell that one step may take; over 0.7 a still pool breaks up. [-]"""
RISE = 5.0 / 3.0
"""Speed of a rise in a film over the speed of its water. [-]"""
THIN_M = 1e-4
"""Steps are never longer than a film this thick would allow. [m]"""


@compiled
def _drive(
    step_s: float,
    cell_m: float,
    depth: np.ndarray,
    bed: np.ndarray,
    n_squared: np.ndarray,
    low: np.ndarray,
    high: np.ndarray,
    flow: np.ndarray,
    watched: np.ndarray,
) -> tuple[float, float]:
    """Bring the flow over all sides of cells up to date, in place; return the greatest Froude number and wave speed.

    Friction is taken at the new flow, as a square, which keeps thin films from swinging. A rise in a film runs at 5/3
    of the speed of the water; where that nears the speed of waves, inertia is made lighter and waves so much quicker
    that it stays behind them, but not over the brink of an exit. Steady flow is not touched by that.

    Source: bates_2010, inertial form; derived, friction at the new flow and lighter inertia in quick films
    """
    greatest = quickest = 0.0  # as squares
    calm = 1.0 / (CALM * CALM)
    for face in range(flow.size):
        a, b = low[face], high[face]
        head_a, head_b = bed[a] + depth[a], bed[b] + depth[b]
        film = max(head_a, head_b) - max(bed[a], bed[b])
        if film <= DRY_M:
            flow[face] = 0.0
            continue
        still = G * film
        wave = still
        if watched[face]:
            wave = max(wave, calm * (flow[face] / film) ** 2)
        pull = step_s * wave / film  # gravity times step, over the inertia that is left
        drag = pull * 0.5 * (n_squared[a] + n_squared[b]) / (film * film * np.cbrt(film))
        push = flow[face] - pull * film * (head_b - head_a) / cell_m
        flow[face] = 2.0 * push / (1.0 + math.sqrt(1.0 + 4.0 * drag * abs(push)))
        speed = (flow[face] / film) ** 2
        quickest = max(quickest, still, calm * speed if watched[face] else speed)
        if watched[face] and film > FILM_M and speed > greatest * still:
            greatest = speed / still
    return math.sqrt(greatest), math.sqrt(quickest)


@compiled
def _leave(
    step_s: float,
    cell_m: float,
    depth: np.ndarray,
    leaving: np.ndarray,
    pull: np.ndarray,
    drop: np.ndarray,
    gone: np.ndarray,
) -> float:
    """Work out the depth that each exit cell gives off in a step, in place; return the greatest speed there. [m/s]."""
    quickest = 0.0
    for place in range(leaving.size):
        film = depth[leaving[place]]
        speed = pull[place] * np.cbrt(film) * np.cbrt(film)
        if drop[place]:
            speed = max(speed, math.sqrt(G * film))
        gone[place] = speed * film * step_s / cell_m
        quickest = max(quickest, speed)
    return quickest


@compiled
def _move(
    step_s: float,
    cell_m: float,
    depth: np.ndarray,
    flow: np.ndarray,
    low: np.ndarray,
    high: np.ndarray,
    leaving: np.ndarray,
    gone: np.ndarray,
    wanted: np.ndarray,
) -> None:
    """Move the water of one step, in place; no cell gives more than it holds."""
    part = step_s / cell_m
    wanted[:] = 0.0
    for face in range(flow.size):
        wanted[low[face] if flow[face] > 0.0 else high[face]] += abs(flow[face]) * part
    for place in range(leaving.size):
        wanted[leaving[place]] += gone[place]
    for cell in range(depth.size):  # from here on: the part that the cell can give of what is wanted
        wanted[cell] = depth[cell] / wanted[cell] if wanted[cell] > depth[cell] else 1.0
    for place in range(leaving.size):
        gone[place] *= wanted[leaving[place]]
        depth[leaving[place]] -= gone[place]
    for face in range(flow.size):
        flow[face] *= wanted[low[face] if flow[face] > 0.0 else high[face]]
        depth[low[face]] -= flow[face] * part
        depth[high[face]] += flow[face] * part


@called_with(
    "float64, float64[::1], float64[::1], int64[::1], int64[::1], boolean[::1], int64[::1], int32[::1]",
    "float64[::1], boolean[::1], float64, float64, float64, float64[:, ::1], float64[::1], float64[::1]",
    "float64[:, ::1]",
)
def rain_on(
    cell_m: float,
    bed: np.ndarray,
    n_squared: np.ndarray,
    low: np.ndarray,
    high: np.ndarray,
    watched: np.ndarray,
    leaving: np.ndarray,
    outlet: np.ndarray,
    pull: np.ndarray,
    drop: np.ndarray,
    rain_m_s: float,
    rain_s: float,
    interval_s: float,
    given: np.ndarray,
    held: np.ndarray,
    greatest: np.ndarray,
    kept: np.ndarray,
) -> tuple[np.ndarray, float, int, float]:
    """Let it rain; return depths at the end, greatest Froude number, steps taken and depth of rain.

    Args:
        cell_m: Side of a cell. [m]
        bed: Level of each cell, shape (n,). [m]
        n_squared: Square of Manning's n of each cell, shape (n,).
        low: Cell on one side of each inner side, shape (m,).
        high: Cell on its other side, shape (m,).
        watched: Whether the Froude number of this side counts, shape (m,), bool.
        leaving: Exit cells, shape (e,).
        outlet: Outlet of each exit cell, shape (e,).
        pull: Root of the fall over Manning's n with which water leaves each exit cell, shape (e,).
        drop: Whether it drops freely, at critical depth at least, shape (e,), bool.
        rain_m_s: Rain. [m/s]
        rain_s: How long it rains. [s]
        interval_s: Interval between outputs. [s]
        given: Water that left by each outlet in each interval, shape (outlets, intervals); filled here. [m]
        held: Water on the paving at the end of each interval, put into one cell, shape (intervals,); filled here. [m]
        greatest: Greatest depth of each cell, shape (n,); filled here. [m]
        kept: Depths of each cell at even times, shape (times, n), the last at the end; filled here. [m]
    """
    depth, flow = np.zeros(bed.size), np.zeros(low.size)
    wanted, gone = np.zeros(bed.size), np.zeros(leaving.size)
    quickest = froude = fallen = 0.0
    steps = 0
    for interval in range(held.size):
        now, end = interval * interval_s, (interval + 1) * interval_s
        while now < end:
            step = COURANT * cell_m / max(quickest, math.sqrt(G * THIN_M))
            until = rain_s if now < rain_s < end else end
            parts = math.ceil((until - now) / step)  # even steps: a short last one would feed waves in still pools
            step = (until - now) / parts
            now = until if parts == 1 else now + step
            number, quickest = _drive(step, cell_m, depth, bed, n_squared, low, high, flow, watched)
            froude = max(froude, number)
            quickest = max(quickest, RISE * _leave(step, cell_m, depth, leaving, pull, drop, gone))
            _move(step, cell_m, depth, flow, low, high, leaving, gone, wanted)
            for place in range(leaving.size):
                given[outlet[place], interval] += gone[place]
            more = rain_m_s * step if now <= rain_s else 0.0
            fallen += more
            for cell in range(depth.size):
                depth[cell] = max(depth[cell] + more, 0.0)
                greatest[cell] = max(greatest[cell], depth[cell])
            steps += 1
        held[interval] = depth.sum()
        due = (interval + 1) * kept.shape[0] // held.size
        if due > interval * kept.shape[0] // held.size:
            kept[due - 1] = depth
    return depth, froude, steps, fallen
