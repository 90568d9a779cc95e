"""Free simulation: surfaces as rough as the paving, before any reading ties them down."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from scipy.fft import fft2, next_fast_len

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.as_laid.standing._roughness import Roughness

_FADES = 3.0
"""So many reaches away a departure knows nothing of another: the wrapped sheet is so much larger. [-]"""


def free_surfaces(
    roughness: Roughness, shape: tuple[int, int], cell_mm: float, count: int, chance: np.random.Generator
) -> NDArray[np.float64]:
    """Return simulated departures on cells, shape (count, rows, columns), float64. [mm].

    Args:
        roughness: How the surface departs from its trend.
        shape: Rows and columns.
        cell_mm: Side of a cell. [mm]
        count: How many surfaces.
        chance: Gives the draws, from a fixed seed.

    Source: dietrich_newsam_1997, embedding in a wrapped sheet; two surfaces from each transform
    """
    pad = math.ceil(_FADES * roughness.reach_mm / cell_mm)
    tall, wide = (next_fast_len(side + pad) for side in shape)
    down, across = (np.minimum(np.arange(size), size - np.arange(size)) * cell_mm for size in (tall, wide))
    spectrum = np.maximum(fft2(roughness.at(np.hypot(down[:, None], across[None, :]))).real, 0.0)
    spread = np.sqrt(spectrum / (tall * wide))
    found = []
    for _ in range((count + 1) // 2):
        draws = chance.standard_normal((2, tall, wide))
        both = fft2(spread * (draws[0] + 1j * draws[1]))[: shape[0], : shape[1]]
        found += [both.real, both.imag]
    return np.array(found[:count])
