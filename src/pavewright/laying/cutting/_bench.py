"""What the compiled search works on."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np  # noqa: TC002 - the compiler reads the fields


class Bench(NamedTuple):
    """Everything that the search works on; all arrays are int64.

    Attributes:
        parts: Width, height, allowed quarter turns as 4 bits, sides that must be factory edges as 4 bits (right, far,
            left, near), kind (equal parts share one); shape (n, 5).
        stock: Width, height, cost of the sizes of slab; shape (m, 3).
        slab: Size, parts put, free rectangles, area used, a mark; shape (2n + 3, 5).
        put: Part, x, y, quarter turns of what is put on a slab; shape (2n + 3, most, 4).
        free: x, y, width, height of what is free on a slab; shape (2n + 3, most + 2, 4).
        how: Fit rule, split rule, first corner, rule for a new slab, least side of any part, most parts; shape (6,).
        best: Score, slab, rectangle, turn, corner of the best place so far; shape (5,).
        dice: State of the chance; shape (1,).
    """

    parts: np.ndarray
    stock: np.ndarray
    slab: np.ndarray
    put: np.ndarray
    free: np.ndarray
    how: np.ndarray
    best: np.ndarray
    dice: np.ndarray
