"""The plane that fits the marks of a photo best, and what every number of it is trusted to."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.photo_survey._camera import Camera, camera_of, focal_length
from pavewright.photo_survey._lens import straightened
from pavewright.photo_survey._projection import EIGHT, first_numbers, projected

if TYPE_CHECKING:
    from pavewright.photo_survey._types import Array, Trust

_ROUNDS = 60
_SETTLED = 1e-10
_HALF_STEPS = 12
_TINY = 1e-12


class UnsettledFitError(ValueError):
    """No plane fits these marks: they are named wrongly, or too many lie in line."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Where counting starts and by what it is divided, so that all numbers are near one.

    Attributes:
        middle_px: Middle of the picture, or of the marks where its size is not known, shape (2,). [px]
        scale_px: Half its diagonal, or the spread of the marks. [px]
        centre: Middle of the marks from there, shape (2,). [scale_px]
        origin_mm: Middle of the known places, shape (2,). [mm]
        scale_mm: Their spread. [mm]
        whole: Whether the size of the picture is known.
    """

    middle_px: Array
    scale_px: float
    centre: Array
    origin_mm: Array
    scale_mm: float
    whole: bool

    def seen(self, marks_px: Array) -> Array:
        """Return marks counted from the middle of the picture.

        Args:
            marks_px: Marks as they are seen, shape (n, 2). [px]
        """
        return (marks_px - self.middle_px) / self.scale_px

    def known(self, places_mm: Array) -> Array:
        """Return known places counted from their middle.

        Args:
            places_mm: Places on the plane, shape (n, 2). [mm]
        """
        return (places_mm - self.origin_mm) / self.scale_mm


def frame_of(marks_px: Array, known_mm: Array, size_px: tuple[float, float] | None) -> Frame:
    """Return where counting starts for these marks.

    Args:
        marks_px: Marks as they are seen, shape (n, 2). [px]
        known_mm: Their places on the plane, shape (n, 2). [mm]
        size_px: Width and height of the picture; None where they are not known. [px]
    """
    mean_px, mean_mm = marks_px.mean(axis=0), known_mm.mean(axis=0)
    spread_px = math.sqrt(float(np.mean(np.sum((marks_px - mean_px) ** 2, axis=1))))
    spread_mm = math.sqrt(float(np.mean(np.sum((known_mm - mean_mm) ** 2, axis=1))))
    middle, scale = (mean_px, spread_px) if size_px is None else (np.array(size_px) / 2.0, math.hypot(*size_px) / 2.0)
    return Frame(middle, scale, (mean_px - middle) / scale, mean_mm, spread_mm, size_px is not None)


@dataclass(frozen=True, slots=True)
class Fit:
    """The plane that fits the marks best.

    Attributes:
        frame: Where counting starts.
        eight: The eight numbers, in the measure of the frame, shape (8,). [-]
        lens: k1 and k2 of the lens, shape (2,). [-]
        spread: Covariance of the eight numbers and the lens, shape (10, 10). [-]
        off: Known places less those by the photo, shape (n, 2). [measure of the fit]
        squares: Sum of squared disagreements, each over its own standard deviation. [-]
        spare: How many readings are more than it needs.
        camera: Where the camera stood; None where the size of the picture is not known.
    """

    frame: Frame
    eight: Array
    lens: Array
    spread: Array
    off: Array
    squares: float
    spare: int
    camera: Camera | None


def located(fit: Fit, marks_px: Array) -> tuple[Array, Array, Array, Array]:
    """Return the places of marks on the plane, the divisors, and how places change with the marks and the numbers.

    Args:
        fit: The plane.
        marks_px: Marks as they are seen, shape (n, 2). [px]

    Returns:
        Places (n, 2), divisors (n,), change with the marks (n, 2, 2) and with all ten numbers (n, 2, 10).
    """
    straight, by_seen, by_lens = straightened(fit.frame.seen(marks_px), fit.lens)
    at, under, by_straight, by_eight = projected(straight - fit.frame.centre, fit.eight)
    return at, under, by_straight @ by_seen, np.concatenate((by_eight, by_straight @ by_lens), axis=2)


def fitted(marks_px: Array, known_mm: Array, sds_mm: Array, size_px: tuple[float, float] | None, trust: Trust) -> Fit:
    """Return the plane that fits the marks best, every disagreement over its own standard deviation.

    The numbers are made better in rounds on the true disagreements until nothing moves. Where the size of the picture
    is known, the bend of the lens is one of the unknowns, held to none by what a lens is trusted to, and where the
    camera stood says how far a thing off the plane is shifted.

    Args:
        marks_px: Marks as they are seen, shape (n, 2). [px]
        known_mm: Their places on the plane, shape (n, 2). [mm]
        sds_mm: How far those are trusted, shape (n,). [mm]
        size_px: Width and height of the picture; None where they are not known. [px]
        trust: How far everything else is trusted.

    Valid for: at least four marks, of which no three are in line.
    Source: projective_transformation, least squares on true residuals

    Raises:
        UnsettledFitError: no plane is found.
    """
    frame = frame_of(marks_px, known_mm, size_px)
    if frame.scale_mm < _TINY or frame.scale_px < _TINY:
        raise UnsettledFitError
    seen, known = frame.seen(marks_px), frame.known(known_mm)
    try:
        first = first_numbers(seen - frame.centre, known)
        none = np.zeros((EIGHT + 2, EIGHT + 2))
        fit = Fit(frame, first, np.zeros(2), none, known, math.inf, 2 * len(known) - EIGHT, None)
        still = np.zeros((len(known), 2, 2))
        fit = _settled(fit, marks_px, known, sds_mm, trust, still)
        if size_px is None:
            return fit
        for _ in range(2):
            fit = replace(fit, camera=_camera(fit, trust))
            fit = _settled(fit, marks_px, known, sds_mm, trust, shifts(fit, known, trust))
        return replace(fit, camera=_camera(fit, trust))
    except np.linalg.LinAlgError as problem:
        raise UnsettledFitError from problem


def _camera(fit: Fit, trust: Trust) -> Camera:
    spread = fit.spread[:EIGHT, :EIGHT]
    focal = focal_length(fit.eight, fit.frame.centre, spread, trust.lens_usual, trust.lens_usual_sd)
    return camera_of(fit.eight, fit.frame.centre, focal, np.zeros(2))


def shifts(fit: Fit, places: Array, trust: Trust) -> Array:
    """Return how far places scatter because things stand off the plane, shape (n, 2, 2).

    Args:
        fit: The plane.
        places: Places on it, shape (n, 2). [measure of the fit]
        trust: How far things stand off it.

    Source: definition, similar triangles under the camera
    """
    if fit.camera is None:
        return np.zeros((len(places), 2, 2))
    way = (places - fit.camera.foot) / fit.camera.off * (trust.flat_sd_mm / fit.frame.scale_mm)
    found: Array = way[:, :, None] * way[:, None, :]
    return found


def _settled(fit: Fit, marks_px: Array, known: Array, sds_mm: Array, trust: Trust, off_plane: Array) -> Fit:
    """Make the numbers better until nothing moves; a step that leads over the horizon of a mark is halved."""
    held = [each for each in (0, 1) if fit.frame.whole and trust.lens_sd[each] > 0.0]
    free = [*range(EIGHT), *(EIGHT + each for each in held)]
    stiff = np.zeros(len(free))
    stiff[EIGHT:] = [1.0 / trust.lens_sd[each] ** 2 for each in held]
    own = (sds_mm / fit.frame.scale_mm)[:, None, None] ** 2 * np.eye(2) + off_plane
    mark_sd = trust.mark_sd_px / fit.frame.scale_px
    numbers = np.concatenate((fit.eight, fit.lens))
    for _ in range(_ROUNDS):
        at, under, by_seen, by_all = located(replace(fit, eight=numbers[:EIGHT], lens=numbers[EIGHT:]), marks_px)
        weight = np.linalg.inv(own + mark_sd**2 * by_seen @ by_seen.transpose(0, 2, 1))
        slopes, off = by_all[:, :, free], known - at
        normal = np.einsum("nij,nik,nkl->jl", slopes, weight, slopes) + np.diag(stiff)
        pull = np.einsum("nij,nik,nk->j", slopes, weight, off) - stiff * numbers[free]
        step = np.zeros(EIGHT + 2)
        step[free] = np.linalg.solve(normal, pull)
        numbers = numbers + step * _within(numbers, step, fit, marks_px, under)
        if np.max(np.abs(step)) < _SETTLED * (1.0 + np.max(np.abs(numbers))):
            break
    else:
        raise UnsettledFitError
    spread = np.zeros((EIGHT + 2, EIGHT + 2))
    spread[np.ix_(free, free)] = np.linalg.inv(normal)
    squares = float(np.einsum("ni,nij,nj->", off, weight, off) + np.sum(stiff * numbers[free] ** 2))
    return replace(fit, eight=numbers[:EIGHT], lens=numbers[EIGHT:], spread=spread, off=off, squares=squares)


def _within(numbers: Array, step: Array, fit: Fit, marks_px: Array, under: Array) -> float:
    """Return the part of a step that keeps every mark on its side of the horizon."""
    part = 1.0
    for _ in range(_HALF_STEPS):
        tried = numbers + part * step
        if np.all(located(replace(fit, eight=tried[:EIGHT], lens=tried[EIGHT:]), marks_px)[1] * under > 0.0):
            break
        part /= 2.0
    return part


def in_pixels(fit: Fit) -> Array:
    """Return the eight numbers from the picture, the bend of its lens undone, to the plane.

    Args:
        fit: The plane.

    Source: projective_transformation, divided by the last number
    """
    frame = fit.frame
    x, y = frame.middle_px / frame.scale_px + frame.centre
    counted = np.array([[1.0 / frame.scale_px, 0.0, -x], [0.0, 1.0 / frame.scale_px, -y], [0.0, 0.0, 1.0]])
    back = np.array(
        [[frame.scale_mm, 0.0, frame.origin_mm[0]], [0.0, frame.scale_mm, frame.origin_mm[1]], [0.0, 0.0, 1.0]]
    )
    whole = (back @ np.append(fit.eight, 1.0).reshape(3, 3) @ counted).ravel()
    found: Array = whole[:EIGHT] / whole[EIGHT]
    return found
