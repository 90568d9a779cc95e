"""The sum for places on a plane of which a photo shows known places."""

from __future__ import annotations

from pavewright.photo_survey import _words as words
from pavewright.photo_survey._answer import Limits, Picture, plane_from_photo
from pavewright.photo_survey._types import Mark, PhotoAnswer, Trust
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def place_from_photo(
    mark_x_px: tuple[float, ...],
    mark_y_px: tuple[float, ...],
    known_x_mm: tuple[float, ...],
    known_y_mm: tuple[float, ...],
    wanted_x_px: tuple[float, ...],
    wanted_y_px: tuple[float, ...],
    width_px: float,
    height_px: float,
    mark_sd_px: float,
    known_sd_mm: float,
    flat_sd_mm: float,
    lens_k1_sd: float,
    lens_k2_sd: float,
    lens_usual_focal: float,
    lens_usual_focal_sd: float,
    min_triangle_share: float,
    min_marks_share: float,
    disagree_percent: float,
    max_beyond_share: float,
    low_camera_deg: float,
    grazing_deg: float,
    max_sd_mm: float,
    lens_found_share: float,
) -> dict[str, Value]:
    """Return places on a plane from a photo of four known places or more.

    Source: projective_transformation, least squares on true residuals
    """
    rows = {len(each) for each in (mark_x_px, mark_y_px, known_x_mm, known_y_mm)}
    if len(rows) != 1 or len(wanted_x_px) != len(wanted_y_px):
        raise SumRefusedError(words.ROWS_DIFFER)
    if (width_px > 0.0) != (height_px > 0.0) or min(width_px, height_px) < 0.0:
        raise SumRefusedError(words.SIZE_HALF)
    if max(mark_sd_px, known_sd_mm) <= 0.0 or lens_usual_focal <= 0.0 or lens_usual_focal_sd <= 0.0:
        raise SumRefusedError(words.NOT_MORE_THAN_ZERO)
    marks = zip(mark_x_px, mark_y_px, known_x_mm, known_y_mm, strict=True)
    picture = Picture(
        name="",
        marks=tuple(Mark(str(number), (x, y), (u, v), known_sd_mm) for number, (x, y, u, v) in enumerate(marks, 1)),
        wanted=tuple((str(number), seen) for number, seen in enumerate(zip(wanted_x_px, wanted_y_px, strict=True), 1)),
        size_px=(width_px, height_px) if width_px > 0.0 else None,
        seen_from_front=None,
    )
    trust = Trust(mark_sd_px, flat_sd_mm, (lens_k1_sd, lens_k2_sd), lens_usual_focal, lens_usual_focal_sd)
    limits = Limits(
        min_triangle_share,
        min_marks_share,
        disagree_percent,
        max_beyond_share,
        low_camera_deg,
        grazing_deg,
        max_sd_mm,
        lens_found_share,
    )
    return _told(plane_from_photo(picture, trust, limits))


def _told(found: PhotoAnswer) -> dict[str, Value]:
    placed = [place for place in found.places if place.at_mm and place.sd_mm and place.ellipse]
    return {
        "numbers": found.numbers,
        "x_mm": tuple(place.at_mm[0] for place in placed if place.at_mm),
        "y_mm": tuple(place.at_mm[1] for place in placed if place.at_mm),
        "sd_x_mm": tuple(place.sd_mm[0] for place in placed if place.sd_mm),
        "sd_y_mm": tuple(place.sd_mm[1] for place in placed if place.sd_mm),
        "major_mm": tuple(place.ellipse.major_mm for place in placed if place.ellipse),
        "minor_mm": tuple(place.ellipse.minor_mm for place in placed if place.ellipse),
        "bearing_deg": tuple(place.ellipse.bearing_deg for place in placed if place.ellipse),
        "answered": tuple(place.name for place in placed),
        "off_x_mm": tuple(mark.off_mm[0] for mark in found.marks),
        "off_y_mm": tuple(mark.off_mm[1] for mark in found.marks),
        "ratio": () if found.ratio is None else (found.ratio,),
        "spare": float(found.spare),
        "suspect": found.suspect or "none",
        "weak": tuple(sorted({each.value for each in (*found.weak, *(w for p in found.places for w in p.weak))})),
    }


_FIGURES = (
    ("mark_sd_px", "px", "how well a mark is put"),
    ("known_sd_mm", "mm", "how far a known place is trusted"),
    ("floor_flat_sd_mm", "mm", "how far marks and things stand off the plane"),
    ("lens_k1_sd", "-", "how far the lens may bend the picture, first number; 0 for not at all"),
    ("lens_k2_sd", "-", "how far the lens may bend the picture, second number; 0 for not at all"),
    ("lens_usual_focal", "half diagonals", "usual focal length"),
    ("lens_usual_focal_sd", "-", "how far that is trusted, as a share of it"),
    ("min_triangle_share", "-", "flattest triangle of three marks"),
    ("min_marks_share", "-", "smallest part of the picture that the marks should take in"),
    ("disagree_percent", "%", "chance below which a disagreement is told"),
    ("max_beyond_share", "-", "farthest that a thing may lie beyond the marks"),
    ("low_camera_deg", "deg", "lower than this the camera was low"),
    ("grazing_deg", "deg", "lower than this a sight says nothing"),
    ("max_sd_mm", "mm", "a place trusted to no better is none"),
    ("lens_found_share", "-", "share of what was allowed to which the lens is found"),
)

PHOTO_SUMS = (
    Sum(
        "place-from-photo",
        "Find places on ground or wall from a photo of four known places or more",
        (
            Quantity("mark_x_px", "px", "marks in the picture, to the right", "numbers"),
            Quantity("mark_y_px", "px", "marks in the picture, down", "numbers"),
            Quantity("known_x_mm", "mm", "their places on the plane", "numbers"),
            Quantity("known_y_mm", "mm", "their places on the plane, square to x", "numbers"),
            Quantity("wanted_x_px", "px", "things in the picture, to the right", "numbers", default=()),
            Quantity("wanted_y_px", "px", "things in the picture, down", "numbers", default=()),
            Quantity("width_px", "px", "width of the picture; 0 where unknown", default=0.0),
            Quantity("height_px", "px", "height of the picture; 0 where unknown", default=0.0),
            *(
                Quantity(
                    "flat_sd_mm" if key == "floor_flat_sd_mm" else key, unit, meaning, figure=f"photo_survey.{key}"
                )
                for key, unit, meaning in _FIGURES
            ),
        ),
        (
            Quantity("numbers", "", "a1, b1, c1, a2, b2, c2, a3, b3 from the picture to the plane", "numbers"),
            Quantity("x_mm", "mm", "places of the things that have one", "numbers"),
            Quantity("y_mm", "mm", "the same, square to x", "numbers"),
            Quantity("sd_x_mm", "mm", "how far each is trusted, one deviation", "numbers"),
            Quantity("sd_y_mm", "mm", "the same, square to x", "numbers"),
            Quantity("major_mm", "mm", "larger half-axis of each ellipse, one deviation", "numbers"),
            Quantity("minor_mm", "mm", "smaller half-axis", "numbers"),
            Quantity("bearing_deg", "deg", "direction of the larger one, clockwise from y", "numbers"),
            Quantity("answered", "", "which things have a place, counted from 1", "words"),
            Quantity("off_x_mm", "mm", "known place of each mark less that by the photo", "numbers"),
            Quantity("off_y_mm", "mm", "the same, square to x", "numbers"),
            Quantity("ratio", "", "disagreement over what is allowed; none with nothing spare", "numbers"),
            Quantity("spare", "", "readings more than needed"),
            Quantity("suspect", "", "the mark that the others contradict, counted from 1, or none", "word"),
            Quantity("weak", "", "what the answers rest on, or why there is none", "words"),
        ),
        "X = (a1x + b1y + c1) / (a3x + b3y + 1), Y = (a2x + b2y + c2) / (a3x + b3y + 1)",
        "projective_transformation",
        place_from_photo,
    ),
)
