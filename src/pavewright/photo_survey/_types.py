"""What a photo becomes: how the marks agree, and places on the plane with how far each is trusted."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.survey import ErrorEllipse

Array = npt.NDArray[np.float64]


class Weak(StrEnum):
    """Why a photo, or a place in it, says nothing or less than it seems to."""

    FEW_MARKS = "few_marks"
    IN_LINE = "in_line"
    CROSSWISE = "crosswise"
    MIRRORED = "mirrored"
    LENS_FOLDS = "lens_folds"
    NO_CHECK = "no_check"
    MARKS_DISAGREE = "marks_disagree"
    ONE_CORNER = "one_corner"
    PICTURE_SIZE = "picture_size"
    PAST_HORIZON = "past_horizon"
    BEYOND_MARKS = "beyond_marks"
    FAR_BEYOND = "far_beyond"
    LOW_CAMERA = "low_camera"
    GRAZING = "grazing"
    UNSURE = "unsure"


NO_ANSWER = frozenset({
    *(Weak.FEW_MARKS, Weak.IN_LINE, Weak.CROSSWISE, Weak.MIRRORED, Weak.LENS_FOLDS),
    *(Weak.PAST_HORIZON, Weak.FAR_BEYOND, Weak.GRAZING, Weak.UNSURE),
})  # fmt: skip
"""What leaves no answer; anything else goes with one, as what it rests on."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A thing seen in the photo whose place on the plane is known.

    Attributes:
        name: What it is called.
        seen_px: Where it is seen, to the right and down from the corner at the upper left. [px]
        known_mm: Where it is on the plane. [mm]
        sd_mm: How far that is trusted either way, one standard deviation. [mm]
    """

    name: str
    seen_px: XY
    known_mm: XY
    sd_mm: float


@dataclass(frozen=True, slots=True)
class Trust:
    """How far everything that goes in is trusted, each one standard deviation.

    Attributes:
        mark_sd_px: How well a finger puts a mark. [px]
        flat_sd_mm: How far marks and things stand off the plane. [mm]
        lens_sd: How far the lens may bend the picture: k1 and k2 of its polynomial in half diagonals. [-]
        lens_usual: Usual focal length of a phone. [half diagonals]
        lens_usual_sd: How far that is trusted, as a share of it. [-]
    """

    mark_sd_px: float
    flat_sd_mm: float
    lens_sd: tuple[float, float]
    lens_usual: float
    lens_usual_sd: float


@dataclass(frozen=True, slots=True)
class MarkCheck:
    """How a mark agrees with the others.

    Attributes:
        name: The mark.
        off_mm: Known place less the place by the photo, x and y. [mm]
        share: How much of the squared disagreement goes when it is left out, 0 to 1; 0 where nothing is spare. [-]
    """

    name: str
    off_mm: XY
    share: float


@dataclass(frozen=True, slots=True)
class PhotoPlace:
    """A thing put on the plane by the photo.

    Attributes:
        name: What it is called.
        at_mm: Where it is; None where the photo does not say. [mm]
        sd_mm: How far each of x and y is trusted, one standard deviation; None where there is no place. [mm]
        ellipse: Where it may lie, one standard deviation; None where there is no place.
        shift: How far it shifts for each millimetre that it stands out of the plane, away from the camera; None where
            the picture does not say where the camera stood. [mm/mm]
        weak: Why there is no place, or what the place rests on.
    """

    name: str
    at_mm: XY | None
    sd_mm: XY | None
    ellipse: ErrorEllipse | None
    shift: float | None
    weak: tuple[Weak, ...]


@dataclass(frozen=True, slots=True)
class PhotoAnswer:
    """What a photo says of a plane.

    Attributes:
        name: Name of the photo in the job.
        spare: How many readings are more than it needs.
        ratio: How far the marks disagree over how far they may, one where just so; None with nothing to spare. [-]
        chance: How likely marks as good as stated disagree so far or farther; None with nothing to spare. [-]
        suspect: The mark that the others contradict; empty for none, or where they cannot tell which.
        lens: How far the lens bends the picture: k1 and k2. [-]
        lens_found: Whether the marks say so; else it is only allowed for.
        camera_off_mm: About how far off the plane the camera stood; None where the picture does not say. [mm]
        numbers: a1, b1, c1, a2, b2, c2, a3, b3, from the picture, the bend of its lens undone, to the plane; none where
            there is no answer. [mm and px]
        marks: Every mark.
        places: Everything that was asked for.
        weak: Why there is no answer, or what the answers rest on.
    """

    name: str
    spare: int
    ratio: float | None
    chance: float | None
    suspect: str
    lens: tuple[float, float]
    lens_found: bool
    camera_off_mm: float | None
    numbers: tuple[float, ...]
    marks: tuple[MarkCheck, ...]
    places: tuple[PhotoPlace, ...]
    weak: tuple[Weak, ...]
