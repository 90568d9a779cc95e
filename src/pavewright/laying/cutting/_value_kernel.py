"""The most valuable way to cut one slab, each part as often as is wanted: the compiled programme over its sizes."""

from __future__ import annotations

import numpy as np

from pavewright.compiled import called_with, compiled


@compiled
def _sums(sides: np.ndarray, whole: int) -> np.ndarray:
    """Return zero and every length that sides laid end to end come to, up to the whole."""
    reached = np.zeros(whole + 1, np.bool_)
    reached[0] = True
    for length in range(1, whole + 1):
        for side in sides:
            if side <= length and reached[length - side]:
                reached[length] = True
                break
    return np.flatnonzero(reached)


@compiled
def _counted(
    kind: np.ndarray,
    where: np.ndarray,
    counts: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    below_x: np.ndarray,
    below_y: np.ndarray,
) -> np.ndarray:
    """Return how often each part is cut, following the cuts from the whole slab down."""
    stack = [(len(xs) - 1, len(ys) - 1)]
    while len(stack) > 0:
        i, j = stack.pop()
        at = where[i, j]
        if kind[i, j] == 1:
            counts[at] += 1
        elif kind[i, j] == 2:
            stack.append((at, j))
            stack.append((below_x[xs[i] - xs[at]], j))
        elif kind[i, j] == 3:
            stack.append((i, at))
            stack.append((i, below_y[ys[j] - ys[at]]))
    return counts


@called_with("int64[:, ::1], float64[::1], int64, int64")
def max_value(parts: np.ndarray, values: np.ndarray, wide: int, high: int) -> tuple[float, np.ndarray]:
    """Return the greatest value that straight cuts right across get from a slab, and how often each part is cut.

    Args:
        parts: Width and height of each, none zero, shape (n, 2), int64.
        values: Value of each, shape (n,), float64.
        wide: Width of the slab.
        high: Height of the slab.

    Source: gilmore_gomory_1965
    """
    xs, ys = _sums(parts[:, 0], wide), _sums(parts[:, 1], high)
    best = np.zeros((len(xs), len(ys)))
    kind, where = np.zeros((len(xs), len(ys)), np.int64), np.zeros((len(xs), len(ys)), np.int64)
    below_x, below_y = (
        np.searchsorted(xs, np.arange(wide + 1), "right") - 1,
        np.searchsorted(ys, np.arange(high + 1), "right") - 1,
    )
    for i in range(1, len(xs)):
        for j in range(1, len(ys)):
            top, how, at = 0.0, 0, 0
            for part in range(len(parts)):
                if parts[part, 0] <= xs[i] and parts[part, 1] <= ys[j] and values[part] > top:
                    top, how, at = values[part], 1, part
            for k in range(1, i):
                if 2 * xs[k] > xs[i]:
                    break
                value = best[k, j] + best[below_x[xs[i] - xs[k]], j]
                if value > top + 1e-12:
                    top, how, at = value, 2, k
            for k in range(1, j):
                if 2 * ys[k] > ys[j]:
                    break
                value = best[i, k] + best[i, below_y[ys[j] - ys[k]]]
                if value > top + 1e-12:
                    top, how, at = value, 3, k
            best[i, j], kind[i, j], where[i, j] = top, how, at
    counts = _counted(kind, where, np.zeros(len(parts), np.int64), xs, ys, below_x, below_y)
    return best[len(xs) - 1, len(ys) - 1], counts
