"""Where the camera stood, as far as a plane seen in the picture says so."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.photo_survey._projection import EIGHT, plane_to_picture

if TYPE_CHECKING:
    from pavewright.photo_survey._types import Array

_STEP = 1e-6


@dataclass(frozen=True, slots=True)
class Camera:
    """Where the camera stood, in the measure of the fit.

    Attributes:
        foot: Point of the plane square under it, shape (2,). [measure of the fit]
        off: How far off the plane it stood; negative behind the plane. [measure of the fit]
        focal: Focal length. [half diagonals]
    """

    foot: Array
    off: float
    focal: float


def focal_squared(eight: Array, centre: Array) -> float:
    """Return the square of the focal length that makes the axes of the plane square and alike.

    Args:
        eight: The eight numbers of the plane, shape (8,). [-]
        centre: Where the marks count from, counted from the middle of the picture, shape (2,). [half diagonals]

    Valid for: square picture points, the middle of the picture on the lens; a plane that is not seen square on.
    Source: plane_calibration, both conditions by least squares
    """
    back = plane_to_picture(eight, centre)
    across = 2.0 * (back[0, 0] * back[0, 1] + back[1, 0] * back[1, 1])
    along = back[0, 0] ** 2 + back[1, 0] ** 2 - back[0, 1] ** 2 - back[1, 1] ** 2
    far_across, far_along = 2.0 * back[2, 0] * back[2, 1], back[2, 0] ** 2 - back[2, 1] ** 2
    size = far_across**2 + far_along**2
    return float(-(across * far_across + along * far_along) / size) if size > 0.0 else -1.0


def focal_length(eight: Array, centre: Array, spread: Array, usual: float, usual_sd: float) -> float:
    """Return the focal length: the usual one of a phone, and the picture's own, each by what it is trusted.

    Args:
        eight: The eight numbers of the plane, shape (8,). [-]
        centre: Where the marks count from, counted from the middle of the picture, shape (2,). [half diagonals]
        spread: Their covariance, shape (8, 8). [-]
        usual: Usual focal length. [half diagonals]
        usual_sd: How far that is trusted, as a share of it. [-]

    Source: plane_calibration, weighed by inverse variances
    """
    square = focal_squared(eight, centre)
    if square <= 0.0:
        return usual
    change = np.empty(EIGHT)
    for number in range(EIGHT):
        step = np.zeros(EIGHT)
        step[number] = _STEP
        change[number] = (focal_squared(eight + step, centre) - focal_squared(eight - step, centre)) / (2.0 * _STEP)
    variance = float(change @ spread @ change) / (4.0 * square**2)
    own, held = 1.0 / max(variance, _STEP), 1.0 / usual_sd**2
    return math.exp((own * math.log(square) / 2.0 + held * math.log(usual)) / (own + held))


def camera_of(eight: Array, centre: Array, focal: float, middle: Array) -> Camera:
    """Return where the camera stood.

    Args:
        eight: The eight numbers of the plane, shape (8,). [-]
        centre: Where the marks count from, counted from the middle of the picture, shape (2,). [half diagonals]
        focal: Focal length. [half diagonals]
        middle: A place of the plane that lies before the camera, shape (2,). [measure of the fit]

    Source: plane_calibration, the two axes of the plane and the product across them
    """
    turned = plane_to_picture(eight, centre) / np.array([[focal], [focal], [1.0]])
    turned *= 2.0 / (np.linalg.norm(turned[:, 0]) + np.linalg.norm(turned[:, 1]))
    if turned[2] @ np.append(middle, 1.0) < 0.0:
        turned = -turned
    out = np.cross(turned[:, 0], turned[:, 1])
    out /= np.linalg.norm(out)
    stood = np.linalg.solve(np.stack((turned[:, 0], turned[:, 1], out), axis=1), -turned[:, 2])
    return Camera(stood[:2], float(stood[2]), focal)
