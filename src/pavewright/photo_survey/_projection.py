"""A plane seen in a picture: eight numbers lead from a mark of the picture to its place on the plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from pavewright.photo_survey._types import Array

EIGHT = 8
"""How many numbers lead from a plane to a plane."""


def projected(marks: Array, eight: Array) -> tuple[Array, Array, Array, Array]:
    """Return the places on the plane, and how they change with the marks and with the eight numbers.

    Args:
        marks: Marks of the picture, shape (n, 2). [-]
        eight: a1, b1, c1, a2, b2, c2, a3, b3, shape (8,). [-]

    Returns:
        Places (n, 2), the divisor (n,), change with the marks (n, 2, 2) and with the numbers (n, 2, 8).

    Source: projective_transformation, X = (a1x + b1y + c1) / (a3x + b3y + 1), Y likewise
    """
    x, y = marks[:, 0], marks[:, 1]
    under = eight[6] * x + eight[7] * y + 1.0
    at_x = (eight[0] * x + eight[1] * y + eight[2]) / under
    at_y = (eight[3] * x + eight[4] * y + eight[5]) / under
    by_mark = np.empty((len(x), 2, 2))
    by_eight = np.zeros((len(x), 2, EIGHT))
    for row, at in enumerate((at_x, at_y)):
        by_mark[:, row, 0] = (eight[3 * row] - at * eight[6]) / under
        by_mark[:, row, 1] = (eight[3 * row + 1] - at * eight[7]) / under
        by_eight[:, row, 3 * row] = x / under
        by_eight[:, row, 3 * row + 1] = y / under
        by_eight[:, row, 3 * row + 2] = 1.0 / under
        by_eight[:, row, 6] = -at * x / under
        by_eight[:, row, 7] = -at * y / under
    return np.stack((at_x, at_y), axis=1), under, by_mark, by_eight


def first_numbers(marks: Array, known: Array) -> Array:
    """Return the eight numbers from the equations multiplied out: a first guess, not the best fit.

    Args:
        marks: Marks of the picture, shape (n, 2), centred and scaled. [-]
        known: Their places on the plane, shape (n, 2), centred and scaled. [-]

    Source: projective_transformation, multiplied out
    """
    x, y = marks[:, 0], marks[:, 1]
    none, one = np.zeros_like(x), np.ones_like(x)
    rows = [
        np.stack((x, y, one, none, none, none, -known[:, 0] * x, -known[:, 0] * y), axis=1),
        np.stack((none, none, none, x, y, one, -known[:, 1] * x, -known[:, 1] * y), axis=1),
    ]
    table = np.concatenate(rows)
    return np.asarray(
        np.linalg.solve(table.T @ table, table.T @ np.concatenate((known[:, 0], known[:, 1]))), np.float64
    )


def plane_to_picture(eight: Array, centre: Array) -> Array:
    """Return the 3 × 3 matrix that leads back from the plane to the picture, counted from the middle of the picture.

    Args:
        eight: The eight numbers, shape (8,). [-]
        centre: Where the marks count from, counted from the middle of the picture, shape (2,). [half diagonals]
    """
    back: Array = np.linalg.inv(np.append(eight, 1.0).reshape(3, 3))
    back[:2] += np.outer(centre, back[2])
    return back
