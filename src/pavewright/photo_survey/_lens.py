"""The lens: how far it bends the picture, undone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from pavewright.photo_survey._types import Array

_ROUNDS = 30
_SETTLED = 1e-13


class FoldedLensError(ValueError):
    """The lens would bend the picture over itself at a mark."""


def straightened(bent: Array, lens: Array) -> tuple[Array, Array, Array]:
    """Return where marks would lie without the bend of the lens, and how that changes with the marks and the lens.

    A straight place at a way r from the middle is seen at r(1 + k1·r² + k2·r⁴); the way back is found by Newton's
    steps.

    Args:
        bent: Marks as seen, from the middle of the picture, shape (n, 2). [half diagonals]
        lens: Its two numbers k1 and k2, shape (2,). [-]

    Returns:
        The straight places (n, 2), their change with the marks (n, 2, 2) and with the lens (n, 2, 2).

    Valid for: a lens that does not bend the picture over itself.
    Source: lens_distortion_model, radial part

    Raises:
        FoldedLensError: the lens bends the picture over itself at a mark.
    """
    seen = np.hypot(bent[:, 0], bent[:, 1])
    straight = seen.copy()
    slope = np.ones_like(seen)
    for _ in range(_ROUNDS):
        square = straight * straight
        slope = 1.0 + square * (3.0 * lens[0] + 5.0 * lens[1] * square)
        if np.any(slope <= 0.0):
            raise FoldedLensError
        step = (straight * (1.0 + square * (lens[0] + lens[1] * square)) - seen) / slope
        straight = straight - step
        if np.max(np.abs(step), initial=0.0) < _SETTLED:
            break
    away = seen > _SETTLED
    safe = np.where(away, seen, 1.0)
    share = np.where(away, straight / safe, 1.0)
    growth = np.where(away, (1.0 / slope - share) / safe**2, 0.0)
    by_mark = share[:, None, None] * np.eye(2) + growth[:, None, None] * bent[:, :, None] * bent[:, None, :]
    by_k1 = -(straight**3) / slope / safe
    by_lens = bent[:, :, None] * np.stack((by_k1, by_k1 * straight**2), axis=1)[:, None, :]
    return share[:, None] * bent, by_mark, by_lens
