"""Draws: seeded even numbers between zero and one, and causes that lean on each other."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

MAX_DRAWS = 65_536
"""So many draws at most. [-]"""
MAX_CAUSES = 500
"""So many causes at most. [-]"""
_EDGE = 1e-12
"""No draw lies nearer to zero or one: a normal value there has no bound. [-]"""


def even_draws(count: int, causes: int, seed: int) -> NDArray[np.float64]:
    """Return draws that fill a cube evenly: a scrambled Sobol sequence, the same for the same seed.

    Args:
        count: How many draws, a power of two. [-]
        causes: How many numbers each draw has. [-]
        seed: Which of the scramblings. [-]

    Returns:
        Numbers above zero and below one, shape (count, causes), float64.

    Valid for: count a power of two; up to 65 536 draws of 500 causes.
    Source: scrambled_sobol

    >>> bool(abs(even_draws(256, 2, 1).mean() - 0.5) < 0.01)
    True
    """
    if count < 1 or count > MAX_DRAWS or count & (count - 1) or not 1 <= causes <= MAX_CAUSES:
        message = f"Draws are a power of two up to {MAX_DRAWS}; causes are 1 to {MAX_CAUSES}."
        raise ValueError(message)
    from scipy.stats import qmc  # noqa: PLC0415 - half a second, paid by who asks for a chance

    found = qmc.Sobol(causes, scramble=True, rng=np.random.default_rng(seed)).random_base2(int(math.log2(count)))
    return np.clip(np.asarray(found, dtype=np.float64), _EDGE, 1.0 - _EDGE)


def leaning(own: NDArray[np.float64], shared: NDArray[np.float64], correlation: float) -> NDArray[np.float64]:
    """Return even draws of a cause that leans on a shared one; two that do so have the correlation as normal values.

    Args:
        own: Even draws of the cause alone, shape (draws,), float64. [-]
        shared: Even draws of what is shared, shape (draws,), float64. [-]
        correlation: Correlation of any two that lean on the same. [-]

    Valid for: 0 ≤ correlation ≤ 1.
    Source: definition, z = √r · z_shared + √(1 − r) · z_own
    """
    from scipy.special import ndtr, ndtri  # noqa: PLC0415 - loaded when a chance is asked for

    joined = math.sqrt(correlation) * ndtri(shared) + math.sqrt(1.0 - correlation) * ndtri(own)
    return np.clip(np.asarray(ndtr(joined), dtype=np.float64), _EDGE, 1.0 - _EDGE)
