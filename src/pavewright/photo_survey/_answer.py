"""What a photo says: places on its plane, how far each is trusted, and where it says nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.photo_survey._fit import Fit, UnsettledFitError, fitted, in_pixels, located, shifts
from pavewright.photo_survey._geometry import beyond_share, chance_beyond, hull_area_px2, triangle_share
from pavewright.photo_survey._lens import FoldedLensError
from pavewright.photo_survey._types import NO_ANSWER, Array, Mark, MarkCheck, PhotoAnswer, PhotoPlace, Trust, Weak
from pavewright.survey import ErrorEllipse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY

_FOUR = 4
_PARTED = 6
"""From so many marks on the others can tell which one is wrong."""
_PERCENT = 100.0
_K1 = 8
"""Where the first number of the lens stands among all ten."""


@dataclass(frozen=True, slots=True)
class Limits:
    """When a photo is too weak; each is the rulebook's figure of that name.

    Attributes:
        min_triangle_share: Flattest triangle that the best four marks may make. [-]
        min_marks_share: Smallest part of the picture that the marks should take in. [-]
        disagree_percent: Marks that disagree so far with less than this chance are told. [%]
        max_beyond_share: Farthest that a thing may lie beyond the marks. [-]
        low_camera_deg: Lower than this above the plane, the camera is told to be low. [deg]
        grazing_deg: Lower than this a sight says nothing. [deg]
        max_sd_mm: A place that is trusted to no better says nothing. [mm]
        lens_found_share: The lens counts as found where it is trusted to less than this part of what was allowed. [-]
    """

    min_triangle_share: float
    min_marks_share: float
    disagree_percent: float
    max_beyond_share: float
    low_camera_deg: float
    grazing_deg: float
    max_sd_mm: float
    lens_found_share: float


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo of a plane.

    Attributes:
        name: Name of the photo.
        marks: Things whose place on the plane is known.
        wanted: Things whose place is wanted, by name, where each is seen. [px]
        size_px: Width and height; None where they are not known. [px]
        seen_from_front: Whether x runs to the right and y up for who took it; None where either may be.
    """

    name: str
    marks: tuple[Mark, ...]
    wanted: tuple[tuple[str, XY], ...]
    size_px: tuple[float, float] | None
    seen_from_front: bool | None


def plane_from_photo(picture: Picture, trust: Trust, limits: Limits) -> PhotoAnswer:
    """Return the places of things on a plane of which a photo shows four known places or more.

    Args:
        picture: The photo with its marks.
        trust: How far everything that goes in is trusted.
        limits: When it is too weak.

    Valid for: things on the plane of the marks; a picture that was neither cropped nor stitched.
    Source: projective_transformation, least squares on true residuals; error ellipses by propagation
    """
    fit = _plane(picture, trust, limits)
    if isinstance(fit, Weak):
        return _nothing(picture, fit)
    return _answer(picture, fit, trust, limits)


def _plane(picture: Picture, trust: Trust, limits: Limits) -> Fit | Weak:
    """Return the plane of a photo, or why there is none."""
    if len(picture.marks) < _FOUR:
        return Weak.FEW_MARKS
    marks_px, known_mm = _rows(picture.marks)
    if min(triangle_share(marks_px), triangle_share(known_mm)) < limits.min_triangle_share:
        return Weak.IN_LINE
    try:
        fit = _fit(picture.marks, picture.size_px, trust)
    except (UnsettledFitError, FoldedLensError):
        return Weak.CROSSWISE
    under = located(fit, marks_px)[1]
    given_up = fit.frame.whole and trust.lens_sd[0] > 0.0 and fit.spread[_K1, _K1] == 0.0
    if np.any(under * under[0] <= 0.0) or (given_up and not _disagree(fit, limits)):
        return Weak.CROSSWISE
    front = picture.seen_from_front
    behind = fit.camera is not None and front is not None and (fit.camera.off > 0.0) is not front
    return Weak.MIRRORED if behind else fit


def _disagree(fit: Fit, limits: Limits) -> bool:
    return fit.spare > 0 and chance_beyond(fit.squares, fit.spare) < limits.disagree_percent / _PERCENT


def _rows(marks: Sequence[Mark]) -> tuple[Array, Array]:
    seen = np.array([mark.seen_px for mark in marks], dtype=np.float64)
    return seen, np.array([mark.known_mm for mark in marks], dtype=np.float64)


def _fit(marks: Sequence[Mark], size_px: tuple[float, float] | None, trust: Trust) -> Fit:
    """Return the plane that fits marks best; where no lens makes them agree, the one of a lens that bends nothing."""
    sds_mm = np.array([mark.sd_mm for mark in marks], dtype=np.float64)
    try:
        return fitted(*_rows(marks), sds_mm, size_px, trust)
    except (UnsettledFitError, FoldedLensError):
        return fitted(*_rows(marks), sds_mm, size_px, replace(trust, lens_sd=(0.0, 0.0)))


def _nothing(picture: Picture, why: Weak) -> PhotoAnswer:
    """Return an answer that says nothing, and why."""
    places = tuple(PhotoPlace(name, None, None, None, None, (why,)) for name, _ in picture.wanted)
    marks = tuple(MarkCheck(mark.name, (0.0, 0.0), 0.0) for mark in picture.marks)
    return PhotoAnswer(
        name=picture.name,
        spare=0,
        ratio=None,
        chance=None,
        suspect="",
        lens=(0.0, 0.0),
        lens_found=False,
        camera_off_mm=None,
        numbers=(),
        marks=marks,
        places=places,
        weak=(why,),
    )


def _answer(picture: Picture, fit: Fit, trust: Trust, limits: Limits) -> PhotoAnswer:
    chance = chance_beyond(fit.squares, fit.spare) if fit.spare else None
    ratio = math.sqrt(fit.squares / fit.spare) if fit.spare else None
    weak: list[Weak] = []
    shares, suspect = np.zeros(len(picture.marks)), ""
    if chance is None or ratio is None:
        weak.append(Weak.NO_CHECK)
    elif _disagree(fit, limits):
        weak.append(Weak.MARKS_DISAGREE)
        shares, suspect = _who_disagrees(picture, fit, trust, limits)
        fit = replace(fit, spread=fit.spread * ratio**2)
    marks_px = np.array([mark.seen_px for mark in picture.marks])
    if picture.size_px is None:
        weak.append(Weak.PICTURE_SIZE)
    elif hull_area_px2(marks_px) < limits.min_marks_share * math.prod(picture.size_px):
        weak.append(Weak.ONE_CORNER)
    if fit.camera is not None and _sight_deg(fit, np.zeros(2)) < limits.low_camera_deg:
        weak.append(Weak.LOW_CAMERA)
    off = fit.off * fit.frame.scale_mm
    allowed, left = trust.lens_sd[0], math.sqrt(max(0.0, float(fit.spread[_K1, _K1])))
    return PhotoAnswer(
        name=picture.name,
        spare=fit.spare,
        ratio=ratio,
        chance=chance,
        suspect=suspect,
        lens=(float(fit.lens[0]), float(fit.lens[1])),
        lens_found=fit.frame.whole and 0.0 < left < limits.lens_found_share * allowed,
        camera_off_mm=None if fit.camera is None else abs(fit.camera.off) * fit.frame.scale_mm,
        numbers=tuple(in_pixels(fit).tolist()),
        marks=tuple(
            MarkCheck(mark.name, (float(x), float(y)), float(share))
            for mark, (x, y), share in zip(picture.marks, off, shares, strict=True)
        ),
        places=tuple(_place(name, seen, fit, trust, limits, marks_px) for name, seen in picture.wanted),
        weak=tuple(weak),
    )


def _who_disagrees(picture: Picture, fit: Fit, trust: Trust, limits: Limits) -> tuple[Array, str]:
    """Return how much of the disagreement goes with each mark, and the one that the others contradict."""
    marks = picture.marks
    if len(marks) < _PARTED:
        return np.zeros(len(marks)), ""
    left = np.full(len(marks), fit.squares)
    for number in range(len(marks)):
        others = (*marks[:number], *marks[number + 1 :])
        if triangle_share(np.array([mark.seen_px for mark in others])) < limits.min_triangle_share:
            continue
        try:
            left[number] = _fit(others, picture.size_px, trust).squares
        except (UnsettledFitError, FoldedLensError):
            continue
    shares = np.clip(1.0 - left / fit.squares, 0.0, 1.0)
    agree = [chance_beyond(float(each), fit.spare - 2) >= limits.disagree_percent / _PERCENT for each in left]
    return shares, marks[agree.index(True)].name if sum(agree) == 1 else ""


def _sight_deg(fit: Fit, place: Array) -> float:
    """Return at what angle a place is seen over the plane."""
    if fit.camera is None:
        return 90.0
    way = place - fit.camera.foot
    return math.degrees(math.atan2(abs(fit.camera.off), math.hypot(float(way[0]), float(way[1]))))


def _place(name: str, seen: XY, fit: Fit, trust: Trust, limits: Limits, marks_px: Array) -> PhotoPlace:
    """Return where a thing is, and how far that is trusted."""
    beyond = beyond_share(marks_px, seen)
    weak = [Weak.FAR_BEYOND] if beyond > limits.max_beyond_share else [Weak.BEYOND_MARKS] if beyond > 0.0 else []
    try:
        at, under, by_seen, by_all = located(fit, np.array([seen]))
        same_side = under[0] * located(fit, marks_px[:1])[1][0] > 0.0
    except FoldedLensError:
        return PhotoPlace(name, None, None, None, None, (*weak, Weak.LENS_FOLDS))
    if not same_side:
        return PhotoPlace(name, None, None, None, None, (*weak, Weak.PAST_HORIZON))
    mark = trust.mark_sd_px / fit.frame.scale_px
    spread = mark**2 * by_seen[0] @ by_seen[0].T + by_all[0] @ fit.spread @ by_all[0].T + shifts(fit, at, trust)[0]
    spread = spread * fit.frame.scale_mm**2
    ellipse = ellipse_of(spread)
    angle = _sight_deg(fit, at[0])
    if angle < limits.grazing_deg:
        weak.append(Weak.GRAZING)
    if ellipse.major_mm > limits.max_sd_mm:
        weak.append(Weak.UNSURE)
    shift = None if fit.camera is None else 1.0 / math.tan(math.radians(angle))
    if NO_ANSWER & set(weak):
        return PhotoPlace(name, None, None, None, shift, tuple(weak))
    x, y = (float(each) for each in at[0] * fit.frame.scale_mm + fit.frame.origin_mm)
    sd = (math.sqrt(spread[0, 0]), math.sqrt(spread[1, 1]))
    return PhotoPlace(name, (x, y), sd, ellipse, shift, tuple(weak))


def ellipse_of(spread: Array) -> ErrorEllipse:
    """Return the ellipse of one standard deviation of a covariance.

    Args:
        spread: The covariance of x and y, shape (2, 2). [mm²]

    Source: definition, principal axes
    """
    half, apart = (spread[0, 0] + spread[1, 1]) / 2.0, (spread[0, 0] - spread[1, 1]) / 2.0
    root = math.hypot(apart, spread[0, 1])
    east_of_north = math.degrees(math.atan2(spread[0, 1], -apart)) / 2.0
    return ErrorEllipse(math.sqrt(half + root), math.sqrt(max(0.0, half - root)), east_of_north % 180.0)
